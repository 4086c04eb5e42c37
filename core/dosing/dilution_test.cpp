#include "dosing/dilution.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/draw.h>

namespace wheyfield::dosing {
namespace {

using quantity::acres;
using quantity::hectares;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::litres;
using quantity::millilitres;
using quantity::square_metres;

constexpr double half_cap = 0.5, tolerance = 0.25, negligible = 0.01;

// Source: computed: 1000/n mL on each litre of water, 1000/(n+1) in each litre of finished mix;
// three digits printed in the last column.
TEST(DosingDilution, OnePartAddedToSoManyPartsOfWater) {
  const struct {
    double load, at_100, at_500, at_1000, at_500_in_total;
  } rows[] = {{1, 10, 2, 1, 1.996},
              {10, 100, 20, 10, 19.960},
              {15, 150, 30, 15, 29.940},
              {16, 160, 32, 16, 31.936},
              {20, 200, 40, 20, 39.920}};
  for (const auto& row : rows) {
    const auto ml = [&](double parts, Reading reading) {
      return in_millilitres(serum_for(litres(row.load), parts, reading));
    };
    EXPECT_NEAR(ml(100, Reading::added_to), row.at_100, 1e-9);
    EXPECT_NEAR(ml(500, Reading::added_to), row.at_500, 1e-9);
    EXPECT_NEAR(ml(1000, Reading::added_to), row.at_1000, 1e-9);
    EXPECT_NEAR(ml(500, Reading::in_total), row.at_500_in_total, 0.0005);
  }
}

// Source: computed: the two readings differ by 1/n, 1.0 %, 0.2 % and 0.1 %.
TEST(DosingDilution, TheTwoReadingsDifferByOnePartInN) {
  for (double parts : {100.0, 500.0, 1000.0}) {
    const double ratio = serum_for(litres(20), parts, Reading::added_to) /
                         serum_for(litres(20), parts, Reading::in_total);
    EXPECT_NEAR(ratio - 1.0, 1.0 / parts, 1e-12);
  }
}

// Source: common practice: 1 L an acre and season in five uses is 200 mL in 100 L each time, five
// cans of 20 L with 40 mL in each; a quarter acre 50 mL in 25 L, a can and a quarter.
TEST(DosingDilution, AnAcreAUseIs200MillilitresInFiveCans) {
  const Loads acre = loads(litres(100), litres(20), 500, negligible);
  EXPECT_NEAR(in_millilitres(serum_for(litres(100), 500, Reading::added_to)), 200, 1e-9);
  EXPECT_EQ(acre.full, 5);
  EXPECT_NEAR(in_millilitres(acre.serum_full), 40, 1e-9);
  EXPECT_DOUBLE_EQ(in_litres(acre.last), 0.0);
  const Loads quarter = loads(litres(25), litres(20), 500, negligible);
  EXPECT_EQ(quarter.full, 1);
  EXPECT_NEAR(quarter.loads, 1.25, 1e-12);
  EXPECT_NEAR(in_litres(quarter.last), 5, 1e-9);
  EXPECT_NEAR(in_millilitres(quarter.serum_last), 10, 1e-9);
}

// Source: computed, common practice strength: two caps in 20 L by the size of the cap; 1:1430 is
// printed to three digits.
TEST(DosingCaps, TwoCapsInTwentyLitresAreOneToFiveHundredOnlyFor20MillilitreCaps) {
  const struct {
    double cap, parts, tolerance;
  } rows[] = {{2.5, 4000, 0.1}, {5, 2000, 0.1}, {7, 1430, 5},
              {10, 1000, 0.1},  {20, 500, 0.1}, {40, 250, 0.1}};
  for (const auto& row : rows) {
    const auto count =
        count_caps(millilitres(2 * row.cap), millilitres(row.cap), litres(20), half_cap, tolerance);
    ASSERT_TRUE(count) << row.cap;
    EXPECT_DOUBLE_EQ(count->caps, 2.0);
    EXPECT_NEAR(count->parts, row.parts, row.tolerance) << row.cap;
  }
}

// Source: practice season, assumption: caps of the farms; counts by hand from 40 mL a can.
TEST(DosingCaps, FortyMillilitresCountedInTheFarmsOwnCaps) {
  const struct {
    double cap, caps, given;
  } rows[] = {{5, 8, 40}, {7, 5.5, 38.5}, {8, 5, 40}, {10, 4, 40}, {20, 2, 40}, {40, 1, 40}};
  for (const auto& row : rows) {
    const auto count =
        count_caps(millilitres(40), millilitres(row.cap), litres(20), half_cap, tolerance);
    ASSERT_TRUE(count) << row.cap;
    EXPECT_DOUBLE_EQ(count->caps, row.caps) << row.cap;
    EXPECT_NEAR(in_millilitres(count->given), row.given, 1e-9) << row.cap;
    EXPECT_NEAR(count->off, row.given / 40 - 1, 1e-9) << row.cap;
    EXPECT_TRUE(count->fits) << row.cap;
  }
}

TEST(DosingCaps, AnUnmeasuredCapIsRefusedNeverGuessed) {
  const auto count = count_caps(millilitres(40), std::nullopt, litres(20), half_cap, tolerance);
  ASSERT_FALSE(count);
  EXPECT_EQ(count.error()[0].code, "cap-unmeasured");
}

// Source: computed by hand: two caps of 20 mL in 20 L of finished mix leave 19,960 mL of water,
// 19,960 / 40 = 499; six and a half of 9 mL in 30 L leave 29,941.5 mL, 29,941.5 / 58.5 = 511.8.
// Added to the same water they are 20,000 / 40 = 500 and 30,000 / 58.5 = 512.8.
TEST(DosingCaps, InTotalTheStrengthIsThatOfTheWaterPouredInNotOfTheWholeMix) {
  const struct {
    double mix, cap, caps, in_total, added_to, tolerance;
  } rows[] = {{20, 20, 2, 499, 500, 1e-9}, {30, 9, 6.5, 511.8, 512.8, 0.05}};
  for (const auto& row : rows) {
    const auto parts = [&](Reading reading) {
      const auto count = count_caps(serum_for(litres(row.mix), 500, reading), millilitres(row.cap),
                                    litres(row.mix), half_cap, tolerance, reading);
      EXPECT_DOUBLE_EQ(count.value().caps, row.caps);
      return count.value().parts;
    };
    EXPECT_NEAR(parts(Reading::in_total), row.in_total, row.tolerance);
    EXPECT_NEAR(parts(Reading::added_to), row.added_to, row.tolerance);
  }
}

TEST(DosingCaps, NoSerumIsExactlyNoCaps) {
  const auto none = count_caps(millilitres(0), millilitres(20), litres(20), half_cap, tolerance);
  ASSERT_TRUE(none);
  EXPECT_EQ(none->caps, 0.0);
  EXPECT_EQ(none->parts, 0.0);
  EXPECT_EQ(none->off, 0.0);
  EXPECT_TRUE(none->fits);
}

// Back from the count: so much water and so many caps make up the mix again, and there is water.
TEST(DosingCaps, InTotalWaterAndCapsFillTheMix) {
  testing::Draw draw(20270311);
  for (int i = 0; i < 3000; ++i) {
    const double mix = draw.real(0.1, 30), parts = draw.real(1.01, 1500);
    const auto count =
        count_caps(serum_for(litres(mix), parts, Reading::in_total), millilitres(draw.real(1, 100)),
                   litres(mix), half_cap, tolerance, Reading::in_total);
    ASSERT_TRUE(count);
    if (count->caps == 0.0) continue;
    ASSERT_GT(count->parts, 0.0);
    ASSERT_NEAR(in_litres(count->given) * (1 + count->parts), mix, 1e-9);
  }
}

TEST(DosingCaps, ADoseFarBelowHalfACapDoesNotFit) {
  const auto tiny =
      count_caps(millilitres(2.5), millilitres(40), litres(1.24), half_cap, tolerance);
  ASSERT_TRUE(tiny);
  EXPECT_DOUBLE_EQ(tiny->caps, 0.0);
  EXPECT_FALSE(tiny->fits);
  const auto twice = count_caps(millilitres(10), millilitres(40), litres(5), half_cap, tolerance);
  EXPECT_DOUBLE_EQ(twice->caps, 0.5);
  EXPECT_NEAR(twice->off, 1.0, 1e-12);
  EXPECT_FALSE(twice->fits);
}

// The naive second way: try every number of half caps and keep the nearest.
TEST(DosingCaps, NoOtherNumberOfHalfCapsComesNearerToTheDose) {
  testing::Draw draw(20270304);
  for (int i = 0; i < 3000; ++i) {
    const double serum = draw.real(1, 400), cap = draw.real(1, 100), water = serum / 2;
    const auto count =
        count_caps(millilitres(serum), millilitres(cap), litres(water), half_cap, tolerance);
    ASSERT_TRUE(count);
    double nearest = serum;
    for (int halves = 1; halves * cap / 2 < serum + cap; ++halves)
      nearest = std::fmin(nearest, std::fabs(halves * cap / 2 - serum));
    ASSERT_NEAR(std::fabs(count->caps * cap - serum), nearest, 1e-6) << serum << " by " << cap;
    ASSERT_NEAR(in_millilitres(count->given), count->caps * cap, 1e-9);
    if (count->caps > 0) {
      ASSERT_NEAR(count->parts * in_millilitres(count->given), water * 1000, 1e-6);
    }
  }
}

// Source: computed: the last row by a published calibration class, 430.52 L/ha.
TEST(DosingLoads, SprayerLoadsAndTheLastPartLoad) {
  const struct {
    quantity::Volume mix;
    double tank, parts, loads, full_ml, last_l, last_ml;
  } rows[] = {{litres(200) / hectares(1) * square_metres(1000), 16, 500, 1.25, 32, 4, 8},
              {litres(300) / hectares(1) * acres(1), 15, 500, 8.0937, 30, 1.406, 2.81},
              {litres(200), 20, 1000, 10, 20, 0, 0},
              {litres(430.52) / hectares(1) * acres(0.1), 16, 500, 1.0889, 32, 1.423, 2.85}};
  for (const auto& row : rows) {
    const Loads got = loads(row.mix, litres(row.tank), row.parts, negligible);
    EXPECT_NEAR(got.loads, row.loads, 0.00005 + 1e-9);
    EXPECT_NEAR(in_millilitres(got.serum_full), row.full_ml, 1e-9);
    EXPECT_NEAR(in_litres(got.last), row.last_l, 0.0005 + 1e-9);
    EXPECT_NEAR(in_millilitres(got.serum_last), row.last_ml, 0.005);
  }
}

TEST(DosingLoads, LoadsPutTogetherAreTheMixUpToAHundredthOfACan) {
  testing::Draw draw(6);
  for (int i = 0; i < 3000; ++i) {
    const double mix = draw.real(0.5, 900), can = draw.real(5, 25), parts = draw.real(30, 2000);
    const Loads got = loads(litres(mix), litres(can), parts, negligible);
    const double carried = got.full * can + in_litres(got.last);
    ASSERT_NEAR(carried, mix, can * 0.01 + 1e-9);
    ASSERT_GE(in_litres(got.last), 0.0);
    ASSERT_LT(in_litres(got.last), can);
    const double serum = got.full * in_millilitres(got.serum_full) + in_millilitres(got.serum_last);
    ASSERT_NEAR(serum, carried * 1000 / parts, 1e-6);
  }
}

// Source: computed and common practice: a watering can at 1 L/m2 brings 8.1 L of serum an acre a
// use, forty times the usual 0.2 L.
TEST(DosingLoads, ACanAtOneLitreASquareMetreTakesFortyTimesTheSerum) {
  const quantity::Volume mix = litres(1) / square_metres(1) * acres(1);
  EXPECT_NEAR(in_litres(serum_for(mix, 500, Reading::added_to)), 8.1, 0.05);
  EXPECT_NEAR(mix / litres(100), 40, 0.5);
}

// Common practice, no source: 1 L an acre-season is five uses of 200 mL in 100 L.
TEST(DosingSeason, StrengthAndSeasonDoseAgree) {
  EXPECT_DOUBLE_EQ(season_litres_per_acre(100.0, 500.0, 5), 1.0);
  EXPECT_DOUBLE_EQ(season_litres_per_acre(100.0, 50.0, 5), 10.0);
}

// Common practice: 200 mL in 100 L an acre, five cans of 20 L. A can and a quarter is carried
// twice.
TEST(DosingDilution, CansAreCarriedWholeAndAPartLoadIsATrip) {
  const struct {
    double mix, container;
    int trips;
  } rows[] = {{100, 20, 5},  {25, 20, 2},  {20.1, 20, 1}, {20.3, 20, 2},
              {562, 20, 29}, {100, 16, 7}, {0.1, 20, 1},  {0, 20, 0}};
  for (const auto& row : rows)
    EXPECT_EQ(trips(litres(row.mix), litres(row.container), negligible), row.trips) << row.mix;
  EXPECT_EQ(trips(acres(1) * (litres(100) / acres(1)), litres(20), negligible), 5);
}

}  // namespace
}  // namespace wheyfield::dosing
