#include "season/batch_plan.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wheyfield::season {

std::int64_t BatchPlan::total_short() const {
  return std::accumulate(short_ml.begin(), short_ml.end(), std::int64_t{0});
}

const recipe::Dwell& dwell_at(const recipe::Step& step, const Place& place, calendar::Date day,
                              double cool_below) {
  const double mean = place.temperature.mean_over(day, std::max(1, step.warm.likely));
  return mean < cool_below - 1e-9 ? step.cool : step.warm;
}

std::int64_t vessel_capacity_ml(const recipe::Recipe& recipe, const Vessel& vessel) {
  const double litres = recipe::product_filling(recipe, vessel.fill_line);
  return static_cast<std::int64_t>(std::floor(litres * 1000.0 + 1e-6));
}

double milk_per_product(const recipe::Recipe& recipe) {
  return recipe::scale(recipe, 1.0).taken("milk");
}

}  // namespace wheyfield::season
