#include "quantity/quantity.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/draw.h>

#include "quantity/money.h"

namespace wheyfield::quantity {
namespace {

// Source: none needed, arithmetic; the rule "half away from zero" is the one the sheets promise.
TEST(QuantityMoney, IsPrintedInWholeCoinsWithHalvesGoingAwayFromZero) {
  const struct {
    std::int64_t thousandths, coins;
  } rows[] = {{0, 0},    {499, 0},   {500, 1},    {1499, 1}, {1500, 2},
              {-499, 0}, {-500, -1}, {-1500, -2}, {2500, 3}, {999999500, 1000000}};
  for (const auto& row : rows)
    EXPECT_EQ(Money::from_thousandths(row.thousandths).whole(), row.coins) << row.thousandths;
}

TEST(QuantityMoney, AThousandPricesOfTenCentsAreExactlyAHundredCoins) {
  Money sum;
  for (int i = 0; i < 1000; ++i) sum += Money::from_amount(0.1);
  EXPECT_EQ(sum.thousandths(), 100000);
  EXPECT_EQ((Money::from_amount(0.1) * 1000).thousandths(), 100000);
}

// 1.0005 has no exact double and lies a hair under its half: people still expect 1.001.
TEST(QuantityMoney, AHalfThousandthGoesAwayFromZeroEvenWhenTheDoubleLiesAHairUnder) {
  EXPECT_EQ(Money::from_amount(1.0005).thousandths(), 1001);
  EXPECT_EQ(Money::from_amount(-1.0005).thousandths(), -1001);
  EXPECT_EQ(Money::from_thousandths(1).times(0.5).thousandths(), 1);
  EXPECT_EQ(Money::from_thousandths(-1).times(0.5).thousandths(), -1);
}

TEST(QuantityMoney, EveryWholeAmountUpToTheLimitIsReadExactly) {
  testing::Draw draw(20270304);
  for (int i = 0; i < 2000; ++i) {
    const auto coins = static_cast<std::int64_t>(draw.below(1000000000000ULL));
    ASSERT_EQ(Money::from_amount(static_cast<double>(coins)).thousandths(), coins * 1000);
    ASSERT_EQ(Money::from_amount(static_cast<double>(coins)).whole(), coins);
  }
}

// Another road: split a sum into parts of thousandths and put it together again.
TEST(QuantityMoney, PartsOfASumAlwaysAddUpToTheSum) {
  testing::Draw draw(1);
  for (int i = 0; i < 500; ++i) {
    const auto total = static_cast<std::int64_t>(draw.below(1000000000));
    const auto part = static_cast<std::int64_t>(draw.below(1000000000));
    const Money left = Money::from_thousandths(total) - Money::from_thousandths(part);
    ASSERT_TRUE(left + Money::from_thousandths(part) == Money::from_thousandths(total));
    ASSERT_EQ(left < Money(), total < part);
  }
}

TEST(QuantityRounding, ZeroHasNoSign) {
  for (const double value : {-0.0, -1e-9, -0.0004})
    EXPECT_FALSE(std::signbit(rounded(value, 3))) << value;
}

TEST(QuantityRounding, HalvesGoAwayFromZeroByWhicheverRoadTheNumberCame) {
  EXPECT_DOUBLE_EQ(rounded(1.005, 2), 1.01);
  EXPECT_DOUBLE_EQ(rounded(-1.005, 2), -1.01);
  EXPECT_DOUBLE_EQ(rounded(2.5, 0), 3.0);
  EXPECT_DOUBLE_EQ(rounded(0.1 + 0.2, 1), 0.3);
  EXPECT_DOUBLE_EQ(rounded(1234.4999, 0), 1234.0);
}

TEST(QuantityRounding, RoundingTwiceChangesNothingAndNeverMovesByMoreThanHalfAStep) {
  testing::Draw draw(2);
  for (int i = 0; i < 2000; ++i) {
    const double value = draw.real(-1e6, 1e6);
    const int places = draw.between(0, 4);
    const double once = rounded(value, places);
    ASSERT_EQ(rounded(once, places), once) << value;
    ASSERT_LE(std::abs(once - value), 0.5 * std::pow(10.0, -places) + 1e-6) << value;
  }
}

TEST(QuantityRounding, SerumIsPlannedInWholeMillilitres) {
  EXPECT_EQ(whole_millilitres(litres(0.2)), 200);
  EXPECT_EQ(whole_millilitres(millilitres(2.5)), 3);
  EXPECT_EQ(whole_millilitres(acres(1) * (litres(100) / acres(1)) / 500.0), 200);
}

// Source: NIST SP 811 (2008) B.8, published: 1 ft = 3.048 E-01 m exactly; the international acre
// is 66 ft x 660 ft.
TEST(QuantityArea, AnAcreIs66By660FeetAnd0Point4047Hectares) {
  const Area by_feet = metres(66 * 0.3048) * metres(660 * 0.3048);
  EXPECT_NEAR(in_square_metres(acres(1)), in_square_metres(by_feet), 1e-9);
  EXPECT_NEAR(in_hectares(acres(1)), 0.4047, 0.00005);
}

// Source: common practice: 1 L of mix on each square metre lies one millimetre deep.
TEST(QuantityDimensions, MixPerAreaIsADepthOfWater) {
  const Length depth = litres(1) / square_metres(1);
  EXPECT_DOUBLE_EQ(in_metres(depth), 0.001);
  EXPECT_DOUBLE_EQ(in_litres(depth * hectares(1)), 10000.0);
}

}  // namespace
}  // namespace wheyfield::quantity
