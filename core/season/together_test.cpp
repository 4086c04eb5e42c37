// Several preparations of one season: they share vessels, milk and hands.
#include <gtest/gtest.h>
#include <support/beside.h>

#include "season/back_scheduler.h"
#include "season/lot_planner.h"
#include "season/plan_check.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

std::vector<BatchProblem> problems_of(const Season& season) {
  std::vector<BatchProblem> all{testing::gathered(season).problem};
  for (BatchProblem& other : beside(season, PlanRules::of(testing::bundle())))
    all.push_back(std::move(other));
  return all;
}

lot_sizing::Effort sparing() {
  lot_sizing::Effort effort;
  effort.work = 1000000;
  effort.most_work = 3000000;
  return effort;
}

// 3 L of juice by 1 May and a heap of 500 L by 15 May, beside 2 acres of maize.
Season maize_and_more() {
  Season s = testing::season_of({testing::field("maize", 2, Date::from_civil(2027, 4, 10), 150)});
  s.first_start = s.from;
  s.prices.push_back({"sugar", 1, "kg", testing::money(160)});
  s.vessels.push_back(testing::heap_place(0, 2000));
  const Date juice = Date::from_civil(2027, 5, 1), heap = Date::from_civil(2027, 5, 15);
  s.preparations.push_back({&testing::plant_juice(), 30, {{juice, juice, 2000}}});
  s.preparations.push_back({&testing::compost_heap(), 90, {{heap, heap, 500000}}});
  return s;
}

double most_hours_on_a_day(const Season& season, const std::vector<BatchPlan>& plans) {
  std::map<int, double> work;
  for (std::size_t r = 0; r < plans.size(); ++r) {
    const recipe::Recipe& recipe =
        r == 0 ? testing::serum_recipe() : *season.preparations[r - 1].recipe;
    for (const Batch& b : plans[r].batches)
      for (const auto& [day, hours] : work_days(recipe, b.steps)) work[day] += hours;
  }
  double most = 0.0;
  for (const auto& [day, hours] : work) most = std::max(most, hours);
  return most;
}

// Thousandths of the wages of all batches but spares.
std::int64_t labour_of(const std::vector<BatchProblem>& problems,
                       const std::vector<BatchPlan>& plans) {
  double hours = 0.0;
  for (std::size_t r = 0; r < plans.size(); ++r)
    for (const Batch& b : plans[r].batches)
      if (!b.spare) hours += recipe::labour_hours(*problems[r].recipe);
  const Season& season = *problems.front().season;
  return season.labour_day.times(0.999 * hours / season.labour_hours).thousandths();
}

// What is measured, and all.
std::pair<std::int64_t, std::int64_t> lacking(const BatchProblem& problem, const BatchPlan& plan) {
  std::int64_t measured = 0;
  for (std::size_t d = 0; d < plan.short_ml.size(); ++d)
    if (!problem.demand[d].guess) measured += plan.short_ml[d];
  return {measured, plan.total_short()};
}

TEST(Together, EachStandsInAVesselOfItsKindAndIsNamedByItsRecipe) {
  const Season season = maize_and_more();
  std::vector<BatchProblem> problems = problems_of(season);
  std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  ASSERT_EQ(plans.size(), 3U);
  EXPECT_TRUE(check_plans(problems, plans).empty());
  for (std::size_t r = 0; r < plans.size(); ++r) {
    name_batches(problems[r], plans[r]);
    EXPECT_EQ(plans[r].total_short(), 0) << r;
    ASSERT_FALSE(plans[r].batches.empty()) << r;
    EXPECT_EQ(plans[r].batches.front().name, std::string(1, "BPH"[r]) + "1");
  }
  const Batch& heap = plans[2].batches.front();
  EXPECT_EQ(season.vessels[heap.vessel].kind, recipe::VesselKind::heap);
  EXPECT_GE(heap.stored_ml, least_working_ml(testing::compost_heap()));
}

// The heap needs 1,000 L to heat, and 0.5 L of compost come of each.
TEST(Together, ASmallHeapIsMadeLargeEnoughToHeat) {
  Season season = maize_and_more();
  season.preparations[1].wanted[0].ml = 80000;
  const LotPlanner planner;
  const BackScheduler baseline;
  for (const BatchPlanner* one :
       {static_cast<const BatchPlanner*>(&planner), static_cast<const BatchPlanner*>(&baseline)}) {
    const std::vector<BatchPlan> plans = one->plan_together(problems_of(season));
    ASSERT_EQ(plans[2].batches.size(), 1U);
    EXPECT_EQ(plans[2].batches[0].stored_ml, 500000);
    EXPECT_EQ(plans[2].total_short(), 0);
  }
}

