#include "weather/temperature.h"

#include <numeric>
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

const std::vector<Station>& stations() {
  static const auto all = testing::value_or_abort(read_stations(testing::bundle()));
  return all;
}
const Station& station(const char* id) { return *find_station(stations(), id); }

double year_mean(const Station& s) {
  return (std::accumulate(s.min.begin(), s.min.end(), 0.0) +
          std::accumulate(s.max.begin(), s.max.end(), 0.0)) /
         24.0;
}

std::vector<Reading> readings(int days) {
  std::vector<Reading> all;
  for (int i = 0; i < days; ++i) all.push_back({on(3, 1) + i, 14.0 + i % 3, 26.0 + i % 5});
  return all;
}

std::string problem(const std::vector<Reading>& given) {
  const auto series = from_readings(given, testing::bundle());
  if (series) return "";
  const outcome::Problem& first = series.error()[0];
  return first.code + " " + first.field + " " + first.value;
}

TEST(WeatherReadings, TheDaysStandAsTheyWereReadInAnyOrder) {
  auto given = readings(40);
  const auto straight = from_readings(given, testing::bundle());
  ASSERT_TRUE(straight);
  EXPECT_EQ(straight->origin, Origin::readings);
  EXPECT_GT(straight->spread, 0.0);
  EXPECT_DOUBLE_EQ(straight->mean(on(3, 3)), (16.0 + 28.0) / 2);
  testing::Draw draw(7);
  for (std::size_t i = given.size(); i > 1; --i) std::swap(given[i - 1], given[draw.below(i)]);
  EXPECT_EQ(from_readings(given, testing::bundle())->max, straight->max);
}

TEST(WeatherReadings, AGapIsRefusedWithItsFirstMissingDay) {
  auto given = readings(40);
  given.erase(given.begin() + 10, given.begin() + 13);
  EXPECT_EQ(problem(given), "reading-gap /readings/10/day 2027-03-11");
  EXPECT_EQ(from_readings(given, testing::bundle()).error()[0].details.at("count"), "3");
}

TEST(WeatherReadings, FahrenheitIsToldOnceNotForEveryDay) {
  auto given = readings(40);
  for (Reading& r : given) r.min = r.min * 1.8 + 32, r.max = r.max * 1.8 + 32;
  EXPECT_EQ(problem(given), "readings-fahrenheit /readings 78.8");
  EXPECT_EQ(from_readings(given, testing::bundle()).error().size(), 1u);
}

TEST(WeatherReadings, OtherMistakesAreRefusedWithTheirPlace) {
  EXPECT_EQ(problem({}), "readings-missing /readings ");
  auto swapped = readings(5);
  std::swap(swapped[3].min, swapped[3].max);
  EXPECT_EQ(problem(swapped), "minimum-above-maximum /readings/3/min 29.0");
  auto slip = readings(5);
  slip[2].max = 280.0;
  EXPECT_EQ(problem(slip), "temperature-out-of-range /readings/2/max 280.0");
  auto twice = readings(5);
  twice[4].day = twice[1].day;
  EXPECT_EQ(problem(twice), "reading-twice /readings/4/day 2027-03-02");
}

// Source: World Meteorological Organization normals, published; yearly means computed here.
TEST(WeatherStation, TheNormalsAddUpToTheYearlyMeansOfTheirTables) {
  ASSERT_EQ(stations().size(), 4u);
  const Station& nairobi = station("nairobi");
  EXPECT_NEAR(year_mean(nairobi), 17.675, 0.0005);
  EXPECT_NEAR(std::accumulate(nairobi.rain.begin(), nairobi.rain.end(), 0.0), 1024.2, 0.05);
}

// Computed: formula by altitude less station: Nairobi -0.8, Kampala -0.6, Lusaka -1.3, and at the
// coast -4.1, which is why the formula is refused below 150 m.
TEST(WeatherStation, TheAltitudeFormulaMissesTheStationsByTheKnownResiduals) {
  const struct {
    const char* id;
    double residual;
  } rows[] = {{"nairobi", -0.8}, {"kampala", -0.6}, {"lusaka", -1.3}, {"dar-es-salaam", -4.1}};
  for (const auto& row : rows) {
    const Station& s = station(row.id);
    const auto known = mean_at_altitude(s.altitude, testing::bundle());
    EXPECT_EQ(known.has_value(), std::string(row.id) != "dar-es-salaam");
    const double formula =
        known.value_or(testing::value("altitude-intercept") -
                       testing::value("altitude-lapse") * quantity::in_metres(s.altitude) / 1000.0);
    EXPECT_NEAR(year_mean(s) - formula, row.residual, 0.05) << row.id;
  }
}

