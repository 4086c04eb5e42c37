// Rain of consecutive days [mm], from a list in which every day must stand: a day left out could be
// dry or not read, and the two make different onsets.
#pragma once

#include <vector>

#include "calendar/date.h"
#include "outcome/result.h"

namespace wheyfield::weather {

struct RainDay {
  calendar::Date day;
  double mm;
};

struct RainSeries {
  calendar::Date first_day;
  std::vector<double> mm;  // one a day

  calendar::Date last_day() const { return first_day + static_cast<int>(mm.size()) - 1; }
};

// The list may be in any order. Errors, with field "/rain/<i>/..." by the place as given:
//   rain-missing        the list is empty
//   rain-out-of-range   below 0 or above 500 mm a day
//   rain-day-twice
//   rain-month-missing  a whole month is left out; value = the month, "2027-03"
//   rain-gap            value = the first missing day, {count} = how many are missing
outcome::Result<RainSeries> rain_from_days(const std::vector<RainDay>& days);

}  // namespace wheyfield::weather
