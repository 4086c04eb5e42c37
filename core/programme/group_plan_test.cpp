#include "programme/group_plan.h"

#include <gtest/gtest.h>
#include <support/small_season.h>

#include "season/lot_planner.h"

namespace wheyfield::programme {
namespace {

using calendar::Date;
using calendar::Weekday;
using namespace testing;

DayPlan planned_on(Weekday weekday, const season::Season& season) {
  reference_data::UsedSources used;
  return value_or_abort(plan_meeting_on(weekday, season, serum_recipe(), crops(), bundle(),
                                        season::PlanRules::of(bundle()), used));
}

season::Season two_acres() {
  season::Season s = small_season();
  for (const char* code : {"1", "2"})
    s.farms.push_back(farm(code, 100, {field("maize", 1.0, Date::from_civil(2027, 3, 22), 125)}));
  return s;
}

TEST(GroupPlan, OfItsOwnDayCostsWhatTheSeasonPlanCosts) {
  const season::Season s = two_acres();
  const season::SeasonPlan plan = planned(s, season::LotPlanner());
  const DayPlan day = planned_on(s.meetings.weekday, s);
  ASSERT_TRUE(plan.batches.certificate);
  EXPECT_EQ(day.worth.thousandths, plan.batches.certificate->cost.thousandths());
  EXPECT_EQ(day.worth.short_ml + day.worth.guess_ml, plan.batches.total_short());
  EXPECT_EQ(static_cast<std::size_t>(day.batches), plan.batches.batches.size());
  EXPECT_TRUE(day.first_start == plan.batches.batches.front().start());
}

TEST(GroupPlan, MilkOfMeetingDaysMovesWithTheMeetings) {
  const season::Season s = two_acres();
  for (const Weekday weekday : {Weekday::monday, Weekday::wednesday, Weekday::saturday}) {
    season::Season moved = s;
    moved.meetings.weekday = weekday;
    const season::SeasonPlan plan = planned(moved, season::LotPlanner());
    EXPECT_EQ(planned_on(weekday, s).worth.thousandths,
              plan.batches.certificate->cost.thousandths());
  }
}

TEST(GroupPlan, MolassesIsNeededWhereABatchTakesItLessWhatIsInHand) {
  season::Season s = two_acres();
  const DayPlan day = planned_on(Weekday::thursday, s);
  std::int64_t sum = 0;
  for (const DatedNeed& need : day.molasses) sum += need.ml;
  // Half of what is stored, by the recipe.
  EXPECT_NEAR(static_cast<double>(sum), static_cast<double>(day.made_ml) / 2.0, day.batches + 0.5);
  ASSERT_FALSE(day.molasses.empty());
  EXPECT_TRUE(*day.first_start < day.molasses.front().on);
  s.stock.push_back({"molasses", 0.3, "L", {}});
  std::int64_t less = 0;
  for (const DatedNeed& need : planned_on(Weekday::thursday, s).molasses) less += need.ml;
  EXPECT_EQ(less, sum - 300);
}

TEST(GroupPlan, ACanIsNeededOnTheDayTheLastOneRunsOut) {
  const Date first = Date::from_civil(2027, 3, 1);
  EXPECT_EQ(full_cans({}, 20000).size(), 0u);
  const auto cans = full_cans({{first, 5000}, {first + 7, 15000}, {first + 14, 25000}}, 20000);
  ASSERT_EQ(cans.size(), 3u);  // 45 L in all
  EXPECT_TRUE(cans[0] == first);
  EXPECT_TRUE(cans[1] == first + 14);
  EXPECT_TRUE(cans[2] == first + 14);
  EXPECT_EQ(full_cans({{first, 20000}, {first + 1, 1}}, 20000).size(), 2u);
}

}  // namespace
}  // namespace wheyfield::programme
