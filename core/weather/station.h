// Temperatures of a place from a listed station with thirty-year means, moved by altitude:
//   T2 = T1 - lapse x (A2 - A1) / 1000        lapse 6.496 C/km, FAO Kenya agro-ecological zones
//   study ch. 6; minimum and maximum are moved alike.
#pragma once

#include <string>
#include <vector>

#include "weather/daily_series.h"

namespace wheyfield::weather {

struct Station {
  std::string id;
  quantity::Length altitude;
  std::vector<double> min;   // [C], twelve, January first
  std::vector<double> max;   // [C], twelve
  std::vector<double> rain;  // [mm a month], twelve or none
  reference_data::Origin origin;
};

// The section "stations". Errors: data-missing, data-range (not twelve, or a minimum above its
// maximum).
outcome::Result<std::vector<Station>> read_stations(const reference_data::ReferenceData& data);

// nullptr when unknown.
const Station* find_station(const std::vector<Station>& stations, const std::string& id);

// The twelve means year after year, straight lines between mid-months. Errors: altitude-too-high;
// station-moved-too-far ({station}) when its coldest or warmest month leaves -10..50 C there;
// altitude-too-low and station-on-the-coast when one of the two stands below 150 m and the other
// does not, for the lapse does not hold across that line.
outcome::Result<DailySeries> from_station(const Station& station, quantity::Length altitude,
                                          calendar::Date from, calendar::Date to,
                                          const reference_data::ReferenceData& data);

}  // namespace wheyfield::weather
