#include "season/harvest_wait.h"

#include <gtest/gtest.h>
#include <support/day.h>
#include <support/small_season.h>

#include <algorithm>
#include <map>
#include <optional>

namespace wheyfield::season {
namespace {

using wheyfield::testing::bundle;
using wheyfield::testing::field;
using wheyfield::testing::on;
using wheyfield::testing::season_of;
using wheyfield::testing::uses_of;

std::optional<HarvestWait> wait_of(const Season& season, const FieldUse& use) {
  return harvest_wait(season, use, dosing::harvest_rule(bundle()));
}

// By event of the use; events that leave no serum on leaves are missing.
std::map<std::string, HarvestWait> waits(const std::string& crop, int days,
                                         const std::string& method) {
  Season s = season_of({field(crop, 1, on(3, 22), days)});
  s.farms[0].method.id = method;
  std::map<std::string, HarvestWait> found;
  for (const FieldUse& use : uses_of(s))
    if (const auto wait = wait_of(s, use)) found.emplace(use.use.event, *wait);
  return found;
}

// By hand: sown 22 March and picked first 100 days later, 30 June; the wait is 14 days.
TEST(HarvestWait, PickingWaitsForTheLastDayOfTheWindow) {
  const Season s = season_of({field("carrot", 1, on(3, 22), 100)});
  int found = 0;
  for (const FieldUse& use : uses_of(s)) {
    const auto wait = wait_of(s, use);
    if (!wait) continue;
    ++found;
    EXPECT_EQ(wait->first_picking.iso(), "2027-06-30");
    EXPECT_EQ(wait->use_by.iso(), "2027-06-16");
    EXPECT_EQ(wait->pick_from, use.use.window.late + 14);
    EXPECT_FALSE(wait->passes_picking());
  }
  EXPECT_EQ(found, 2);  // seedling and swelling: before the seedling nothing stands
}

TEST(HarvestWait, OnlyLeavesThatAreEatenRawWait) {
  EXPECT_TRUE(waits("maize", 125, "knapsack").empty());
  EXPECT_EQ(waits("kale", 60, "leafy-branch").size(), 2u);
  EXPECT_TRUE(waits("kale", 60, "round-stem").empty());
}

// From flowering on only the soil at the stem is left (dosing::placements).
TEST(HarvestWait, LeavesAreClosedFromFloweringOn) {
  const auto tomato = waits("tomato", 135, "knapsack");
  EXPECT_EQ(tomato.size(), 1u);
  EXPECT_EQ(tomato.count("seedling"), 1u);
}

TEST(HarvestWait, AUseAfterTheFirstPickingGoesToTheSoil) {
  Season s = season_of({field("kale", 1, on(3, 22), 60)});
  const std::vector<FieldUse> uses = uses_of(s);
  s.farms[0].fields[0].planting.harvest_after = 1;
  for (const FieldUse& use : uses) EXPECT_FALSE(wait_of(s, use).has_value()) << use.use.id;
}

// The days of the rule as in the data: 120 where the edible part touches the soil
// (raw-manure-soil-days, memory of 7 CFR 205.203(c)(1)).
constexpr int manure_days = 120;

std::vector<RawGround> grounds(const std::vector<Field>& fields, const std::string& method) {
  Season s = season_of(fields);
  s.farms[0].method.id = method;
  std::vector<PlannedUse> planned;
  for (const FieldUse& use : uses_of(s)) planned.emplace_back().due = use;
  return raw_grounds(s, planned, manure_days);
}

// Kale is a leaf eaten raw, carrot a root; tomato hangs, maize and cassava are cooked.
TEST(RawGround, OnlyWhatIsEatenRawAndTouchesTheSoilIsNamed) {
  const auto found =
      grounds({field("maize", 1, on(3, 22), 125), field("kale", 1, on(3, 22), 40),
               field("tomato", 1, on(3, 22), 100), field("cassava", 1, on(3, 22), 115),
               field("carrot", 1, on(3, 22), 100)},
              "round-stem");
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].field, 1u);
  EXPECT_EQ(found[1].field, 4u);
  EXPECT_EQ(found[0].first_picking.iso(), "2027-05-01");  // 40 days after 22 March
}

// By knapsack only land preparation reaches the soil, and it is over before the field is set out;
// round the stem the last use counts.
TEST(RawGround, TheLastUseThatReachesTheSoilCounts) {
  const auto sprayed = grounds({field("kale", 1, on(3, 22), 60)}, "knapsack");
  ASSERT_EQ(sprayed.size(), 1u);
  EXPECT_LT(sprayed[0].until, on(3, 22));
  const Season s = season_of({field("kale", 1, on(3, 22), 60)});
  calendar::Date last = on(3, 22);
  for (const FieldUse& use : uses_of(s)) last = std::max(last, use.use.window.late);
  const auto poured = grounds({field("kale", 1, on(3, 22), 60)}, "round-stem");
  ASSERT_EQ(poured.size(), 1u);
  EXPECT_EQ(poured[0].until, last);
}

// Exactly the days of the rule are enough; one day less is not.
TEST(RawGround, SoilThatRestsAsLongAsTheRuleForRawManureIsNotNamed) {
  const auto soon = grounds({field("carrot", 1, on(3, 22), 60)}, "knapsack");
  ASSERT_EQ(soon.size(), 1u);
  const int enough = soon[0].until + manure_days - on(3, 22);
  EXPECT_TRUE(grounds({field("carrot", 1, on(3, 22), enough)}, "knapsack").empty());
  EXPECT_EQ(grounds({field("carrot", 1, on(3, 22), enough - 1)}, "knapsack").size(), 1u);
}

}  // namespace
}  // namespace wheyfield::season
