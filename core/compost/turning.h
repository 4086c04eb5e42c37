// When a heap is turned: a first time, then again and again at an even step.
#pragma once

#include <vector>

namespace wheyfield::compost {

struct TurningPlan {
  int first = 0;  // day of the first turning, the day of building is 0
  int every = 0;  // [days], > 0
  int count = 0;  // turnings, > 0
  int ready = 0;  // day
};

// Days of the turnings, in order.
std::vector<int> turning_days(const TurningPlan& plan);

}  // namespace wheyfield::compost
