#include "season/change.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <set>

#include "season/lot_planner.h"
#include "season/plan_check.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

DueSeason due_in(const Season& season) {
  reference_data::UsedSources used;
  return testing::value_or_abort(due_season(season, testing::serum_recipe(), testing::crops(),
                                            testing::bundle(), PlanRules::of(testing::bundle()),
                                            used));
}

std::vector<ToldBatch> told_of(const Season& season, const BatchPlan& plan) {
  const auto stands = static_cast<std::size_t>(testing::serum_recipe().vessel_step());
  std::vector<ToldBatch> told;
  for (const Batch& b : plan.batches)
    told.push_back({b.name, season.vessels[b.vessel].name, b.start(), b.steps[stands].from, b.ready,
                    b.stored_ml});
  return told;
}

// A plan, and the plan that is made of it on `on` with everything announced up to `until`.
struct Replanned {
  std::vector<ToldBatch> told;
  BatchProblem problem;
  BatchPlan plan;
  std::vector<Difference> differences;
};

LotPlanner small_effort() {
  lot_sizing::Effort effort;
  effort.work = 1000000;
  effort.most_work = 3000000;
  return LotPlanner(effort);
}

BatchPlan named_plan(const BatchProblem& problem) {
  BatchPlan plan = small_effort().plan(problem);
  name_batches(problem, plan);
  return plan;
}

Replanned replanned(const Season& before, const Season& now, Date on, Date until,
                    const std::set<std::string>& failed = {}) {
  Replanned all;
  const DueSeason due_before = due_in(before);
  const BatchPlan first = named_plan(due_before.turns.front().problem);
  all.told = told_of(before, first);
  for (ToldBatch& batch : all.told) batch.failed = failed.count(batch.name) != 0;
  DueSeason due = due_in(now);
  keep_announced(
      {testing::value_or_abort(announced(now, testing::serum_recipe(), now.serum_life_days,
                                         PlanRules::of(testing::bundle()), all.told, {on, until}))},
      due);
  all.problem = due.turns.front().problem;
  all.plan = named_plan(all.problem);
  all.differences = differences(now, all.told, all.plan);
  return all;
}

Season three_fields() {
  Season season =
      testing::season_of({testing::field("maize", 4, Date::from_civil(2027, 3, 20), 150),
                          testing::field("maize", 3, Date::from_civil(2027, 4, 10), 150),
                          testing::field("maize", 3, Date::from_civil(2027, 5, 1), 150)});
  season.milk.front().most = quantity::litres(6);
  season.vessels.push_back(season.vessels.front());
  season.vessels.back().name = "B";
  return season;
}

std::string code_of(const Season& season, const std::vector<ToldBatch>& told) {
  const auto result = announced(season, testing::serum_recipe(), season.serum_life_days,
                                PlanRules::of(testing::bundle()), told,
                                {Date::from_civil(2027, 3, 1), Date::from_civil(2027, 4, 1)});
  return result ? "" : result.error().front().code;
}

TEST(Change, WhenNothingHappenedNothingChanges) {
  const Season season = three_fields();
  const Date on = Date::from_civil(2027, 3, 18);
  const Replanned same = replanned(season, season, on, on + 7);
  ASSERT_GE(same.told.size(), 3U);
  for (const Difference& d : same.differences) EXPECT_EQ(d.what, Difference::What::kept);
  EXPECT_EQ(same.plan.total_short(), 0);
}

TEST(Change, AfterAFailedBatchWhatIsAnnouncedStaysAndNothingStartsInThePast) {
  const Season season = three_fields();
  const Date on = Date::from_civil(2027, 3, 18);
  const Date until = on + 30;
  const Replanned after = replanned(season, season, on, until, {"B1"});
  const outcome::Problems broken = check_plan(after.problem, after.plan);
  ASSERT_TRUE(broken.empty()) << broken.front().code << broken.front().field;
  int kept = 0;
  for (const ToldBatch& told : after.told) {
    if (told.failed || told.start > until) continue;
    const auto same =
        std::find_if(after.plan.batches.begin(), after.plan.batches.end(), [&](const Batch& b) {
          return b.name == told.name && b.start() == told.start && b.stored_ml == told.stored_ml &&
                 b.announced;
        });
    EXPECT_NE(same, after.plan.batches.end()) << told.name;
    ++kept;
  }
  EXPECT_GE(kept, 1);
  for (const Batch& b : after.plan.batches) {
    EXPECT_TRUE(b.announced || b.start() >= on) << b.name;
    EXPECT_NE(b.name, "B1") << "the name of a lost batch is not given again";
  }
}

TEST(Change, RandomSeasonsKeepWhatIsAnnouncedAndPassTheChecker) {
  const int seasons = testing::sanitized ? 3 : 25;
  int changed = 0;
  for (int seed = 1; seed <= seasons; ++seed) {
    const Season season = testing::random_season(static_cast<std::uint64_t>(seed));
    const Date on = season.first_start + 30;
    const Replanned after = replanned(season, season, on, on + 10, {"B2"});
    const outcome::Problems broken = check_plan(after.problem, after.plan);
    ASSERT_TRUE(broken.empty()) << seed << " " << broken.front().code << broken.front().field;
    std::size_t announced_before = 0, announced_now = 0;
    for (const ToldBatch& told : after.told)
      announced_before += !told.failed && told.start <= on + 10 ? 1U : 0U;
    for (const Batch& b : after.plan.batches) announced_now += b.announced ? 1U : 0U;
    ASSERT_EQ(announced_before, announced_now) << seed;
    std::set<std::string> names;
    for (const Batch& b : after.plan.batches) ASSERT_TRUE(names.insert(b.name).second) << seed;
    std::size_t before = 0, now = 0;
    for (const Difference& d : after.differences) {
      before += d.before ? 1U : 0U;
      now += d.now ? 1U : 0U;
      changed += d.what != Difference::What::kept ? 1 : 0;
    }
    ASSERT_EQ(before, after.told.size()) << seed;
    ASSERT_EQ(now, after.plan.batches.size()) << seed;
  }
  EXPECT_GE(changed, 1);
}

TEST(Change, WhatCannotBeKeptIsRefusedByName) {
  Season season = three_fields();
  const Date day = Date::from_civil(2027, 3, 18);
  const ToldBatch batch{"B1", "A", day - 7, day, day + 7, 2000};
  EXPECT_EQ(code_of(season, {batch}), "");
  ToldBatch gone = batch;
  gone.vessel = "Z";
  EXPECT_EQ(code_of(season, {gone}), "announced-vessel-gone");
  gone.start = day + 100;
  EXPECT_EQ(code_of(season, {gone}), "") << "only told, not announced: it may go";
  ToldBatch full = batch;
  full.stored_ml = 40000;
  EXPECT_EQ(code_of(season, {full}), "announced-overfull");
  ToldBatch other = batch;
  other.name = "B2";
  other.fill_day = day + 2;
  EXPECT_EQ(code_of(season, {batch, other}), "announced-clash");
  other.failed = true;
  EXPECT_EQ(code_of(season, {batch, other}), "");
}

}  // namespace
}  // namespace wheyfield::season