// Computed: Nairobi 17.675 C at 1798 m is 19.29 C at 1550 m.
TEST(WeatherStation, AStationMovesByTheLapseRate) {
  const auto here =
      from_station(station("nairobi"), metres(1798), on(1, 1), on(12, 31), testing::bundle());
  const auto lower =
      from_station(station("nairobi"), metres(1550), on(1, 1), on(12, 31), testing::bundle());
  ASSERT_TRUE(lower);
  EXPECT_EQ(lower->origin, Origin::station);
  EXPECT_NEAR(lower->mean(on(7, 1)) - here->mean(on(7, 1)), 19.29 - 17.68, 0.01);
  EXPECT_DOUBLE_EQ(here->min[14], 11.5) << "15 January";
  EXPECT_NEAR(here->max[0], 23.4 + (24.5 - 23.4) * 17 / 31, 1e-9) << "17 days past 15 December";
}

TEST(WeatherStation, NoStationIsMovedAcrossTheLineOfTheCoast) {
  const auto inland =
      from_station(station("dar-es-salaam"), metres(1250), on(1, 1), on(2, 1), testing::bundle());
  ASSERT_FALSE(inland);
  EXPECT_EQ(inland.error()[0].code, "station-on-the-coast");
  const auto coast =
      from_station(station("nairobi"), metres(20), on(1, 1), on(2, 1), testing::bundle());
  ASSERT_FALSE(coast);
  EXPECT_EQ(coast.error()[0].code, "altitude-too-low");
  EXPECT_TRUE(
      from_station(station("dar-es-salaam"), metres(20), on(1, 1), on(2, 1), testing::bundle()));
}

// Nairobi has 10.1 C in its coldest month; 3402 m higher, at 5200 m, the air is 22.1 C colder.
TEST(WeatherStation, AnAltitudeThatMovesItBeyondAnyFieldIsRefusedOnceAtTheAltitude) {
  for (double altitude : {5900.0, 5200.0}) {
    const auto high =
        from_station(station("nairobi"), metres(altitude), on(1, 1), on(2, 1), testing::bundle());
    ASSERT_FALSE(high) << altitude;
    ASSERT_EQ(high.error().size(), 1u);
    EXPECT_EQ(high.error()[0].code, "station-moved-too-far");
    EXPECT_EQ(high.error()[0].field, "/altitude");
  }
  EXPECT_TRUE(
      from_station(station("nairobi"), metres(4500), on(1, 1), on(2, 1), testing::bundle()));
}

outcome::Result<DailySeries> best(const Known& known) {
  reference_data::UsedSources used;
  return best_series(known, on(3, 1), on(8, 31), testing::bundle(), used);
}

TEST(WeatherBest, TheMostTrustedOfWhatIsKnownIsUsed) {
  Known known;
  EXPECT_EQ(best(known).error()[0].code, "temperature-unknown");
  known.altitude = metres(1250);
  double before = 99;
  const auto next = [&](Origin origin) {
    const auto series = best(known);
    ASSERT_TRUE(series);
    EXPECT_EQ(series->origin, origin);
    EXPECT_EQ(series->min.size(), 184u);
    EXPECT_GT(series->spread, 0.0);
    EXPECT_LT(series->spread, before) << origin_word(origin);
    before = series->spread;
  };
  next(Origin::altitude);
  known.station = &station("nairobi");
  next(Origin::station);
  known.months = {{2027, 3, 15.9, 28.8}, {2027, 4, 13.8, 25.6}};
  next(Origin::monthly_means);
  known.readings = readings(200);
  const auto series = best(known);
  ASSERT_TRUE(series);
  EXPECT_EQ(series->origin, Origin::readings);
  EXPECT_LT(series->spread, before);
}

TEST(WeatherBest, ReadingsAreKeptAndTheNextSourceGivesTheDaysToCome) {
  Known known;
  known.readings = readings(40);
  known.months = {{2027, 3, 15.9, 28.8}, {2027, 4, 13.8, 25.6}};
  const auto series = best(known);
  const auto months = from_monthly_means(known.months, on(3, 1), on(8, 31));
  ASSERT_TRUE(series);
  EXPECT_EQ(series->origin, Origin::monthly_means);
  EXPECT_EQ(series->spread, testing::bundle().constant("months-spread").value);
  for (std::size_t i = 0; i < series->min.size(); ++i)
    ASSERT_EQ(series->min[i], i < 40 ? known.readings[i].min : months->min[i]) << i;
}

TEST(WeatherBest, TheStationAndTheLapseRateAreNamedAmongTheSources) {
  Known known;
  known.station = &station("nairobi");
  known.altitude = metres(1550);
  reference_data::UsedSources used;
  ASSERT_TRUE(best_series(known, on(3, 1), on(8, 31), testing::bundle(), used));
  std::string sources;
  for (const auto& row : used.rows()) sources += std::get<0>(row) + " ";
  EXPECT_EQ(sources, "fao-kenya-aez wmo-normals ");
}

TEST(WeatherBest, AStationNeedsHerAltitudeToBeMoved) {
  Known known;
  known.station = &station("nairobi");
  const auto series = best(known);
  ASSERT_FALSE(series);
  EXPECT_EQ(series.error()[0].code, "altitude-missing");
}

}  // namespace
}  // namespace wheyfield::weather
