// The best temperatures that what she knows allows, in the order of trust:
//   1 her own daily readings   2 monthly means   3 a listed station moved to her altitude
//   4 her altitude alone
// Readings seldom reach to harvest; their days are kept and the next source gives the others.
#pragma once

#include <optional>
#include <vector>

#include "weather/readings.h"
#include "weather/station.h"

namespace wheyfield::weather {

struct Known {
  std::vector<Reading> readings;
  std::vector<MonthlyMean> months;
  const Station* station = nullptr;
  std::optional<quantity::Length> altitude;
};

// Series over from..to; with readings alone, over the days that were read. Its origin is that of
// the coming days. Errors: temperature-unknown when nothing is given, altitude-missing when a
// station is given without her altitude, and those of the source that is used. Rows used are
// noted in `used`.
outcome::Result<DailySeries> best_series(const Known& known, calendar::Date from, calendar::Date to,
                                         const reference_data::ReferenceData& data,
                                         reference_data::UsedSources& used);

}  // namespace wheyfield::weather
