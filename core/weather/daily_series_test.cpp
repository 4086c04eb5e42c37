#include "weather/daily_series.h"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/day.h>
#include <support/draw.h>

namespace wheyfield::weather {
namespace {

using calendar::Date;
using quantity::metres;
using wheyfield::testing::on;

// Source: practice season, Lower Reedwater 1,250 m, kind assumption.
const std::vector<MonthlyMean> lower{
    {2027, 2, 15.8, 29.0}, {2027, 3, 15.9, 28.8}, {2027, 4, 16.2, 27.2}, {2027, 5, 15.8, 26.2},
    {2027, 6, 14.5, 25.8}, {2027, 7, 13.8, 25.6}, {2027, 8, 14.0, 26.6}};

// Source: FAO, Kenya agro-ecological zones study, ch. 6: T = 30.2 - 6.496 A/1000, published; the
// rows are computed from it, to three digits after the point.
TEST(WeatherAltitude, TheMeanFallsWithHeightAsTheKenyaStudySays) {
  const struct {
    double altitude, mean;
  } rows[] = {{800, 25.003},  {1200, 22.405}, {1550, 20.131}, {1661, 19.410}, {1798, 18.520},
              {1950, 17.533}, {2350, 14.934}, {2700, 12.661}, {3100, 10.062}, {3900, 4.866}};
  for (const auto& row : rows) {
    const auto mean = mean_at_altitude(metres(row.altitude), testing::bundle());
    ASSERT_TRUE(mean) << row.altitude;
    EXPECT_NEAR(*mean, row.mean, 0.0005 + 1e-9) << row.altitude;
  }
}

// Source: the same study, thermal zones, published: limits in degrees and in metres.
TEST(WeatherAltitude, TheThermalZonesOfTheStudyBeginAtTheirAltitudes) {
  const struct {
    double altitude, zone;
  } rows[] = {{800, 25},  {1200, 22.5}, {1550, 20}, {1950, 17.5},
              {2350, 15}, {2700, 12.5}, {3100, 10}, {3900, 5}};
  for (const auto& row : rows)
    EXPECT_NEAR(*mean_at_altitude(metres(row.altitude), testing::bundle()), row.zone, 0.2);
}

// Source: the same study: stations above 150 m. Dar es Salaam would be 4 C off (computed).
TEST(WeatherAltitude, TheCoastIsRefusedBelow150Metres) {
  for (double altitude : {0.0, 14.0, 149.9, -5.0}) {
    const auto mean = mean_at_altitude(metres(altitude), testing::bundle());
    ASSERT_FALSE(mean) << altitude;
    EXPECT_EQ(mean.error()[0].code, "altitude-too-low");
    EXPECT_EQ(mean.error()[0].details.at("limit"), "150");
  }
  EXPECT_TRUE(mean_at_altitude(metres(150), testing::bundle()));
}

TEST(WeatherAltitude, AnAltitudeInFeetIsNoticedAbove6000) {
  const auto mean = mean_at_altitude(metres(6001), testing::bundle());
  ASSERT_FALSE(mean);
  EXPECT_EQ(mean.error()[0].code, "altitude-too-high");
}

TEST(WeatherAltitude, ASeriesByAltitudeSaysHowItWasComeByAndHowFarItMayBeOff) {
  const auto series = from_altitude(metres(1250), on(2, 1), on(8, 31), testing::bundle());
  ASSERT_TRUE(series);
  EXPECT_EQ(series->origin, Origin::altitude);
  EXPECT_GT(series->spread, 0.0);
  EXPECT_EQ(series->min.size(), 212u);  // 28+31+30+31+30+31+31 days
  EXPECT_NEAR(series->mean(on(5, 1)), 30.2 - 6.496 * 1.25, 1e-12);
}

// Source: practice season, assumption: its year keeps within 0.5 C of the altitude formula.
TEST(WeatherMonths, ThePracticeMonthsStayNearTheAltitudeFormulaInMarch) {
  const auto series = from_monthly_means(lower, on(2, 1), on(8, 31));
  const auto by_altitude = mean_at_altitude(metres(1250), testing::bundle());
  EXPECT_NEAR(series->mean(on(3, 15)), *by_altitude, 0.5);
}

TEST(WeatherMonths, TheMiddleOfAMonthHasThatMonthsMeans) {
  const auto series = from_monthly_means(lower, on(2, 1), on(8, 31));
  ASSERT_TRUE(series);
  for (const MonthlyMean& m : lower) {
    const auto i = static_cast<std::size_t>(on(m.month, 15) - on(2, 1));
    EXPECT_DOUBLE_EQ(series->min[i], m.min) << m.month;
    EXPECT_DOUBLE_EQ(series->max[i], m.max) << m.month;
  }
}

// By hand: 16 March to 15 April is 31 days; on 25 March ten of them have gone.
TEST(WeatherMonths, BetweenTwoMonthsTheTemperatureFollowsAStraightLine) {
  const auto series = from_monthly_means(lower, on(2, 1), on(8, 31));
  const auto i = static_cast<std::size_t>(on(3, 25) - on(2, 1));
  EXPECT_NEAR(series->max[i], 28.8 + (27.2 - 28.8) * 10 / 31, 1e-12);
  EXPECT_NEAR(series->mean(on(3, 25)), (series->min[i] + series->max[i]) / 2, 1e-12);
}

TEST(WeatherMonths, BeforeTheFirstAndAfterTheLastMonthItIsHeldFlat) {
  const auto series = from_monthly_means(lower, on(1, 1), on(9, 30));
  EXPECT_DOUBLE_EQ(series->min.front(), 15.8);
  EXPECT_DOUBLE_EQ(series->max.back(), 26.6);
  EXPECT_DOUBLE_EQ(series->mean(on(12, 31)), (14.0 + 26.6) / 2);
  EXPECT_FALSE(series->covers(on(12, 31)));
  EXPECT_TRUE(series->covers(on(9, 30)));
}

TEST(WeatherMonths, TheOrderInWhichMonthsAreGivenDoesNotMatter) {
  testing::Draw draw(4);
  const auto straight = from_monthly_means(lower, on(2, 1), on(8, 31));
  for (int round = 0; round < 20; ++round) {
    std::vector<MonthlyMean> mixed = lower;
    for (std::size_t i = mixed.size(); i > 1; --i) std::swap(mixed[i - 1], mixed[draw.below(i)]);
    const auto other = from_monthly_means(mixed, on(2, 1), on(8, 31));
    ASSERT_EQ(other->min, straight->min);
    ASSERT_EQ(other->max, straight->max);
  }
}

TEST(WeatherMonths, NoDayIsWarmerOrColderThanTheMonthsAroundIt) {
  testing::Draw draw(5);
  for (int round = 0; round < 50; ++round) {
    std::vector<MonthlyMean> months;
    const int first = draw.between(1, 12), last = draw.between(first, 12);
    for (int month = first; month <= last; ++month) {
      const double min = draw.real(-5, 25);
      months.push_back({2027, month, min, min + draw.real(0, 20)});
    }
    const auto series = from_monthly_means(months, on(1, 1), on(12, 31));
    ASSERT_TRUE(series);
    double least = 99, most = -99;
    for (const MonthlyMean& m : months)
      least = std::min(least, m.min), most = std::max(most, m.max);
    for (std::size_t i = 0; i < series->min.size(); ++i) {
      ASSERT_GE(series->min[i], least - 1e-12);
      ASSERT_LE(series->max[i], most + 1e-12);
      ASSERT_LE(series->min[i], series->max[i] + 1e-12);
    }
  }
}

// Another road: the mean over some days summed by hand.
TEST(WeatherMonths, TheMeanOverElevenDaysIsTheSumOfTheirMeansByEleven) {
  const auto series = from_monthly_means(lower, on(2, 1), on(8, 31));
  double sum = 0;
  for (int day = 4; day < 15; ++day) {
    const auto i = static_cast<std::size_t>(on(3, day) - on(2, 1));
    sum += (series->min[i] + series->max[i]) / 2;
  }
  EXPECT_NEAR(series->mean_over(on(3, 4), 11), sum / 11, 1e-12);
}

TEST(WeatherMonths, MistakesInMonthsAreRefusedWithTheirPlace) {
  const auto problem = [](std::vector<MonthlyMean> months) {
    const auto series = from_monthly_means(months, on(2, 1), on(3, 1));
    return series ? std::string() : series.error()[0].code + " " + series.error()[0].field;
  };
  EXPECT_EQ(problem({}), "months-missing /months");
  EXPECT_EQ(problem({{2027, 2, 16, 29}, {2027, 2, 16, 29}}), "month-twice /months/1/month");
  EXPECT_EQ(problem({{2027, 2, 29, 16}}), "minimum-above-maximum /months/0/min");
  EXPECT_EQ(problem({{2027, 2, 16, 29}, {2027, 3, 60, 84}}),
            "temperature-out-of-range /months/1/min");
}

TEST(WeatherMonths, AMonthLeftOutIsNamedAndNotBridged) {
  const auto gap = [](std::vector<MonthlyMean> months) {
    const auto series = from_monthly_means(months, on(2, 1), on(8, 31));
    if (series) return std::string();
    const outcome::Problem& first = series.error()[0];
    return first.code + " " + first.field + " " + first.value;
  };
  auto without_april = lower;
  without_april.erase(without_april.begin() + 2);
  EXPECT_EQ(gap(without_april), "month-gap /months/2/month 2027-04");
  EXPECT_EQ(gap({{2027, 8, 14, 26}, {2027, 3, 16, 29}}), "month-gap /months/0/month 2027-04");
  EXPECT_EQ(gap({{2026, 11, 14, 26}, {2027, 1, 16, 29}}), "month-gap /months/1/month 2026-12");
  EXPECT_EQ(gap({{2026, 12, 14, 26}, {2027, 1, 16, 29}}), "");
}

}  // namespace
}  // namespace wheyfield::weather
