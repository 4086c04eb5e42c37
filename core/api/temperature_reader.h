// Reads how warm a place is from the members readings, months, station and altitude of a body.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "calendar/date.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"
#include "weather/daily_series.h"

namespace wheyfield::api {

struct PlaceTemperatures {
  weather::DailySeries series;
  std::optional<calendar::Date> read_to;  // last day of her own readings, when there are any
};

// The best series that is given (weather/temperature.h) over `days`; none when nothing is given or
// something is wrong. The shape was checked before into `problems`; `pointer` is that of `body`.
// Errors: those of weather::best_series with fields "/readings/<i>/date", "/months/<i>/min" ...;
// readings-missing and months-missing for a list without rows; station-unknown ({known}).
struct DaySpan {
  calendar::Date from;
  calendar::Date to;
};
std::optional<PlaceTemperatures> read_temperatures(const nlohmann::json& body,
                                                   const std::string& pointer, DaySpan days,
                                                   const reference_data::ReferenceData& data,
                                                   outcome::Problems& problems,
                                                   reference_data::UsedSources& used);

}  // namespace wheyfield::api