TEST(Together, RandomSeasonsKeepEveryLimitAndAreNoShorterThanOneAfterTheOther) {
  const int seasons = testing::sanitized ? 1 : 10;
  int shared = 0;
  for (int seed = 1; seed <= seasons; ++seed) {
    const auto n = static_cast<std::uint64_t>(seed);
    const Season season = testing::with_beside(testing::random_season(n), n);
    const std::vector<BatchProblem> problems = problems_of(season);
    const std::vector<BatchPlan> plans = LotPlanner(sparing()).plan_together(problems);
    const outcome::Problems broken = check_plans(problems, plans);
    ASSERT_TRUE(broken.empty()) << seed << " " << broken.front().code << broken.front().field;
    const std::vector<BatchPlan> counted = BackScheduler().plan_together(problems);
    const outcome::Problems counted_broken = check_plans(problems, counted);
    ASSERT_TRUE(counted_broken.empty())
        << seed << " " << counted_broken.front().code << counted_broken.front().field;
    const Certificate& proven = plans.front().certificate.value();
    EXPECT_FALSE(proven.cost < proven.bound) << seed;
    EXPECT_GE(proven.gap, 0.0) << seed;
    EXPECT_GE(proven.cost.thousandths(), labour_of(problems, plans)) << seed;
    // Alone it is never worse off, by what is measured first.
    const BatchPlan alone = LotPlanner(sparing()).plan(problems.front());
    if (alone.certificate->least_short) {
      EXPECT_LE(alone.total_short(), plans.front().total_short()) << seed;
    }
    // Nor worse off: what the others want is never what it lacks.
    EXPECT_LE(lacking(problems.front(), plans.front()), lacking(problems.front(), alone)) << seed;
    shared += plans[1].batches.empty() ? 0 : 1;
  }
  EXPECT_GE(shared, seasons / 2);
}

// The only bucket is wanted by both at once: the serum goes first, and the juice is short.
TEST(Together, WhatIsWantedOfOneBucketByTwoGoesToTheSerum) {
  Season season = testing::season_of({});
  season.first_start = Date::from_civil(2027, 2, 4);
  season.prices.push_back({"sugar", 1, "kg", testing::money(160)});
  season.preparations.push_back({&testing::plant_juice(), 30, {}});
  std::vector<BatchProblem> problems = problems_of(season);
  ChainTable serum(problems[0]), juice(problems[1]);
  const auto first_chain = [&](ChainTable& chains, const auto& fits) {
    for (Date day = season.first_start;; day = day + 1)
      if (const auto& chain = chains.at(0, Milk::heated_cooled, day);
          chain && chain->front().from >= season.first_start && fits(day))
        return *chain;
  };
  const auto milked = first_chain(serum, [&](Date day) { return season.milk_on(day) != nullptr; });
  const auto packed = first_chain(juice, [](Date) { return true; });
  ASSERT_LT(packed[1].from, milked[2].to);
  ASSERT_LT(milked[2].from, packed[1].to);
  problems[0].demand = {{milked.back().to, milked.back().to, 2000}};
  problems[1].demand = {{packed.back().to, packed.back().to, 2000}};
  EXPECT_EQ(LotPlanner().plan(problems[1]).total_short(), 0);
  const std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  EXPECT_TRUE(check_plans(problems, plans).empty());
  EXPECT_EQ(plans[0].total_short(), 0);
  EXPECT_EQ(plans[1].total_short(), 2000);
}

// The most that stands in cans at the end of a day [mL].
std::int64_t most_stored(const std::vector<BatchProblem>& problems,
                         const std::vector<BatchPlan>& plans) {
  std::map<int, std::int64_t> change;
  for (std::size_t r = 0; r < plans.size(); ++r)
    for (std::size_t d = 0; d < plans[r].draws.size(); ++d)
      for (const Draw& draw : plans[r].draws[d]) {
        change[plans[r].batches[draw.lot].ready.days()] += draw.ml;
        change[problems[r].demand[d].collect.days()] -= draw.ml;
      }
  std::int64_t stored = 0, most = 0;
  for (const auto& [day, ml] : change) most = std::max(most, stored += ml);
  return most;
}

