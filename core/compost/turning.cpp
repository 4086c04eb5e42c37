#include "compost/turning.h"

namespace wheyfield::compost {

std::vector<int> turning_days(const TurningPlan& plan) {
  std::vector<int> days;
  for (int turning = 0; turning < plan.count; ++turning)
    days.push_back(plan.first + turning * plan.every);
  return days;
}

}  // namespace wheyfield::compost
