#include "fermentation/air.h"

#include <gtest/gtest.h>

#include "weather/diurnal.h"

namespace wheyfield::fermentation {
namespace {

TEST(FermentationAir, ConstantAirStaysAsItIs) {
  for (const double hours : {0.0, 5.0, 37.25, 240.0})
    EXPECT_EQ(Air::constant(25.0).at(hours), 25.0) << hours;
}

// Source: Campbell and Norman (1998), example to eq. 2.2, published: 30 and 10 C at 11 h.
TEST(FermentationAir, TheSameDayComesBackAndStartsAtTheHourOfTheBatch) {
  const Air air = Air::daily(10, 30, 8);
  EXPECT_NEAR(air.at(3), 25.08958, 0.000005);
  EXPECT_NEAR(air.at(3 + 5 * 24), 25.08958, 0.000005);
  EXPECT_DOUBLE_EQ(air.at(17), weather::campbell_norman({30, 10, 30, 10}, 1));
}

// Computed: 14 + 0.44 x 14 = 20.16, not 21.
TEST(FermentationAir, TheMeanOfADayLiesBelowTheMiddle) {
  const Air air = Air::daily(14, 28, 0);
  double sum = 0.0;
  for (int i = 0; i < 24 * 60; ++i) sum += air.at((i + 0.5) / 60.0);
  EXPECT_NEAR(sum / (24 * 60), 20.16, 0.001);
}

TEST(FermentationAir, ASeriesIsFollowedDayByDayAndHeldAtItsEnds) {
  const auto first = calendar::Date::from_civil(2027, 3, 1);
  const weather::DailySeries series{first, {10, 12, 14}, {20, 24, 28}};
  const Air air = Air::series(series, first + 1, 6);
  EXPECT_DOUBLE_EQ(air.at(6), weather::campbell_norman({20, 12, 24, 14}, 12));   // 2 March, noon
  EXPECT_DOUBLE_EQ(air.at(20), weather::campbell_norman({24, 14, 28, 14}, 2));   // 3 March, 2 h
  EXPECT_DOUBLE_EQ(air.at(78), weather::campbell_norman({28, 14, 28, 14}, 12));  // 5 March
  const Air before = Air::series(series, first - 9, 0);
  EXPECT_DOUBLE_EQ(before.at(3), weather::campbell_norman({20, 10, 20, 10}, 3));
}

TEST(FermentationAir, BetweenHalfHoursItStaysNearTheCurveAndNeverJumps) {
  const Air air = Air::daily(14, 28, 0);
  for (int i = 0; i < 24 * 60; ++i)
    EXPECT_NEAR(air.at(i / 60.0), weather::campbell_norman({28, 14, 28, 14}, i / 60.0), 0.03) << i;
  const auto first = calendar::Date::from_civil(2027, 3, 1);
  const Air unlike = Air::series({first, {8, 16, 5}, {20, 32, 15}}, first, 0);
  for (int i = 1; i < 72 * 60; ++i)
    EXPECT_NEAR(unlike.at(i / 60.0), unlike.at((i - 1) / 60.0), 0.15) << i;
}

}  // namespace
}  // namespace wheyfield::fermentation
