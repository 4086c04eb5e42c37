#include "recipe/own_yields.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "recipe/check.h"
#include "recipe/scale.h"

namespace wheyfield::recipe {
namespace {

constexpr double half = 0.5;

Recipe taught() { return wheyfield::testing::lactic_serum(); }

TEST(OwnYields, RawSerumIsMeasuredAgainstTheMilkAndStoredSerumAgainstTheRaw) {
  const auto yields = measured_yields(taught());
  ASSERT_EQ(yields.size(), 2u);
  EXPECT_EQ(flow_of(taught(), yields[0]).material, "raw-serum");
  EXPECT_EQ(yields[0].of, "milk");
  EXPECT_NEAR(yields[0].per_of, 1.1, 1e-12);  // 1.1 L stand in the vessel for each litre of milk
  EXPECT_EQ(flow_of(taught(), yields[1]).material, "stored-serum");
  EXPECT_EQ(yields[1].of, "raw-serum");
  EXPECT_EQ(yields[1].per_of, 1.0);
}

TEST(OwnYields, NoMoreCanBeStrainedThanStoodThere) {
  // All of the soured milk [kg/L], none of it as curd.
  EXPECT_NEAR(most_ratio(taught(), measured_yields(taught())[0]), 1.0273 / 1.02, 1e-12);
}

TEST(OwnYields, WithoutBatchesTheRecipeStandsAsItIs) {
  const Recipe recipe = taught();
  std::vector<LearnedYield> learned;
  for (const MeasuredYield& yield : measured_yields(recipe)) {
    learned.push_back(learned_yield(recipe, yield, {}, half));
    const Sourced& ratio = flow_of(recipe, yield).ratio;
    EXPECT_EQ(learned.back().value, ratio.value);
    EXPECT_DOUBLE_EQ(learned.back().low, ratio.low);
    EXPECT_DOUBLE_EQ(learned.back().high, ratio.high);
    EXPECT_EQ(learned.back().batches, 0);
  }
  const Recipe same = with_yields(recipe, learned);
  for (const MeasuredYield& yield : measured_yields(recipe)) {
    EXPECT_EQ(flow_of(same, yield).ratio.low, flow_of(recipe, yield).ratio.low);
    EXPECT_EQ(flow_of(same, yield).ratio.origin.kind, flow_of(recipe, yield).ratio.origin.kind);
  }
}

// The same by brute force. In units of the recipe's own deviation, the logarithm of the yield of
// each batch is sqrt(w) u + sqrt(1 - w) e; u is integrated over a grid for each deviation.
TEST(OwnYields, LikelyIsTheMiddleOfThePlaceByIntegrationAndTheRangeThatOfItsNextBatch) {
  const Recipe recipe = taught();
  const MeasuredYield yield = measured_yields(recipe)[0];
  const Sourced& ratio = flow_of(recipe, yield).ratio;
  const std::vector<double> ratios{0.40, 0.36, 0.43};
  for (const double w : {0.3, 0.5, 0.8}) {
    const LearnedYield learned = learned_yield(recipe, yield, ratios, w);
    const double deviation = 0.2;  // of the logarithm; any gives the same middle
    double all = 0.0, mean = 0.0, squares = 0.0;
    for (double u = -9.0; u < 9.0; u += 0.01) {
      double log_density = -0.5 * u * u;
      for (const double each : ratios) {
        const double off = std::log(each / ratio.value) / deviation - std::sqrt(w) * u;
        log_density -= 0.5 * off * off / (1.0 - w);
      }
      const double density = std::exp(log_density);
      const double middle = std::sqrt(w) * u;
      all += density;
      mean += density * middle;
      squares += density * middle * middle;
    }
    mean /= all;
    const double next = std::sqrt(1.0 - w + squares / all - mean * mean);
    EXPECT_NEAR(learned.value, ratio.value * std::exp(deviation * mean), 1e-6) << w;
    EXPECT_NEAR(learned.low, learned.value * std::pow(ratio.low / ratio.value, next), 1e-6) << w;
    EXPECT_NEAR(learned.high, learned.value * std::pow(ratio.high / ratio.value, next), 1e-6) << w;
  }
}

TEST(OwnYields, MoreBatchesOfOneYieldComeCloserToItAndTheRangeNarrowsButStays) {
  const Recipe recipe = taught();
  const MeasuredYield yield = measured_yields(recipe)[0];
  const Sourced& ratio = flow_of(recipe, yield).ratio;
  double away = ratio.value - 0.38, factor = ratio.high / ratio.low;
  for (int n = 1; n <= 40; n *= 2) {
    const LearnedYield learned = learned_yield(recipe, yield, std::vector<double>(n, 0.38), half);
    EXPECT_LT(learned.value - 0.38, away);
    EXPECT_GT(learned.value, 0.38);
    EXPECT_LT(learned.high / learned.low, factor);
    away = learned.value - 0.38;
    factor = learned.high / learned.low;
  }
  EXPECT_NEAR(away, 0.0, 0.005);
  EXPECT_GT(factor, std::pow(ratio.high / ratio.low, std::sqrt(half)));
}

TEST(OwnYields, ARecipeOfAnyOwnYieldsIsStillSound) {
  const Recipe recipe = taught();
  for (const double each : {0.01, 0.2, 0.45, 0.7, 1.0}) {
    std::vector<LearnedYield> learned;
    learned.push_back(
        learned_yield(recipe, measured_yields(recipe)[0], std::vector<double>(20, each), half));
    const Recipe own = with_yields(recipe, learned);
    EXPECT_GT(learned[0].low, 0.0);
    EXPECT_LE(learned[0].low, learned[0].value);
    EXPECT_LE(learned[0].value, learned[0].high);
    EXPECT_LE(learned[0].high, std::max(learned[0].value, most_ratio(recipe, learned[0].yield)));
    for (const auto& problem : check(own)) ADD_FAILURE() << each << " " << problem.code;
    // What comes of a full vessel goes with the yield.
    EXPECT_NEAR(
        product_filling(own, quantity::litres(11)) / product_filling(recipe, quantity::litres(11)),
        learned[0].value / flow_of(recipe, learned[0].yield).ratio.value, 1e-9);
  }
}

}  // namespace
}  // namespace wheyfield::recipe
