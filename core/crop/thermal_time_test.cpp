#include "crop/thermal_time.h"

#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "crop/degree_days.h"
#include "crop/thermal_sums.h"
#include "weather/station.h"

namespace wheyfield::crop {
namespace {

using calendar::Date;
using Kind = ThermalSums::Kind;

const ThermalRow& row(const std::string& crop) {
  for (const ThermalRow& each : testing::crops().thermal())
    if (each.crop == crop) return each;
  ADD_FAILURE() << crop;
  return testing::crops().thermal().front();
}

const Date sown = Date::from_civil(2027, 4, 1);

weather::DailySeries every_day(double celsius, int days = 400) {
  const auto n = static_cast<std::size_t>(days);
  return {sown, std::vector<double>(n, celsius - 6), std::vector<double>(n, celsius + 6),
          weather::Origin::readings, 0.0};
}

// Base temperatures, from memory: a single number, or the span that is named.
TEST(CropTable, VegetablesHaveABaseTemperatureForCountingByHand) {
  const struct {
    const char* crop;
    double low, high;
  } rows[] = {{"tomato", 10, 10},     {"sweet-pepper", 10, 10}, {"eggplant", 10, 12},
              {"cucumber", 10, 12},   {"watermelon", 10, 12},   {"pumpkin", 8, 10},
              {"green-bean", 10, 10}, {"onion", 5, 5},          {"carrot", 3, 5},
              {"cabbage", 4, 5},      {"kale", 4, 5},           {"lettuce", 4, 4},
              {"pea", 4, 4},          {"potato", 2, 7}};
  for (const auto& r : rows) {
    const auto& base = testing::crops().find(r.crop)->base;
    ASSERT_TRUE(base) << r.crop;
    EXPECT_EQ(base->origin.kind, "memory") << r.crop;
    EXPECT_DOUBLE_EQ(base->value, (r.low + r.high) / 2) << r.crop;
    EXPECT_LE(base->low, r.low) << r.crop;
    EXPECT_GE(base->high, r.high) << r.crop;
  }
}

// Source of the rules: crop/degree_days.h. Values computed by hand to four digits; base 10, cap 30.
TEST(CropDegreeDays, TheSixRulesGiveTheirFortyEightCheckValues) {
  const struct {
    double max, min;
    double expected[6];  // average, clipped, single sine, capped sine, triangle, four cases
  } rows[] = {{24, 12, {8, 8, 8, 8, 8, 8}},
              {20, 6, {3, 5, 3.9361, 3.9361, 3.5714, 4}},
              {16, 2, {0, 3, 1.7509, 1.7509, 1.2857, 1.5}},
              {12, 4, {0, 1, 0.4360, 0.4360, 0.25, 0.5}},
              {9, 3, {0, 0, 0, 0, 0, 0}},
              {34, 22, {18, 16, 18, 16.9830, 18, 18}},
              {36, 18, {17, 14, 17, 15.4745, 17, 17}},
              {38, 32, {25, 20, 25, 20, 25, 25}}};
  for (const auto& r : rows)
    for (int rule = 0; rule < 6; ++rule) {
      const auto which = static_cast<DegreeDayRule>(rule);
      EXPECT_NEAR(degree_days(which, r.max, r.min, 10, 30), r.expected[rule], 0.00005 + 1e-9)
          << degree_day_word(which) << " " << r.max << " " << r.min;
    }
}

// Another road: the sine integrated in small steps.
TEST(CropDegreeDays, TheSingleSineIsTheAreaOfASineAboveTheBase) {
  for (const auto& [max, min] : {std::pair{20.0, 6.0}, {16.0, 2.0}, {12.0, 4.0}, {36.0, 18.0}}) {
    double area = 0;
    const int steps = 20000;
    for (int i = 0; i < steps; ++i) {
      const double t = (max + min) / 2 + (max - min) / 2 * std::sin(6.283185307179586 * i / steps);
      area += std::max(0.0, t - 10) / steps;
    }
    EXPECT_NEAR(degree_days(DegreeDayRule::single_sine, max, min, 10, 30), area, 1e-4) << max;
  }
}

// Source: van Heemst 1988 via van Diepen et al. 1988, published, tropical set (potato: European
// set). {Tb emergence, cap, sum}, {T, rate} points, sums to the fourth event and on to maturity.
TEST(CropThermalRows, TheRowsAreThoseOfThePublishedSet) {
  const struct {
    const char* crop;
    double base, cap, sum;
    std::vector<std::pair<double, double>> rate;
    double to_fourth, to_harvest;
  } rows[] = {{"maize", 10, 30, 70, {{8, 0}, {30, 22}, {35, 22}}, 750, 859},
              {"sorghum", 10, 30, 70, {{10, 0}, {30, 20}, {45, 20}}, 730, 600},
              {"millet", 12, 32, 60, {{10, 0}, {27, 17}, {35, 17}, {45, 0}}, 772, 483},
              {"rice", 0, 0, 0, {{11, 0}, {35, 24}, {45, 24}}, 800, 465},
              {"cowpea", 10, 30, 70, {{8, 0}, {28, 20}, {35, 20}}, 660, 630},
              {"green-gram", 10, 30, 60, {{10, 0}, {28, 18}, {45, 18}}, 640, 753},
              {"pigeon-pea", 10, 30, 70, {{11, 0}, {25, 14}, {45, 0}}, 700, 700},
              {"soybean", 10, 30, 70, {{7, 0}, {30, 23}, {45, 23}}, 699, 1050},
              {"groundnut", 10, 30, 120, {{10, 0}, {30, 20}, {45, 20}}, 600, 952},
              {"sweet-potato", 10, 30, 200, {{10, 0}, {35, 25}, {45, 25}}, 416, 1436},
              {"cassava", 10, 30, 200, {{0, 1}, {45, 1}}, 50, 300},
              {"potato", 3, 18, 170, {{2, 0}, {13, 11}, {30, 28}}, 150, 1550}};
  for (const auto& r : rows) {
    const ThermalRow& found = row(r.crop);
    EXPECT_EQ(found.origin.source, "van-diepen-1988") << r.crop;
    EXPECT_EQ(found.emergence.has_value(), r.sum > 0) << r.crop;
    if (found.emergence) {
      EXPECT_EQ(found.emergence->base, r.base) << r.crop;
      EXPECT_EQ(found.emergence->cap, r.cap) << r.crop;
      EXPECT_EQ(found.emergence->sum, r.sum) << r.crop;
    }
    ASSERT_EQ(found.rate.size(), r.rate.size()) << r.crop;
    for (std::size_t i = 0; i < r.rate.size(); ++i) {
      EXPECT_EQ(found.rate[i].at, r.rate[i].first) << r.crop;
      EXPECT_EQ(found.rate[i].gives, r.rate[i].second) << r.crop;
    }
    EXPECT_EQ(found.to_fourth, r.to_fourth) << r.crop;
    EXPECT_EQ(found.to_harvest, r.to_harvest) << r.crop;
  }
  EXPECT_EQ(testing::crops().thermal().size(), std::size(rows) + 1) << "and common bean";
}

// Computed by hand from the published rows: days to emergence, flowering (potato: tuber start),
// maturity at 18, 20 and 25 C, to a tenth of a day.
TEST(CropThermalTime, DaysAtConstantTemperatureAreThoseWorkedOutByHand) {
  const struct {
    const char* crop;
    double days[3][3];
  } rows[] = {{"maize", {{8.75, 83.8, 169.7}, {7.0, 69.5, 141.1}, {4.7, 48.8, 99.3}}},
              {"sorghum", {{8.8, 100.0, 175.0}, {7.0, 80.0, 140.0}, {4.7, 53.3, 93.3}}},
              {"millet", {{10.0, 106.5, 166.9}, {7.5, 84.7, 133.0}, {4.6, 56.1, 88.3}}},
              {"cowpea", {{8.8, 74.8, 137.8}, {7.0, 62.0, 114.5}, {4.7, 43.5, 80.5}}},
              {"green-gram", {{7.5, 87.5, 181.6}, {6.0, 70.0, 145.3}, {4.0, 46.7, 96.9}}},
              {"soybean", {{8.8, 72.3, 167.8}, {7.0, 60.8, 141.5}, {4.7, 43.5, 101.8}}},
              {"groundnut", {{15.0, 90.0, 209.0}, {12.0, 72.0, 167.2}, {8.0, 48.0, 111.5}}},
              {"potato", {{11.3, 20.7, 117.6}, {11.3, 19.7, 105.8}, {11.3, 17.9, 85.2}}}};
  const double celsius[] = {18, 20, 25};
  for (const auto& r : rows)
    for (int t = 0; t < 3; ++t) {
      const ConstantDays days = days_at(row(r.crop), celsius[t]);
      EXPECT_NEAR(days.emergence, r.days[t][0], 0.1) << r.crop << celsius[t];
      EXPECT_NEAR(days.fourth, r.days[t][1], 0.1) << r.crop << celsius[t];
      EXPECT_NEAR(days.harvest, r.days[t][2], 0.1) << r.crop << celsius[t];
    }
}

// Source: 25 bean trials in Africa 1998, published abstract: first flower 26 to 80 days after
// sowing. Computed: 500 degree-days are 36 days at 22 C, 42 at 20, 50 at 18.
TEST(CropThermalTime, BeanFlowersWithinTheDaysOfTheAfricanTrials) {
  EXPECT_NEAR(days_at(row("bean"), 22).fourth, 36, 0.5);
  EXPECT_NEAR(days_at(row("bean"), 20).fourth, 42, 0.5);
  EXPECT_NEAR(days_at(row("bean"), 18).fourth, 50, 0.5);
  EXPECT_EQ(row("bean").origin.kind, "computed");
  for (double celsius = 15; celsius <= 30; celsius += 0.5) {
    EXPECT_GT(days_at(row("bean"), celsius).fourth, 26);
    EXPECT_LT(days_at(row("bean"), celsius).fourth, 80);
  }
}

// Source: Angus et al. 1981 as tabulated by Campbell and Norman, from memory: base and sum to
// emergence by other authors; the two sets agree within three days at 20 and 25 C.
TEST(CropThermalTime, EmergenceAgreesWithAnotherSetOfSumsWithinThreeDays) {
  const struct {
    const char* crop;
    double base, sum;
  } angus[] = {{"maize", 9.8, 61},
               {"sorghum", 10.6, 48},
               {"millet", 11.8, 40},
               {"cowpea", 11.0, 43},
               {"groundnut", 13.3, 76}};
  for (const auto& a : angus)
    for (double celsius : {20.0, 25.0})
      EXPECT_NEAR(days_at(row(a.crop), celsius).emergence, a.sum / (celsius - a.base), 3.0)
          << a.crop << celsius;
}

TEST(CropThermalTime, WhereItIsTooColdNothingEverHappens) {
  EXPECT_TRUE(std::isinf(days_at(row("maize"), 8).fourth));
  EXPECT_TRUE(std::isinf(days_at(row("millet"), 45).fourth)) << "and where it is too hot";
  EXPECT_DOUBLE_EQ(days_at(row("cassava"), 12).fourth - days_at(row("cassava"), 12).emergence, 50);
}

int days_to(const ThermalSums& sums, const ThermalRow& r, double* maturity = nullptr) {
  const auto emerged = sums.likely(Kind::emergence, sown, r.emergence->sum);
  const auto flower = sums.likely(Kind::development, *emerged, r.to_fourth);
  if (maturity) *maturity = *sums.likely(Kind::development, *flower, *r.to_harvest) - sown;
  return *flower - sown;
}

// Computed by hand: whole days, the event on the first day the sum is reached.
TEST(CropThermalSums, WholeDayCountingOfMaizeAtConstantTemperature) {
  const struct {
    double celsius;
    int emergence, flowering;
  } rows[] = {{18, 9, 84}, {20, 7, 70}, {25, 5, 50}};
  for (const auto& r : rows) {
    const ThermalSums sums(row("maize"), every_day(r.celsius));
    EXPECT_EQ(*sums.likely(Kind::emergence, sown, 70) - sown, r.emergence) << r.celsius;
    EXPECT_EQ(days_to(sums, row("maize")), r.flowering) << r.celsius;
  }
}

// Independent agreement. Source: FAO-56 Table 11, East African maize: flowering after 80 days,
// harvest after 180, published. Computed from degree-days on the normals of Nairobi (published),
// sown on 1 April: 86 and 190; a degree warmer 76, colder 99.
TEST(CropThermalSums, MaizeAtNairobiAgreesWithFao56WithinTenDays) {
  const auto stations = testing::value_or_abort(weather::read_stations(testing::bundle()));
  auto series = testing::value_or_abort(
      weather::from_station(*weather::find_station(stations, "nairobi"), quantity::metres(1798),
                            sown, sown + 300, testing::bundle()));
  double maturity = 0;
  const int flowering = days_to(ThermalSums(row("maize"), series), row("maize"), &maturity);
  EXPECT_EQ(flowering, 86);
  EXPECT_EQ(maturity, 190);
  EXPECT_NEAR(flowering, 80, 10);
  EXPECT_NEAR(maturity, 180, 10);
  for (const auto& [warmer, days] : {std::pair{1.0, 76}, {-1.0, 99}}) {
    auto moved = series;
    for (double& t : moved.min) t += warmer;
    for (double& t : moved.max) t += warmer;
    EXPECT_EQ(days_to(ThermalSums(row("maize"), moved), row("maize")), days) << warmer;
  }
}

TEST(CropThermalSums, WhatLiesBeyondTheSeriesIsNotGuessed) {
  const ThermalSums sums(row("maize"), every_day(20, 60));
  EXPECT_FALSE(sums.likely(Kind::development, sown, 12.0 * 61));
  EXPECT_EQ(sums.likely(Kind::development, sown, 12.0 * 60), sown + 60);
  EXPECT_FALSE(sums.likely(Kind::development, sown - 1, 1));
  EXPECT_FALSE(sums.gathered(sown, sown + 61));
  EXPECT_NEAR(*sums.gathered(sown + 10, sown + 20), 120, 1e-9);
}

TEST(CropThermalRows, ARowWithoutItsNumbersIsRefused) {
  const auto code = [](const char* member, nlohmann::json value) {
    nlohmann::json spoiled = testing::bundle().section("thermal")[0];
    spoiled[member] = std::move(value);
    const auto read = read_thermal_row(spoiled, "/data/thermal/0");
    return read ? std::string() : read.error()[0].code;
  };
  EXPECT_EQ(code("to_fourth", nullptr), "data-missing");
  EXPECT_EQ(code("rate", nlohmann::json::array()), "data-missing");
  EXPECT_EQ(code("rate", {{30, 22}, {8, 0}}), "data-range");
  EXPECT_EQ(code("rate", {{8, 0}, {30, -22}}), "data-range");
}

}  // namespace
}  // namespace wheyfield::crop
