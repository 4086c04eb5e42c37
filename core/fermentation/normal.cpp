#include "fermentation/normal.h"

#include <cmath>
#include <numbers>

namespace wheyfield::fermentation {

double even(numerics::Stream& stream) {
  return (static_cast<double>(stream.next() >> 11) + 0.5) * 0x1.0p-53;
}

double standard_normal(numerics::Stream& stream) {
  for (;;) {
    const double x = 2.0 * even(stream) - 1.0;
    const double y = 2.0 * even(stream) - 1.0;
    const double square = x * x + y * y;
    if (square < 1.0 && square > 0.0) return x * std::sqrt(-2.0 * std::log(square) / square);
  }
}

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

}  // namespace wheyfield::fermentation
