#include "recipe/scale.h"

#include <algorithm>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::recipe {
namespace {

const ScaledFlow* flow_in(const std::vector<ScaledFlow>& flows, const std::string& material) {
  for (const ScaledFlow& flow : flows)
    if (flow.material == material) return &flow;
  return nullptr;
}

double given(const Scaled& scaled, const std::string& material) {
  for (const ScaledStep& step : scaled.steps)
    if (const ScaledFlow* flow = flow_in(step.gives, material)) return flow->amount;
  return 0.0;
}

// Source: common practice, no publication: 7 acres at 1 L an acre-season.
TEST(RecipeScale, SevenLitresStoredSerumComeFromTheAmountsTaught) {
  const Scaled seven = scale(testing::lactic_serum(), 7.0);
  EXPECT_NEAR(seven.taken("rice"), 0.35, 0.005);
  EXPECT_NEAR(seven.taken("water"), 1.4, 0.05);
  EXPECT_NEAR(seven.taken("clear-rinse-water"), 0.7, 0.05);
  EXPECT_NEAR(seven.taken("milk"), 7.0, 0.05);
  EXPECT_NEAR(given(seven, "raw-serum"), 3.5, 0.05);
  EXPECT_NEAR(seven.taken("molasses"), 3.5, 0.05);
  EXPECT_NEAR(given(seven, "stored-serum"), 7.0, 1e-9);
}

// Source: common practice: 10 L milk and 1 L rinse-water give about 5 L raw serum; as much
// molasses makes 10 L.
TEST(RecipeScale, TenLitresMilkMakeTenLitresStoredSerum) {
  const Scaled ten = scale(testing::lactic_serum(), 10.0);
  EXPECT_NEAR(ten.taken("milk"), 10.0, 1e-9);
  EXPECT_NEAR(ten.taken("clear-rinse-water"), 1.0, 1e-9);
  EXPECT_NEAR(given(ten, "raw-serum"), 5.0, 1e-9);
}

// Source: computed: 13.3 L, two thirds of 20 L, are 12.1 L milk and 1.2 L rinse-water.
TEST(RecipeScale, TheLargestBatchInATwentyLitreBucketIs12Point1LitresMilk) {
  const Recipe serum = testing::lactic_serum();
  const double fill =
      serum.steps[static_cast<std::size_t>(serum.vessel_step())].fill_fraction.value().value;
  EXPECT_NEAR(20.0 * fill, 13.3, 0.05);
  const Scaled batch = scale(serum, product_filling(serum, quantity::litres(20.0 * fill)));
  EXPECT_NEAR(batch.taken("milk"), 12.1, 0.05);
  EXPECT_NEAR(batch.taken("clear-rinse-water"), 1.2, 0.05);
}

// Source: computed: 10 L milk and 1 L rinse-water fill a 20 L bucket to 55 %.
TEST(RecipeScale, TenLitresMilkFillATwentyLitreBucketTo55Percent) {
  const Recipe serum = testing::lactic_serum();
  const Scaled ten = scale(serum, 10.0);
  EXPECT_NEAR(ten.steps[static_cast<std::size_t>(serum.vessel_step())].fill / 20.0, 0.55, 1e-9);
}

TEST(RecipeScale, AFilledVesselHoldsExactlyItsFillLine) {
  const Recipe serum = testing::lactic_serum();
  testing::Draw draw(7);
  for (int i = 0; i < 200; ++i) {
    const double line = draw.real(1, 60);
    const Scaled batch = scale(serum, product_filling(serum, quantity::litres(line)));
    ASSERT_NEAR(batch.steps[static_cast<std::size_t>(serum.vessel_step())].fill, line, 1e-9);
  }
}

TEST(RecipeScale, TwiceTheSerumTakesTwiceOfEverything) {
  const Recipe serum = testing::lactic_serum();
  testing::Draw draw(8);
  for (int i = 0; i < 100; ++i) {
    const double product = draw.real(0, 50), times = draw.real(0, 5);
    const Scaled one = scale(serum, product), many = scale(serum, product * times);
    for (const Material& material : serum.materials) {
      ASSERT_NEAR(many.taken(material.id), one.taken(material.id) * times, 1e-9) << material.id;
      ASSERT_NEAR(given(many, material.id), given(one, material.id) * times, 1e-9) << material.id;
    }
  }
}

// Another road: weigh what goes in and what comes out of every step.
TEST(RecipeScale, WhatIsWeighedIntoAStepComesOutOfIt) {
  const Recipe serum = testing::lactic_serum();
  const auto weight = [&](const std::vector<ScaledFlow>& flows) {
    double kilograms = 0;
    for (const ScaledFlow& flow : flows) {
      const Material* m = serum.material(flow.material);
      kilograms += flow.amount * (m->unit == "L" ? m->density->value : 1.0);
    }
    return kilograms;
  };
  for (const ScaledStep& step : scale(serum, 7.0).steps)
    EXPECT_NEAR(weight(step.gives), weight(step.takes), 0.02 * weight(step.takes)) << step.step;
}

// The naive second way: from milk forward, by the ratios as they are taught.
TEST(RecipeScale, MadeForwardFromTheMilkTheSameSerumComesOut) {
  testing::Draw draw(9);
  const Recipe serum = testing::lactic_serum();
  for (int i = 0; i < 100; ++i) {
    const double milk = draw.real(0.5, 40);
    const double raw_serum = milk * 0.5, molasses = raw_serum, stored = raw_serum + molasses;
    const double clear = milk / 10, water = clear / 0.5, rice = water / 4;
    const Scaled scaled = scale(serum, stored);
    ASSERT_NEAR(scaled.taken("milk"), milk, 1e-9);
    ASSERT_NEAR(scaled.taken("molasses"), molasses, 1e-9);
    ASSERT_NEAR(scaled.taken("water"), water, 1e-9);
    ASSERT_NEAR(scaled.taken("rice"), rice, 1e-9);
  }
}

// Source: common practice 0.4 to 0.75 L raw serum for a litre of milk; always measured.
TEST(RecipeScale, RawSerumIsARangeAndMarkedAsMeasured) {
  for (const ScaledStep& step : scale(testing::lactic_serum(), 7.0).steps) {
    const ScaledFlow* raw = flow_in(step.gives, "raw-serum");
    if (!raw) continue;
    EXPECT_TRUE(raw->measured);
    EXPECT_NEAR(raw->low, 2.8, 0.05);
    EXPECT_NEAR(raw->high, 5.25, 0.05);
    return;
  }
  FAIL() << "no step gives raw serum";
}

TEST(RecipeScale, NoSerumTakesNothing) {
  const Scaled none = scale(testing::lactic_serum(), 0.0);
  EXPECT_EQ(none.taken("milk"), 0.0);
  EXPECT_EQ(none.taken("not-in-this-recipe"), 0.0);
}

TEST(RecipeScale, ARecipeWithoutVesselFillsNone) {
  Recipe serum = testing::lactic_serum();
  for (Step& step : serum.steps) step.vessel = VesselNeed::none;
  EXPECT_EQ(product_filling(serum, quantity::litres(20)), 0.0);
}

}  // namespace
}  // namespace wheyfield::recipe
