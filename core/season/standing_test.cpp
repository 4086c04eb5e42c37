#include "season/standing.h"

#include <gtest/gtest.h>

#include <support/small_season.h>

#include "season/batch_chain.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using fermentation::ReadinessCurve;
using fermentation::ReadinessTable;
using nlohmann::json;

const Date day = Date::from_civil(2027, 3, 4);

json row(const char* state, double celsius, double early, double likely, double late) {
  return {{"liquid", "milk"},   {"state", state},     {"ph", 4.2},
          {"celsius", celsius}, {"early", early},     {"likely", likely},
          {"late", late},       {"kind", "computed"}, {"source", "computed-here"}};
}

// Raw 60-96-120 h at 10 C, a tenth of it at 30; heated twice as long.
Readiness invented(int batches_recorded) {
  json data = json::parse(embedded::data_json());
  data["readiness"] =
      json::array({row("raw", 10, 60, 96, 120), row("raw", 30, 6, 9.6, 12),
                   row("heated", 10, 120, 192, 240), row("heated", 30, 12, 19.2, 24)});
  const auto read = testing::value_or_abort(reference_data::ReferenceData::parse(data.dump()));
  return {testing::value_or_abort(ReadinessTable::parse(read)), batches_recorded};
}

const recipe::Step& milk_step() {
  const recipe::Recipe& recipe = testing::serum_recipe();
  return recipe.steps[static_cast<std::size_t>(recipe.vessel_step())];
}

// early likely late keeps, and how warm.
std::string told(const std::optional<Standing>& s) {
  if (!s) return "never";
  std::string text;
  for (const int days : {s->days.early, s->days.likely, s->days.late, s->days.keeps})
    text += std::to_string(days) + " ";
  return text + (s->cool ? "cool" : "warm");
}

std::string stands(const Place& place, Milk milk, const Readiness& readiness) {
  return told(standing(milk_step(), place, milk, day, 20.0, readiness));
}

Place at_pace(Place place, double pace) {
  place.pace = pace;
  return place;
}

TEST(Standing, TheBucketFollowsTheDaysMeanNotItsMiddle) {
  Place place = testing::steady_place("here", 0, 0);
  place.temperature.min = {14};
  place.temperature.max = {28};
  EXPECT_NEAR(bucket_mean(place, day, 5), 14 + 0.44 * 14, 1e-12);
  // A day of 14 to 28, then days of 10: (20.16 + 10 + 10) / 3.
  place.temperature = {day, {14, 10}, {28, 10}, weather::Origin::readings, 0.0};
  EXPECT_NEAR(bucket_mean(place, day, 3), 40.16 / 3, 1e-12);
}

// 10 C raw: 60, 96 and 120 h are 3, 4 and 5 days. Taught there: 5 to 10, kept until 13.
TEST(Standing, HoursBecomeWholeDays) {
  const Place cold = testing::steady_place("high", 10, 0);
  EXPECT_EQ(stands(cold, Milk::raw, invented(3)), "3 4 5 13 cool");
  EXPECT_EQ(stands(cold, Milk::heated_cooled, invented(3)), "5 8 10 13 cool");
  // 1.25 times as fast: 48, 76.8 and 96 h.
  EXPECT_EQ(stands(at_pace(cold, 1.25), Milk::raw, invented(3)), "2 4 4 13 cool");
  // Half as fast: 480 h are 20 days, ten more than taught, and it keeps three more.
  EXPECT_EQ(stands(at_pace(cold, 0.5), Milk::heated_cooled, invented(3)), "10 16 20 23 cool");
}

// 30 C raw: 6, 9.6 and 12 h are less than a day. Taught: kept until the 9th day.
TEST(Standing, NothingBelowThePublishedDaysBeforeThreeBatchesAreRecorded) {
  const Place hot = testing::steady_place("low", 30, 0);
  EXPECT_EQ(stands(hot, Milk::raw, invented(0)), "3 3 3 9 warm");
  EXPECT_EQ(stands(hot, Milk::raw, invented(2)), "3 3 3 9 warm");
  EXPECT_EQ(stands(hot, Milk::raw, invented(3)), "1 1 1 9 warm");
}

// 10 C on the first two days, 30 C from the third on. After three days the bucket was at 16.67 C on
// the mean: a third of the way from 10 to 30 C, 120 x 10^(-1/3) = 55.7 h for the late mark, which
// is less than 72.
TEST(Standing, LooksAheadOverTheDaysItWouldStand) {
  Place warming = testing::steady_place("here", 0, 0);
  warming.temperature = {day, {10, 10, 30}, {10, 10, 30}, weather::Origin::readings, 0.0};
  const auto s = standing(milk_step(), warming, Milk::raw, day, 20.0, invented(3));
  EXPECT_EQ(s->days.late, 3);
  EXPECT_NEAR(*s->bucket, 50.0 / 3, 1e-12);
}

TEST(Standing, NeverBelowTheColdestRowAndWithoutACurve) {
  EXPECT_EQ(stands(testing::steady_place("high", 9.9, 0), Milk::raw, invented(0)), "never");
  EXPECT_EQ(stands(testing::steady_place("low", 30, 0), Milk::raw, {}), "never");
}

// A step that is not forecast keeps the taught windows, whatever the table says.
TEST(Standing, TaughtWindowsStayWhereNothingIsForecast) {
  const recipe::Step& rinse_water = testing::serum_recipe().steps[1];
  ASSERT_FALSE(rinse_water.forecast);
  const auto s =
      standing(rinse_water, testing::steady_place("high", 9, 0), Milk::raw, day, 20.0, {});
  EXPECT_EQ(told(s), "5 7 9 12 cool");
  EXPECT_FALSE(s->bucket);
}

TEST(Standing, NoChainWhereTheMilkIsNeverSour) {
  Season season = testing::small_season();
  BatchProblem problem;
  problem.recipe = &testing::serum_recipe();
  problem.season = &season;
  problem.cool_below = 20.0;
  problem.readiness = invented(0);
  EXPECT_TRUE(ChainTable(problem).at(0, Milk::raw, day));
  season.places[0] = testing::steady_place("high", 8, 0);
  EXPECT_FALSE(ChainTable(problem).at(0, Milk::raw, day));
}

// Warmer days never make it later, by either milk; the forecast is whole days in order.
TEST(Standing, WarmerIsNoLater) {
  const Readiness readiness = PlanRules::of(testing::bundle()).readiness;
  for (const Milk milk : {Milk::raw, Milk::heated_cooled}) {
    int before = 1000;
    for (double celsius = 12.0; celsius <= 32.0; celsius += 0.5) {
      const auto s = standing(milk_step(), testing::steady_place("here", celsius, 0), milk, day,
                              20.0, readiness);
      if (!s) continue;
      EXPECT_LE(s->days.early, s->days.likely);
      EXPECT_LE(s->days.likely, s->days.late);
      EXPECT_LE(s->days.late, s->days.keeps);
      EXPECT_LE(s->days.late, before) << celsius;
      before = s->days.late;
    }
    EXPECT_EQ(before, 3);
  }
}

}  // namespace
}  // namespace wheyfield::season
