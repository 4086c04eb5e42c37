#include "fermentation/acid.h"

#include <gtest/gtest.h>

#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

MilkBuffer whole_milk() {
  return {{{6.6, 18}, {5.9, 12}, {5.2, 36}, {4.5, 21}, {3.6, 22}}, 1.0, 6.60, 3.71};
}

// The pH of the balance by bisection: the naive road, without a table.
double bisected_ph(const MilkBuffer& buffer, double lactic) {
  double sour = AcidCurve::lowest, sweet = buffer.ph0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (sour + sweet) / 2;
    (lactic_acid(buffer, middle) > lactic ? sour : sweet) = middle;
  }
  return (sour + sweet) / 2;
}

// Computed from assumed groups outside of this program, printed to 0.1 and to 1 mmol/L.
TEST(FermentationAcid, AcidThatWholeMilkTakesUp) {
  const struct {
    double ph, strong, lactic;
  } rows[] = {{5.0, 43.6, 46},  {4.6, 56.8, 64},  {4.4, 62.8, 76},  {4.2, 68.3, 90},
              {4.0, 73.4, 111}, {3.9, 75.8, 125}, {3.7, 80.3, 162}, {3.5, 84.3, 221}};
  for (const auto& row : rows) {
    EXPECT_NEAR(strong_acid(whole_milk(), row.ph), row.strong, 0.051) << row.ph;
    EXPECT_NEAR(lactic_acid(whole_milk(), row.ph), row.lactic, 0.51) << row.ph;
  }
}

// Computed: steepest 34 mmol/L and pH unit, at pH 5.1. Published maxima for cow's milk are 33.3
// (skim), 28.3 and 27.7 (dairy-chemistry course, lesson 24).
TEST(FermentationAcid, WholeMilkBuffersMostAtPh51) {
  double most = 0, at = 0;
  for (int i = 350; i <= 650; ++i) {
    const double ph = i / 100.0;
    const double index =
        (strong_acid(whole_milk(), ph - 0.005) - strong_acid(whole_milk(), ph + 0.005)) / 0.01;
    if (index > most) {
      most = index;
      at = ph;
    }
  }
  EXPECT_NEAR(most, 34.0, 0.5);
  EXPECT_NEAR(at, 5.1, 0.05);
}

TEST(FermentationAcid, NoAcidLeavesThePhAsItWas) {
  EXPECT_EQ(lactic_acid(whole_milk(), 6.60), 0.0);
  EXPECT_EQ(AcidCurve(whole_milk()).ph(0.0), 6.60);
}

TEST(FermentationAcid, TheTableFollowsTheBalanceForRandomMilks) {
  numerics::Stream stream(1, 0);
  for (int milk = 0; milk < 50; ++milk) {
    MilkBuffer buffer = whole_milk();
    buffer.strength = 0.4 + stream.below(800) / 1000.0;
    buffer.ph0 = 6.3 + stream.below(500) / 1000.0;
    const AcidCurve curve(buffer);
    for (int i = 0; i < 40; ++i) {
      const double lactic = stream.below(350000) / 1000.0;
      EXPECT_NEAR(curve.ph(lactic), bisected_ph(buffer, lactic), 0.0001)
          << lactic << " in " << buffer.strength;
    }
  }
}

TEST(FermentationAcid, ThePhNeverRisesWithTheAcid) {
  for (const double strength : {0.2, 0.5, 0.85, 1.0, 1.3}) {
    MilkBuffer buffer = whole_milk();
    buffer.strength = strength;
    const AcidCurve curve(buffer);
    double before = curve.ph(0.0);
    for (int i = 1; i <= 12000; ++i) {
      const double ph = curve.ph(i * 0.05);
      ASSERT_LE(ph, before) << strength << " at " << i * 0.05;
      before = ph;
    }
    EXPECT_GE(before, AcidCurve::lowest);
  }
}

}  // namespace
}  // namespace wheyfield::fermentation
