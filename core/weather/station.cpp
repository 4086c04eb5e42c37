#include "weather/station.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace wheyfield::weather {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;

std::vector<double> twelve(const json& row, const char* member, const std::string& field,
                           Problems& problems) {
  std::vector<double> values;
  for (const json& value : row.value(member, json::array()))
    if (value.is_number()) values.push_back(value.get<double>());
  if (values.size() != 12)
    problems.push_back({"data-missing", field + "/" + member, "", {{"member", member}}});
  return values;
}

Station read_station(const json& row, const std::string& field, Problems& problems) {
  Station station;
  station.id = take_or<std::string>(reference_data::read_string(row, "id", field), "", problems);
  station.altitude = quantity::metres(
      take_or(reference_data::read_number(row, "altitude_m", field), 0.0, problems));
  station.origin =
      take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
  station.min = twelve(row, "min", field, problems);
  station.max = twelve(row, "max", field, problems);
  if (row.contains("rain")) station.rain = twelve(row, "rain", field, problems);
  for (std::size_t i = 0; i < station.min.size() && i < station.max.size(); ++i)
    if (station.min[i] > station.max[i])
      problems.push_back({"data-range", field + "/min/" + std::to_string(i), station.id, {}});
  return station;
}

// Both below the line or both above it: only then is the lapse rate known.
Problems moving_problems(const Station& station, quantity::Length altitude,
                         const reference_data::ReferenceData& data) {
  const quantity::Length line = quantity::metres(data.constant("altitude-least").value);
  if ((station.altitude < line) == (altitude < line)) return {};
  const std::string limit = std::to_string(static_cast<int>(quantity::in_metres(line)));
  if (altitude < line)
    return {{"altitude-too-low",
             "/altitude",
             one_decimal(quantity::in_metres(altitude)) + " m",
             {{"limit", limit}}}};
  return {{"station-on-the-coast", "/station", station.id, {{"limit", limit}}}};
}

}  // namespace

Result<std::vector<Station>> read_stations(const reference_data::ReferenceData& data) {
  std::vector<Station> stations;
  Problems problems;
  for (const json& row : data.section("stations"))
    stations.push_back(
        read_station(row, "/data/stations/" + std::to_string(stations.size()), problems));
  if (!problems.empty()) return failure(problems);
  return stations;
}

const Station* find_station(const std::vector<Station>& stations, const std::string& id) {
  for (const Station& station : stations)
    if (station.id == id) return &station;
  return nullptr;
}

Result<DailySeries> from_station(const Station& station, quantity::Length altitude,
                                 calendar::Date from, calendar::Date to,
                                 const reference_data::ReferenceData& data) {
  if (!(quantity::in_metres(altitude) <= highest_metres))
    return failure({"altitude-too-high",
                    "/altitude",
                    one_decimal(quantity::in_metres(altitude)) + " m",
                    {{"limit", std::to_string(static_cast<int>(highest_metres))}}});
  if (auto problems = moving_problems(station, altitude, data); !problems.empty())
    return failure(problems);
  const double warmer = -data.constant("altitude-lapse").value *
                        quantity::in_metres(altitude - station.altitude) / 1000.0;
  const double coldest = *std::min_element(station.min.begin(), station.min.end()) + warmer;
  const double warmest = *std::max_element(station.max.begin(), station.max.end()) + warmer;
  if (coldest < lowest_celsius || warmest > highest_celsius)
    return failure({"station-moved-too-far",
                    "/altitude",
                    one_decimal(quantity::in_metres(altitude)) + " m",
                    {{"station", station.id}}});
  std::vector<MonthlyMean> months;
  for (int year = from.year() - 1; year <= to.year() + 1; ++year)
    for (int month = 1; month <= 12; ++month) {
      const auto m = static_cast<std::size_t>(month - 1);
      months.push_back({year, month, station.min[m] + warmer, station.max[m] + warmer});
    }
  auto series = from_monthly_means(months, from, to);
  if (!series) return series;
  series->origin = Origin::station;
  series->spread = spread_of(Origin::station, data).value;
  series->entered_from.reset();
  series->entered_to.reset();
  return series;
}

}  // namespace wheyfield::weather
