// How warm is the bucket at each hour? It hangs on nothing else in the batch, so its equation
//   dT/dt = (T_air(t) + offset - T) / tau
// is solved exactly, from corner to corner of the air's joined lines: within one, the air being
// a + s d after d hours,
//   T(d) = a + s (d - tau) + (T(0) - a + s tau) e^(-d/tau)
#pragma once

#include <vector>

#include "fermentation/air.h"

namespace wheyfield::fermentation {

class Warmth {
 public:
  // `begin` [C] at hour 0; `offset` [C] added to the air; `tau` > 0 [h]; known up to `horizon` [h].
  Warmth(const Air& air, double begin, double offset, double tau, double horizon);

  // [C], 0 <= hours <= horizon.
  double at(double hours) const;

 private:
  struct Stretch {
    double start;  // [h]
    double line;   // a - s tau
    double slope;  // s [C/h]
    double off;    // T(0) - line
  };
  std::vector<Stretch> stretches_;
  double corner_;  // end of the first stretch [h]
  double tau_;
};

}  // namespace wheyfield::fermentation
