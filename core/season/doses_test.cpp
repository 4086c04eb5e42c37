#include "season/doses.h"

#include <gtest/gtest.h>
#include <support/small_season.h>

namespace wheyfield::season {
namespace {

using wheyfield::testing::bundle;
using wheyfield::testing::farm;
using wheyfield::testing::field;
using wheyfield::testing::planned;

Season one_farm(Farm f) {
  Season s = wheyfield::testing::small_season();
  s.farms.push_back(std::move(f));
  return s;
}

Farm acre_of_maize() {
  return farm("1", 100, {field("maize", 1, calendar::Date::from_civil(2027, 3, 22), 125)});
}

std::vector<DoseLine> lines(const Season& s) { return dose_lines(s, planned(s), bundle()); }

TEST(SeasonDoses, EightCapsOfFiveMillilitresGoIntoACanOfTwentyLitres) {
  const auto all = lines(one_farm(acre_of_maize()));
  ASSERT_EQ(all.size(), 1u);
  const DoseLine& line = all[0];
  EXPECT_EQ(line.container, "can");
  EXPECT_EQ(line.loads.full, 5);
  EXPECT_EQ(line.serum_ml, 200);
  ASSERT_TRUE(line.caps.has_value());
  EXPECT_DOUBLE_EQ(line.caps->caps, 8.0);
  EXPECT_NEAR(quantity::in_millilitres(line.caps->given), 40.0, 1e-9);
  EXPECT_NEAR(line.caps->parts, 500.0, 1e-9);
  EXPECT_TRUE(line.caps->fits);
  EXPECT_FALSE(line.caps_last.has_value());
}

TEST(SeasonDoses, TheSoakHasNoDoseLine) {
  const auto all = lines(one_farm(acre_of_maize()));
  EXPECT_EQ(all.at(0).uses,
            (std::vector<std::string>{"land-preparation", "seedling", "flowering", "first-fruit"}));
}

TEST(SeasonDoses, TwoCapsOfTwentyMillilitresGoIntoACanOfTwentyLitres) {
  Farm f = acre_of_maize();
  f.cap = quantity::millilitres(20);
  EXPECT_DOUBLE_EQ(lines(one_farm(f)).at(0).caps.value().caps, 2.0);
}

TEST(SeasonDoses, ACapThatNobodyMeasuredGivesNoCount) {
  Farm f = acre_of_maize();
  f.cap.reset();
  const auto all = lines(one_farm(f));
  EXPECT_FALSE(all.at(0).caps.has_value());
  EXPECT_FALSE(all.at(0).caps_last.has_value());
  EXPECT_EQ(all.at(0).serum_ml, 200);
}

TEST(SeasonDoses, AKnapsackIsFilledBySprayerAndItsLastLoadHasItsOwnCount) {
  Farm f = acre_of_maize();
  f.sprayer = quantity::litres(16);
  const auto all = lines(one_farm(f));
  const DoseLine& line = all.at(0);
  EXPECT_EQ(line.container, "sprayer");
  EXPECT_EQ(line.loads.full, 6);  // 96 L, and 4 L are left
  EXPECT_NEAR(quantity::in_litres(line.loads.last), 4.0, 1e-9);
  EXPECT_DOUBLE_EQ(line.caps.value().caps, 6.5);       // 32 mL
  EXPECT_DOUBLE_EQ(line.caps_last.value().caps, 1.5);  // 8 mL
}

TEST(SeasonDoses, AMethodNobodyMeasuredCountsTheUsualHundredLitresAsAnAssumption) {
  Farm f = acre_of_maize();
  f.method.mix_per_area.reset();
  const auto all = lines(one_farm(f));
  EXPECT_FALSE(all.at(0).measured);
  EXPECT_EQ(all.at(0).serum_ml, 200);
  EXPECT_TRUE(lines(one_farm(acre_of_maize())).at(0).measured);
}

// Farm 6: a quarter acre of tomato at 60 x 60 cm, 200 mL a plant from the seedling on.
TEST(SeasonDoses, RoundTheStemIsShownAgainstTheSameFieldByKnapsack) {
  Farm f = farm("6", 100, {field("tomato", 0.25, calendar::Date::from_civil(2027, 3, 22), 135)});
  f.fields[0].round_stem =
      RoundStem{quantity::millilitres(200), quantity::metres(0.6), quantity::metres(0.6)};
  const auto all = lines(one_farm(f));
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].method, "knapsack");
  EXPECT_EQ(all[0].uses, std::vector<std::string>{"land-preparation"});
  EXPECT_EQ(all[0].serum_ml, 50);
  const DoseLine& stem = all[1];
  EXPECT_EQ(stem.method, "round-stem");
  EXPECT_EQ(stem.uses, (std::vector<std::string>{"seedling", "flowering", "first-fruit"}));
  EXPECT_EQ(stem.plants, 2810);  // 1011.714 m2 / 0.36 m2, whole plants
  EXPECT_NEAR(quantity::in_litres(stem.mix), 562.0, 1e-9);
  EXPECT_NEAR(stem.loads.loads, 28.1, 1e-9);
  EXPECT_EQ(stem.serum_ml, 1124);
  EXPECT_EQ(stem.usual_ml, 50);
}

// At 1 L/m2 an acre takes 4046.86 L of mix: 8.1 L of serum, forty times the usual plan.
TEST(SeasonDoses, ACanAtALitreASquareMetreIsFortyTimesTheUsual) {
  Farm f = acre_of_maize();
  f.method = {"can", quantity::litres(1) / quantity::square_metres(1)};
  const auto all = lines(one_farm(f));
  EXPECT_EQ(all.at(0).serum_ml, 8094);
  EXPECT_EQ(all.at(0).usual_ml, 200);
  EXPECT_EQ(all.at(0).loads.full, 202);
}

}  // namespace
}  // namespace wheyfield::season
