#include "season/harvest_wait.h"

#include <gtest/gtest.h>
#include <support/day.h>
#include <support/small_season.h>

#include <map>

namespace wheyfield::season {
namespace {

using wheyfield::testing::bundle;
using wheyfield::testing::farm;
using wheyfield::testing::field;
using wheyfield::testing::on;
using wheyfield::testing::small_season;
using wheyfield::testing::uses_of;

// By event of the use; events that leave no serum on leaves are missing.
std::map<std::string, HarvestWait> waits(const std::string& crop, int days,
                                         const std::string& method) {
  Season s = small_season();
  s.farms.push_back(farm("1", 100, {field(crop, 1, on(3, 22), days)}));
  s.farms[0].method.id = method;
  std::map<std::string, HarvestWait> found;
  for (const FieldUse& use : uses_of(s))
    if (const auto wait = harvest_wait(s, use, dosing::harvest_rule(bundle())))
      found.emplace(use.use.event, *wait);
  return found;
}

// By hand: sown 22 March and picked first 100 days later, 30 June; the wait is 14 days.
TEST(HarvestWait, PickingWaitsForTheLastDayOfTheWindow) {
  Season s = small_season();
  s.farms.push_back(farm("1", 100, {field("carrot", 1, on(3, 22), 100)}));
  int found = 0;
  for (const FieldUse& use : uses_of(s)) {
    const auto wait = harvest_wait(s, use, dosing::harvest_rule(bundle()));
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
  Season s = small_season();
  s.farms.push_back(farm("1", 100, {field("kale", 1, on(3, 22), 60)}));
  const std::vector<FieldUse> uses = uses_of(s);
  s.farms[0].fields[0].planting.harvest_after = 1;
  for (const FieldUse& use : uses)
    EXPECT_FALSE(harvest_wait(s, use, dosing::harvest_rule(bundle())).has_value()) << use.use.id;
}

}  // namespace
}  // namespace wheyfield::season
