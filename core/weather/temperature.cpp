#include "weather/temperature.h"

namespace wheyfield::weather {
namespace {

using outcome::failure;
using outcome::Result;

Result<DailySeries> without_readings(const Known& known, calendar::Date from, calendar::Date to,
                                     const reference_data::ReferenceData& data,
                                     reference_data::UsedSources& used) {
  if (!known.months.empty()) {
    auto series = from_monthly_means(known.months, from, to);
    if (series) series->spread = spread_of(Origin::monthly_means, data).value;
    return series;
  }
  if (known.station && !known.altitude)
    return failure({"altitude-missing", "/altitude", known.station->id, {}});
  if (known.station) {
    used.note(known.station->origin, "temperatures");
    used.note(data.constant("altitude-lapse").origin, "temperatures");
    return from_station(*known.station, *known.altitude, from, to, data);
  }
  used.note(data.constant("altitude-intercept").origin, "temperatures");
  return from_altitude(*known.altitude, from, to, data);
}

}  // namespace

Result<DailySeries> best_series(const Known& known, calendar::Date from, calendar::Date to,
                                const reference_data::ReferenceData& data,
                                reference_data::UsedSources& used) {
  const bool more = !known.months.empty() || known.station || known.altitude;
  if (known.readings.empty() && !more) return failure({"temperature-unknown", "", "", {}});
  if (known.readings.empty()) return without_readings(known, from, to, data, used);
  auto own = from_readings(known.readings, data);
  if (!own || !more || (own->covers(from) && own->covers(to))) return own;
  auto rest = without_readings(known, from, to, data, used);
  if (!rest) return rest;
  return completed(*own, *rest);
}

}  // namespace wheyfield::weather
