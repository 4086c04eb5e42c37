#include "season/batch_plan.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace wheyfield::season {
namespace {

std::size_t vessel_step_of(const recipe::Recipe& recipe) {
  return static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
}

}  // namespace

std::int64_t BatchPlan::total_short() const {
  return std::accumulate(short_ml.begin(), short_ml.end(), std::int64_t{0});
}

void name_batches(const BatchProblem& problem, BatchPlan& plan) {
  std::set<std::string> taken;
  const std::size_t vessel_step = vessel_step_of(*problem.recipe);
  for (Batch& batch : plan.batches)
    for (const Told& told : problem.announced.told)
      if (batch.name.empty() && told.vessel == batch.vessel &&
          told.fill_day == batch.steps[vessel_step].from)
        batch.name = told.name;
  for (const Batch& batch : plan.batches) taken.insert(batch.name);
  taken.insert(problem.announced.names.begin(), problem.announced.names.end());
  int number = 0;
  for (Batch& batch : plan.batches)
    while (batch.name.empty())
      if (const std::string next = problem.recipe->letter + std::to_string(++number);
          taken.count(next) == 0)
        batch.name = next;
}

std::int64_t vessel_capacity_ml(const recipe::Recipe& recipe, const Vessel& vessel) {
  const int step = recipe.vessel_step();
  if (step >= 0 && recipe.steps[static_cast<std::size_t>(step)].kind != vessel.kind) return 0;
  Volume line = vessel.fill_line;
  if (step >= 0)
    if (const auto& most = recipe.steps[static_cast<std::size_t>(step)].most_fill)
      line = std::min(line, quantity::litres(most->value));
  const double litres = recipe::product_filling(recipe, line);
  return static_cast<std::int64_t>(std::floor(litres * 1000.0 + 1e-6));
}

std::int64_t least_working_ml(const recipe::Recipe& recipe) {
  const int step = recipe.vessel_step();
  if (step < 0) return 0;
  const auto& least = recipe.steps[static_cast<std::size_t>(step)].least_fill;
  if (!least) return 0;
  const double litres = recipe::product_filling(recipe, quantity::litres(least->value));
  return static_cast<std::int64_t>(std::ceil(litres * 1000.0 - 1e-6));
}

std::map<int, double> work_days(const recipe::Recipe& recipe, const std::vector<BatchStep>& steps) {
  std::map<int, double> hours;
  for (const BatchStep& dated : steps) {
    const recipe::Step& step = recipe.steps[dated.step];
    hours[dated.from.days()] += step.labour_hours.value;
    for (const recipe::TaskTemplate& task : step.tasks)
      if (task.hours)
        hours[((task.at_end ? dated.to : dated.from) + task.day).days()] += task.hours->value;
  }
  return hours;
}

std::optional<double> hours_on(const Season& season, calendar::Date day) {
  if (!season.hands) return std::nullopt;
  return season.meetings.meets(day) ? season.hands->meeting_day : season.hands->other_day;
}

std::vector<Stand> stands(const recipe::Recipe& recipe, const std::vector<Batch>& batches) {
  std::vector<Stand> all;
  const double milk = milk_per_product(recipe);
  for (const Batch& b : batches) {
    const BatchStep& step = b.steps[vessel_step_of(recipe)];
    all.push_back({b.vessel, step.from, step.to,
                   std::llround(static_cast<double>(b.stored_ml) * milk),
                   work_days(recipe, b.steps)});
  }
  return all;
}

std::vector<BatchPlan> BatchPlanner::plan_together(
    const std::vector<BatchProblem>& problems) const {
  std::vector<BatchPlan> plans;
  std::vector<Stand> taken;
  for (const BatchProblem& problem : problems) {
    BatchProblem beside = problem;
    beside.taken.insert(beside.taken.end(), taken.begin(), taken.end());
    plans.push_back(plan(beside));
    for (Stand& stand : stands(*problem.recipe, plans.back().batches))
      taken.push_back(std::move(stand));
  }
  return plans;
}

double milk_per_product(const recipe::Recipe& recipe) {
  return recipe::scale(recipe, 1.0).taken("milk");
}

}  // namespace wheyfield::season
