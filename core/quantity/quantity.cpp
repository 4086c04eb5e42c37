#include "quantity/quantity.h"

#include <cmath>

namespace wheyfield::quantity {

// A litre value that came through several factors may sit a few ulps under a half; the tiny
// relative push makes 0.5 round the same way whichever road it came by.
double rounded(double value, int places) {
  const double scale = std::pow(10.0, places);
  return std::round(value * scale * (1.0 + 1e-12)) / scale + 0.0;  // -0.0 + 0.0 is 0.0
}

long long whole_millilitres(Volume v) { return std::llround(in_millilitres(v) * (1.0 + 1e-12)); }

}  // namespace wheyfield::quantity
