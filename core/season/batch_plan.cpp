#include "season/batch_plan.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace wheyfield::season {

std::int64_t BatchPlan::total_short() const {
  return std::accumulate(short_ml.begin(), short_ml.end(), std::int64_t{0});
}

void name_batches(const BatchProblem& problem, BatchPlan& plan) {
  std::set<std::string> taken;
  const auto stands = static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()));
  for (Batch& batch : plan.batches)
    for (const Told& told : problem.announced.told)
      if (batch.name.empty() && told.vessel == batch.vessel &&
          told.fill_day == batch.steps[stands].from)
        batch.name = told.name;
  for (const Batch& batch : plan.batches) taken.insert(batch.name);
  taken.insert(problem.announced.names.begin(), problem.announced.names.end());
  int number = 0;
  for (Batch& batch : plan.batches)
    while (batch.name.empty())
      if (const std::string next = "B" + std::to_string(++number); taken.count(next) == 0)
        batch.name = next;
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
