// How warm is it here? The only temperature input of any room.
//
// A series of daily minimum and maximum air temperatures [degrees C] from `first_day` on, with how
// it was come by and how far it may be off.
//   readings: her own days, see weather/readings.h.
//   monthly means: straight line between mid-months, held flat beyond the first and last month.
//   station: a listed station moved by altitude, see weather/station.h.
//   altitude alone: T = 30.2 - 6.496 A/1000 (A in m), FAO Kenya agro-ecological zones study ch. 6,
//     for stations above 150 m; min and max are both set to the mean (no daily swing is known).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/date.h"
#include "outcome/result.h"
#include "quantity/quantity.h"
#include "reference_data/reference_data.h"

namespace wheyfield::weather {

// In the order of trust, best first.
enum class Origin { readings, monthly_means, station, altitude };

// "readings", "monthly-means", "station", "altitude".
std::string_view origin_word(Origin origin);

// Air over fields keeps between these [C]; what lies outside is a slip or Fahrenheit.
inline constexpr double lowest_celsius = -10.0;
inline constexpr double highest_celsius = 50.0;
// No field lies higher [m]; what does is a slip or feet.
inline constexpr double highest_metres = 6000.0;

struct DailySeries {
  calendar::Date first_day;
  std::vector<double> min;  // [C], one a day
  std::vector<double> max;  // [C], same length
  Origin origin = Origin::monthly_means;
  double spread = 0.0;  // +/- [C]; 0 = not stated
  // What was entered begins and ends here; days outside are guessed from the nearest. None: the
  // series holds for every year.
  std::optional<calendar::Date> entered_from = std::nullopt;
  std::optional<calendar::Date> entered_to = std::nullopt;

  bool covers(calendar::Date day) const;
  // (min + max) / 2 of the day, FAO-56 eq. 9; days outside the series count as its nearest day.
  double mean(calendar::Date day) const;
  // Mean of `mean` over `days` >= 1 days from `first`.
  double mean_over(calendar::Date first, int days) const;
};

// +/- [C], an assumption for each origin: the constants readings-spread, months-spread,
// station-spread, altitude-spread.
const reference_data::Sourced& spread_of(Origin origin, const reference_data::ReferenceData& data);

// What is wrong with one day's or month's pair, with field + "/min" or "/max":
// temperature-out-of-range, minimum-above-maximum.
outcome::Problems temperature_problems(double min, double max, const std::string& field);

// "17.4", cut off, not rounded: how a measured number stands in a problem.
std::string one_decimal(double value);

struct MonthlyMean {
  int year;
  int month;   // 1..12
  double min;  // mean daily minimum [C]
  double max;  // mean daily maximum [C]
};

// Series over from..to (inclusive, from <= to). `months` in any order, at least one.
// Errors: months-missing (field "/months"), month-twice, month-gap (at the month after it; the
// value is the first one left out), minimum-above-maximum and temperature-out-of-range (-10..50 C;
// Fahrenheit shows here) with field "/months/<i>/month", "/min" or "/max".
outcome::Result<DailySeries> from_monthly_means(const std::vector<MonthlyMean>& months,
                                                calendar::Date from, calendar::Date to);

// Yearly mean by altitude [C]. Error: altitude-too-low below the published limit (the coast is up
// to 4 C off), altitude-too-high above 6000 m.
outcome::Result<double> mean_at_altitude(quantity::Length altitude,
                                         const reference_data::ReferenceData& data);

outcome::Result<DailySeries> from_altitude(quantity::Length altitude, calendar::Date from,
                                           calendar::Date to,
                                           const reference_data::ReferenceData& data);

}  // namespace wheyfield::weather
