#include "season/explain.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include "season/lot_planner.h"
#include "season/lots.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using What = SeasonChange::What;

DueSeason due_of(const Season& season) {
  reference_data::UsedSources used;
  return testing::value_or_abort(due_season(season, testing::serum_recipe(), testing::crops(),
                                            testing::bundle(), PlanRules::of(testing::bundle()),
                                            used));
}

lot_sizing::Effort scant() {
  lot_sizing::Effort effort;
  effort.work = 1000000;
  effort.most_work = 3000000;
  return effort;
}

LotPlanner quick() { return LotPlanner(scant()); }

// Maize to be sown on 15 March whose land is prepared before any serum can be ready.
Season too_late() {
  Season season = testing::season_of(
      {testing::field("maize", 2, calendar::Date::from_civil(2027, 3, 15), 150)});
  season.first_start = calendar::Date::from_civil(2027, 3, 1);
  return season;
}

TEST(Explain, NothingShortNeedsNoExplanation) {
  Season season = too_late();
  season.first_start = season.from;
  season.milk.front().most = quantity::litres(10);
  const Explanation none = explain(due_of(season), LotPlanner(), 30);
  EXPECT_EQ(none.short_ml, 0);
  EXPECT_TRUE(none.days.empty() && none.lifted.empty() && none.cures.empty());
}

TEST(Explain, AStartTooLateIsCuredByAnEarlierOneAndByNothingElse) {
  const Season season = too_late();
  const DueSeason due = due_of(season);
  const Explanation why = explain(due, LotPlanner(), 30);
  ASSERT_GT(why.short_ml, 0);
  EXPECT_GE(why.at_least_ml, why.short_ml - 10) << "proven, but for the grid of 10 mL";
  ASSERT_FALSE(why.days.empty());
  EXPECT_EQ(why.lifted.size(), 3U) << "neither milk nor vessels nor keeping alone";
  ASSERT_FALSE(why.cures.empty());
  EXPECT_EQ(why.cures.front().short_ml, 0);
  EXPECT_EQ(why.cures.front().changes.front().what, What::start_earlier);
  const Season cured = changed(season, why.cures.front().changes.front());
  EXPECT_EQ(better_turn(due_of(cured), LotPlanner(), 0).plan.total_short(), 0);
  SeasonChange a_day_less = why.cures.front().changes.front();
  --a_day_less.days;
  EXPECT_GT(better_turn(due_of(changed(season, a_day_less)), LotPlanner(), 0).plan.total_short(),
            0);
}

TEST(Explain, TooLittleMilkIsNotCuredByVessels) {
  Season season = testing::season_of(
      {testing::field("maize", 30, calendar::Date::from_civil(2027, 4, 15), 150)});
  season.milk.front().most = quantity::litres(3);
  season.serum_life_days = 20;
  const Explanation why = explain(due_of(season), LotPlanner(), 30);
  ASSERT_GT(why.short_ml, 0);
  bool vessels_cannot = false;
  for (const Lifted& lifted : why.lifted) {
    EXPECT_NE(lifted.limit, "milk");
    vessels_cannot |= lifted.limit == "vessel";
  }
  EXPECT_TRUE(vessels_cannot);
}

// What no plan fills together was not tried, and is no proof.
TEST(Explain, VesselsWithoutLimitHoldWhateverTheMilkGives) {
  Season season = too_late();
  season.milk.front().most = quantity::litres(40);
  season.vessels.front().size = quantity::litres(1);
  season.vessels.front().fill_line = quantity::litres(0.6);
  BatchProblem problem = due_of(season).turns.front().problem;
  ChainTable chains(problem);
  Date filled = season.first_start;
  while (!season.milk_on(filled) || !chains.at(0, Milk::heated_cooled, filled) ||
         chains.at(0, Milk::heated_cooled, filled)->front().from < season.first_start)
    filled = filled + 1;
  problem.demand = {{chains.at(0, Milk::heated_cooled, filled)->back().to,
                     chains.at(0, Milk::heated_cooled, filled)->back().to, 20000}};
  EXPECT_GT(least_short_ml(problem), 18000);
  EXPECT_LT(least_short_ml(problem), 20000);
  problem.vessels_without_limit = true;
  EXPECT_EQ(least_short_ml(problem), 0);
}

TEST(Explain, OfRandomSeasonsNoBoundIsAbovePlanAndEveryCureCures) {
  const int seasons = testing::sanitized ? 1 : 4;
  int short_ones = 0, cured = 0;
  for (int seed = 1; seed <= seasons; ++seed) {
    const Season season = testing::random_season(static_cast<std::uint64_t>(seed));
    const DueSeason due = due_of(season);
    const Explanation why = explain(due, quick(), 30, scant());
    ASSERT_LE(why.at_least_ml, why.short_ml) << seed;
    if (why.short_ml == 0) continue;
    ++short_ones;
    std::int64_t sum = 0;
    for (const ShortDay& day : why.days) {
      sum += day.short_ml;
      ASSERT_LE(day.by_then_at_least_ml, sum) << seed << " " << day.collect.iso();
    }
    EXPECT_EQ(sum, why.short_ml) << seed;
    for (const Lifted& lifted : why.lifted) ASSERT_LE(lifted.at_least_ml, why.at_least_ml) << seed;
    for (const Cure& cure : why.cures) {
      ASSERT_LT(cure.short_ml, why.short_ml) << seed;
      if (cure.short_ml > 0 || cure.changes.front().what == What::hand_out_later) continue;
      Season other = season;
      for (const SeasonChange& change : cure.changes) other = changed(other, change);
      ASSERT_EQ(better_turn(due_of(other), quick(), 0).plan.total_short(), 0) << seed;
      ++cured;
    }
  }
  EXPECT_GE(short_ones, 1);
  RecordProperty("cured", cured);
}

}  // namespace
}  // namespace wheyfield::season
