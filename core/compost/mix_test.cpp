// Mixtures against worked examples, and what holds of every mixture.
#include "compost/mix.h"

#include <gtest/gtest.h>

#include <support/draw.h>
#include <cmath>

#include "embedded.h"

namespace wheyfield::compost {
namespace {

// Cornell's composting pages, worked example: N and C in % of dry weight, moisture.
const Contents grass{2.4, 45.0, 77.0, {}};
const Contents leaves{0.75, 50.0, 35.0, {}};
// Rows cattle-manure and straw of data/compost.toml: C = N x C:N.
const Contents cattle_row{2.4, 2.4 * 19.0, 81.0, 865.0};
const Contents straw_row{0.7, 0.7 * 80.0, 12.0, 135.0};

// Cornell's pages: 10 g of wet sample weigh 2.3 g dry.
TEST(CompostMix, TheDriedSampleOfCornellHasSeventySevenPercentWater) {
  EXPECT_NEAR(moisture_of_sample(10.0, 2.3), 77.0, 1e-12);
}

// Cornell's pages: 10 kg of grass, leaves for 60 % water: 6.8 kg.
TEST(CompostMix, TheLeavesForCornellsMoistureAreSixPointEightKilos) {
  EXPECT_NEAR(*second_for_moisture(blend({{grass, 10.0}}), leaves, 60.0), 6.8, 1e-9);
}

// Cornell's formula with its grass and leaves for 30:1; printed as 3.5 kg (memory), 3.474 computed.
TEST(CompostMix, TheLeavesForCornellsThirtyToOneAre3474Grams) {
  EXPECT_NEAR(*second_for_ratio(blend({{grass, 10.0}}), leaves, 30.0), 3.474, 5e-4);
}

// The formula as printed: Q2 = Q1 N1 (R - C1/N1)(100-M1) / [N2 (C2/N2 - R)(100-M2)].
TEST(CompostMix, AgreesWithCornellsFormulaAsPrinted) {
  testing::Draw draw(3);
  for (int round = 0; round < testing::cases(1000); ++round) {
    const Contents green{draw.real(1.0, 6.0), 0, draw.real(10.0, 90.0), {}};
    const Contents brown{draw.real(0.1, 1.0), 0, draw.real(5.0, 60.0), {}};
    Contents first = green, second = brown;
    const double r1 = draw.real(8.0, 25.0), r2 = draw.real(40.0, 90.0), r = 30.0;
    first.carbon = first.nitrogen * r1;
    second.carbon = second.nitrogen * r2;
    const double kg = draw.real(1.0, 500.0);
    const double printed = kg * first.nitrogen * (r - r1) * (100.0 - first.moisture) /
                           (second.nitrogen * (r2 - r) * (100.0 - second.moisture));
    ASSERT_NEAR(*second_for_ratio(blend({{first, kg}}), second, r), printed, 1e-9 * printed);
  }
}

// Worked out by hand from the two formulas.
TEST(CompostMix, TenKilosOfGrassAndThreeAndAHalfOfLeaves) {
  const Blend mix = blend({{grass, 10.0}, {leaves, 3.5}});
  EXPECT_NEAR(*mix.ratio(), 30.064, 5e-4);
  EXPECT_NEAR(mix.moisture(), 66.11, 5e-3);
}

TEST(CompostMix, TenKilosOfGrassAndSixPointEightOfLeavesAreTooBrown) {
  const Blend mix = blend({{grass, 10.0}, {leaves, 6.8}});
  EXPECT_NEAR(*mix.ratio(), 36.729, 5e-4);
  EXPECT_NEAR(mix.moisture(), 60.0, 5e-3);
}

TEST(CompostMix, AHundredKilosOfCattleManureAndTwentyOfStraw) {
  const Blend mix = blend({{cattle_row, 100.0}, {straw_row, 20.0}});
  EXPECT_NEAR(*mix.ratio(), 31.975, 5e-4);
  EXPECT_NEAR(mix.moisture(), 69.50, 5e-3);
}

TEST(CompostMix, TheStrawForThirtyToOneToAHundredKilosOfCattleManure) {
  EXPECT_NEAR(*second_for_ratio(blend({{cattle_row, 100.0}}), straw_row, 30.0), 16.286, 5e-4);
}

// Two dry shares of grass at 17:1 and one of leaves at 54:1 are 21.3:1; the mean of the ratios,
// (17 + 17 + 54) / 3 = 29.3, is no C:N of anything.
TEST(CompostMix, TheMeanOfRatiosIsNotTheRatioOfTheMix) {
  const Contents clippings{3.4, 3.4 * 17.0, 0.0, {}}, dry_leaves{0.9, 0.9 * 54.0, 0.0, {}};
  const double ratio = *blend({{clippings, 2.0}, {dry_leaves, 1.0}}).ratio();
  EXPECT_NEAR(ratio, 21.3, 0.05);
  EXPECT_GT((17.0 + 17.0 + 54.0) / 3.0 - ratio, 7.9);
}

TEST(CompostMix, ASecondOnTheSameSideIsNoWayThere) {
  const Blend manure = blend({{cattle_row, 100.0}});
  EXPECT_FALSE(second_for_ratio(manure, grass, 30.0).has_value());
  EXPECT_FALSE(second_for_moisture(manure, grass, 60.0).has_value());
  EXPECT_FALSE(second_for_ratio(blend({{straw_row, 5.0}}), leaves, 30.0).has_value());
}

TEST(CompostMix, WaterBringsAMixExactlyThereAndAWetOneNeedsNone) {
  const Contents water{0.0, 0.0, 100.0, {}};
  const double litres = water_for_moisture(blend({{straw_row, 30.0}, {grass, 10.0}}), 55.0);
  const Blend sprinkled = blend({{straw_row, 30.0}, {grass, 10.0}, {water, litres}});
  EXPECT_NEAR(sprinkled.moisture(), 55.0, 1e-9);
  EXPECT_EQ(water_for_moisture(blend({{cattle_row, 100.0}, {straw_row, 16.286}}), 60.0), 0.0);
}

// 100 kg at 865 and 16.286 kg at 135 kg/m3: 115.6 + 120.6 L.
TEST(CompostMix, LooseVolumesAreAdded) {
  EXPECT_NEAR(*loose_litres({{cattle_row, 100.0}, {straw_row, 16.286}}), 236.24, 0.01);
  EXPECT_FALSE(loose_litres({{cattle_row, 100.0}, {leaves, 1.0}}).has_value());
}

Contents drawn_contents(testing::Draw& draw) {
  const double nitrogen = draw.real(0.1, 6.0);
  return {nitrogen, std::min(58.0, nitrogen * draw.real(6.0, 500.0)), draw.real(0.0, 95.0), {}};
}

TEST(CompostMix, AMixLiesBetweenItsIngredientsAndItsSizeDoesNotMatter) {
  testing::Draw draw(5);
  for (int round = 0; round < testing::cases(2000); ++round) {
    std::vector<Part> parts;
    double least = 1e9, most = 0.0, driest = 100.0, wettest = 0.0;
    for (int i = 0; i < draw.between(1, 6); ++i) {
      parts.push_back({drawn_contents(draw), draw.real(0.1, 100.0)});
      const Contents& c = parts.back().what;
      least = std::min(least, c.carbon / c.nitrogen);
      most = std::max(most, c.carbon / c.nitrogen);
      driest = std::min(driest, c.moisture);
      wettest = std::max(wettest, c.moisture);
    }
    const Blend mix = blend(parts);
    ASSERT_GE(*mix.ratio(), least - 1e-9);
    ASSERT_LE(*mix.ratio(), most + 1e-9);
    ASSERT_GE(mix.moisture(), driest - 1e-9);
    ASSERT_LE(mix.moisture(), wettest + 1e-9);
    const double by = draw.real(0.01, 100.0);
    for (Part& part : parts) part.kg *= by;
    ASSERT_NEAR(*blend(parts).ratio(), *mix.ratio(), 1e-9 * *mix.ratio());
    ASSERT_NEAR(blend(parts).moisture(), mix.moisture(), 1e-9);
  }
}

TEST(CompostMix, MoreBrownNeverLowersTheRatio) {
  testing::Draw draw(6);
  for (int round = 0; round < testing::cases(2000); ++round) {
    const Part green{drawn_contents(draw), draw.real(1.0, 100.0)};
    Contents brown = drawn_contents(draw);
    if (brown.carbon / brown.nitrogen < green.what.carbon / green.what.nitrogen) continue;
    double before = 0.0;
    for (const double kg : {0.0, 1.0, 5.0, 20.0, 100.0}) {
      const double ratio = *blend({green, {brown, kg}}).ratio();
      ASSERT_GE(ratio, before - 1e-9);
      before = ratio;
    }
  }
}

// 0.24 % x 442 would be 106 % carbon.
TEST(CompostIngredients, SawdustIsCutAtFiftyEightPercentCarbon) {
  const auto data = reference_data::ReferenceData::parse(embedded::data_json());
  const auto table = IngredientTable::parse(*data);
  ASSERT_TRUE(table.has_value());
  const Ingredient* sawdust = table->find("sawdust");
  ASSERT_NE(sawdust, nullptr);
  EXPECT_GT(sawdust->nitrogen.value * sawdust->ratio->value, 106.0);
  EXPECT_TRUE(sawdust->is_cut(58.0));
  EXPECT_EQ(sawdust->contents(58.0).carbon, 58.0);
  EXPECT_FALSE(table->find("straw")->is_cut(58.0));
  EXPECT_NEAR(table->find("straw")->contents(58.0).carbon, 56.0, 1e-9);
  EXPECT_EQ(table->find("wood-ash")->contents(58.0).carbon, 0.0);
  EXPECT_EQ(table->find("stone"), nullptr);
}

}  // namespace
}  // namespace wheyfield::compost
