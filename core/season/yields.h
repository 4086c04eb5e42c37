// What the measured yields may bring of each batch, against what the plan draws from it: what is
// handed out and what is kept for seed that is weighed at the hand-out.
#pragma once

#include <cstdint>
#include <vector>

#include "season/plan.h"

namespace wheyfield::season {

struct BatchYield {
  std::int64_t low_ml = 0;  // every measured yield of the recipe at the low end of its range
  std::int64_t high_ml = 0;
  std::int64_t drawn_ml = 0;

  // Drawn and not there when the yields are low.
  std::int64_t missing_ml() const { return drawn_ml > low_ml ? drawn_ml - low_ml : 0; }
};

// One for each batch, in their order.
std::vector<BatchYield> batch_yields(const recipe::Recipe& recipe, const SeasonPlan& plan);
// Of a preparation.
std::vector<BatchYield> batch_yields(const recipe::Recipe& recipe, const PreparationPlan& plan);

}  // namespace wheyfield::season