// Serum is short of a hand-out that no batch can be ready for, so each is planned in what the
// others leave as well; alone either would be ready early, for fear of failures.
TEST(Together, WhatIsShortOfOneDoesNotFillCansTwice) {
  const Season season = maize_and_more();
  std::vector<BatchProblem> problems = problems_of(season);
  problems.pop_back();
  const Date too_early = season.from + 1, later = Date::from_civil(2027, 4, 15);
  problems[0].demand = {{too_early, too_early, 1000}, {later, later, 4000}};
  problems[1].demand = {{later + 6, later + 6, 4000}};
  for (BatchProblem& problem : problems) problem.storage = quantity::litres(6);
  std::vector<BatchPlan> alone;
  for (const BatchProblem& problem : problems) alone.push_back(LotPlanner().plan(problem));
  ASSERT_GT(most_stored(problems, alone), 6000);
  const std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  EXPECT_EQ(plans[0].total_short(), 1000);
  EXPECT_EQ(plans[1].total_short(), 0);
  EXPECT_LE(most_stored(problems, plans), 6000);
}

TEST(Together, FewHandsSpreadTheWorkOverDays) {
  Season season = maize_and_more();
  season.vessels.push_back(season.vessels.front());
  season.vessels.back().name = "B";
  season.milk.front().meeting_days_only = false;
  const std::vector<BatchProblem> free = problems_of(season);
  const double before = most_hours_on_a_day(season, LotPlanner().plan_together(free));
  ASSERT_GT(before, 6.0) << "building a heap";
  season.hands = Hands{before - 0.5, 3.0};
  const std::vector<BatchProblem> problems = problems_of(season);
  const std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  EXPECT_TRUE(check_plans(problems, plans).empty());
  EXPECT_LE(most_hours_on_a_day(season, plans), before - 0.5 + 1e-9);
  std::vector<BatchProblem> lifted = problems;
  for (BatchProblem& problem : lifted) problem.hands_without_limit = true;
  EXPECT_NEAR(most_hours_on_a_day(season, LotPlanner().plan_together(lifted)), before, 1e-9);
}

// The checker itself: what two preparations take of one vessel, the milk or the hands is seen.
TEST(Together, TheCheckerSeesWhatIsTakenTwice) {
  const Season season = maize_and_more();
  const std::vector<BatchProblem> problems = problems_of(season);
  std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  const auto code = [&](const Season& as, const std::vector<BatchPlan>& of) -> std::string {
    std::vector<BatchProblem> those = problems;
    for (BatchProblem& problem : those) problem.season = &as;
    const outcome::Problems found = check_plans(those, of);
    return found.empty() ? "" : found.front().code;
  };
  EXPECT_EQ(code(season, plans), "");
  Season tired = season;
  tired.hands = Hands{2.0, 2.0};
  EXPECT_EQ(code(tired, plans), "plan-hands-over");
  std::vector<BatchPlan> wrong = plans;
  wrong[2].batches[0].vessel = 0;
  EXPECT_EQ(code(season, wrong), "plan-vessel-overfull");
  wrong = plans;
  wrong[2].batches[0].stored_ml = 90000;
  EXPECT_EQ(code(season, wrong), "plan-vessel-underfull");
  wrong = plans;
  wrong[1].batches.push_back(wrong[1].batches.front());
  EXPECT_EQ(code(season, wrong), "plan-vessel-busy");
}

TEST(Together, TheRiskOfEachIsItsOwn) {
  const Season season = maize_and_more();
  const std::vector<BatchProblem> problems = problems_of(season);
  const std::vector<BatchPlan> plans = LotPlanner().plan_together(problems);
  const SeasonRisk risk = season_risk(problems, plans, 1, 4000);
  ASSERT_EQ(risk.others_on_time.size(), 2U);
  for (const double share : risk.others_on_time) {
    EXPECT_GT(share, 0.5);
    EXPECT_LE(share, 1.0);
  }
  std::vector<BatchProblem> sure = problems;
  for (BatchProblem& problem : sure) problem.chances = {};
  const SeasonRisk none = season_risk(sure, plans, 1, 100);
  EXPECT_EQ(none.others_on_time, (std::vector<double>{1.0, 1.0}));
}

}  // namespace
}  // namespace wheyfield::season
