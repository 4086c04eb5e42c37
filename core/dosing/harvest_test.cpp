#include "dosing/harvest.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::dosing {
namespace {

using calendar::Date;
using testing::value;

HarvestRule rule() {
  return {static_cast<int>(value("raw-eaten-gap-days")), static_cast<int>(value("cooked-gap-days")),
          static_cast<int>(value("soil-gap-days"))};
}

// Source: memory, a precaution: 14 days between spraying leaves eaten raw and picking. Days counted
// on a wall calendar.
TEST(DosingHarvest, FourteenDaysFromTheLastSprayToTheFirstPickingOfWhatIsEatenRaw) {
  const auto day = [](Placement placement, bool raw) {
    return earliest_harvest(Date::from_civil(2028, 2, 20), placement, raw, false, rule())->iso();
  };
  EXPECT_EQ(day(Placement::leaves, true), "2028-03-05");  // 2028 has a 29 February
  EXPECT_EQ(day(Placement::leaves, false), "2028-02-27");
  EXPECT_EQ(day(Placement::soil_at_stem, true), "2028-02-21");
}

// Source: memory: rules for raw manure wait 120 days where what is eaten touches the soil. One day
// would be a guess against that, so none is told.
TEST(DosingHarvest, NoDayIsToldForRawRootsInSoilThatWasWetted) {
  const auto day = [](Placement placement, bool raw) {
    return earliest_harvest(Date::from_civil(2028, 2, 20), placement, raw, true, rule());
  };
  EXPECT_FALSE(day(Placement::soil_at_stem, true));
  EXPECT_EQ(day(Placement::soil_at_stem, false)->iso(), "2028-02-21");
  EXPECT_EQ(day(Placement::leaves, true)->iso(), "2028-03-05");
  for (const char* below : {"root", "bulb", "head", "leaf", "tuber"})
    EXPECT_TRUE(touches_soil(below)) << below;
  for (const char* above : {"grain", "fruit", "stem"}) EXPECT_FALSE(touches_soil(above)) << above;
}

// Judgement of the trade rule: nothing stronger than 1:250 on leaves. The reason: 1:350 is 0.2 %
// molasses (70 % by weight on volume), 1:50 is 1.4 %.
TEST(DosingHarvest, StrongerThanOneTo250IsNotForLeaves) {
  const double strongest = value("leaf-strength-limit-parts");
  EXPECT_DOUBLE_EQ(leaf_strength(500, Placement::leaves, strongest).value(), 500);
  EXPECT_TRUE(leaf_strength(250, Placement::leaves, strongest));
  for (double parts : {249.0, 50.0, 33.0, std::nan("")}) {
    const auto strong = leaf_strength(parts, Placement::leaves, strongest);
    ASSERT_FALSE(strong) << parts;
    EXPECT_EQ(strong.error()[0].code, "too-strong-for-leaves");
    EXPECT_EQ(strong.error()[0].details.at("strongest"), "1:250");
  }
  EXPECT_TRUE(leaf_strength(50, Placement::soil_at_stem, strongest));
}

// The whole table: L leaves, S soil at the stem, - nothing.
TEST(DosingHarvest, WhereSerumMayGoByStageAndMethod) {
  using enum GrowthStage;
  const struct {
    const char* method;
    const char *cooked, *raw_before, *raw_flowering, *raw_picked;
  } rows[] = {{"knapsack", "LS", "LS", "S", "S"},
              {"can", "LS", "LS", "S", "S"},
              {"leafy-branch", "L", "L", "-", "-"},
              {"round-stem", "S", "S", "S", "S"}};
  for (const auto& row : rows) {
    const auto got = [&](GrowthStage stage, bool raw) {
      const Placements p = placements(stage, raw, row.method).value();
      const std::string text = std::string(p.allows(Placement::leaves) ? "L" : "") +
                               (p.allows(Placement::soil_at_stem) ? "S" : "");
      EXPECT_EQ(p.judgement, !p.closed.empty());
      return text.empty() ? "-" : text;
    };
    for (GrowthStage stage : {before_flowering, from_flowering, after_first_picking})
      EXPECT_EQ(got(stage, false), row.cooked) << row.method;
    EXPECT_EQ(got(before_flowering, true), row.raw_before) << row.method;
    EXPECT_EQ(got(from_flowering, true), row.raw_flowering) << row.method;
    EXPECT_EQ(got(after_first_picking, true), row.raw_picked) << row.method;
  }
  EXPECT_EQ(placements(from_flowering, true, "knapsack")->closed, "raw-flowering");
  EXPECT_EQ(placements(after_first_picking, true, "can")->closed, "raw-picked");
  EXPECT_EQ(placements(from_flowering, true, "drone").error()[0].code, "method-unknown");
}

}  // namespace
}  // namespace wheyfield::dosing
