// Daily temperatures that she read herself, from a list of (day, minimum, maximum).
//
// Read a minimum-maximum thermometer in the shade, 1.25 to 2 m up, at 09:00: the maximum it shows
// belongs to the day before.
#pragma once

#include <vector>

#include "weather/daily_series.h"

namespace wheyfield::weather {

struct Reading {
  calendar::Date day;
  double min;  // [C]
  double max;  // [C]
};

// A series without gaps from the first to the last day; the list may be in any order.
// Errors, with field "/readings/<i>/..." by the place in the list as given:
//   readings-missing            the list is empty
//   readings-fahrenheit         most maxima lie above 50: told once, not for every day
//   temperature-out-of-range    outside -10..50 C
//   minimum-above-maximum
//   reading-twice               a day stands twice
//   reading-gap                 value = the first missing day, {count} = how many are missing
outcome::Result<DailySeries> from_readings(const std::vector<Reading>& readings,
                                           const reference_data::ReferenceData& data);

// `own` as far as it reaches, `rest` before its first and after its last day; the days are those of
// `rest`. The spread is the wider of the two and the origin that of `rest`, for the coming days
// rest on it. When `own` covers every day of `rest` the answer is those days of `own`.
DailySeries completed(const DailySeries& own, const DailySeries& rest);

}  // namespace wheyfield::weather
