#include "season/lot_planner.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <utility>

#include "season/back_scheduler.h"
#include "season/plan_check.h"

namespace wheyfield::season {
namespace {

// What is measured, and all.
std::pair<std::int64_t, std::int64_t> short_of(const BatchProblem& problem, const BatchPlan& plan) {
  std::int64_t measured = 0;
  for (std::size_t d = 0; d < plan.short_ml.size(); ++d)
    if (!problem.demand[d].guess) measured += plan.short_ml[d];
  return {measured, plan.total_short()};
}

// Little effort, so that many seasons are gone through.
lot_sizing::Effort little() {
  lot_sizing::Effort effort;
  effort.work = 1000000;
  effort.most_work = 3000000;
  return effort;
}

TEST(LotPlanner, RandomSeasonsPassTheCheckerAndAreNeverShorterThanTheBaseline) {
  const int seasons = testing::sanitized ? 8 : 80;
  int cheaper = 0, dearer = 0;
  for (int seed = 1; seed <= seasons; ++seed) {
    const Season season = testing::random_season(static_cast<std::uint64_t>(seed));
    const GatheredDemand demand = testing::gathered(season);
    const BatchPlan plan = LotPlanner(little()).plan(demand.problem);
    const BatchPlan baseline = BackScheduler().plan(demand.problem);
    const outcome::Problems broken = check_plan(demand.problem, plan);
    ASSERT_TRUE(broken.empty()) << seed << " " << broken.front().code << broken.front().field;
    const auto lacks = short_of(demand.problem, plan);
    const auto baseline_lacks = short_of(demand.problem, baseline);
    const auto grid = 10 * static_cast<std::int64_t>(demand.problem.demand.size());
    ASSERT_LE(lacks.first, baseline_lacks.first + grid) << seed;
    if (lacks.first > baseline_lacks.first - grid) {
      ASSERT_LE(lacks.second, baseline_lacks.second + grid) << seed;
    }
    ASSERT_TRUE(plan.certificate && plan.baseline_cost) << seed;
    ASSERT_GE(plan.certificate->gap, 0.0) << seed;
    ASSERT_FALSE(plan.certificate->cost < plan.certificate->bound) << seed;
    if (lacks.first + grid < baseline_lacks.first || lacks.second + grid < baseline_lacks.second)
      continue;
    if (plan.certificate->cost < *plan.baseline_cost) ++cheaper;
    if (*plan.baseline_cost < plan.certificate->cost) ++dearer;
  }
  RecordProperty("cheaper", cheaper);
  RecordProperty("dearer", dearer);
  EXPECT_EQ(dearer, 0);
  EXPECT_GE(cheaper, seasons / 3);
}

}  // namespace
}  // namespace wheyfield::season
