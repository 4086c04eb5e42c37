// Reads the body of crop.windows: a planting, what was seen of it, and how warm its place is.
#pragma once

#include <map>
#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "api/session.h"
#include "api/temperature_reader.h"
#include "crop/forecast.h"

namespace wheyfield::api {

struct CropQuestion {
  crop::FieldAsk ask;
  std::optional<PlaceTemperatures> temperatures;  // none when nothing is said of them
  outcome::Problems remarks;                      // questions and notices
  std::map<std::string, std::string> seen_at;     // "/seen/fourth" -> "/seen/0/on"

  const weather::DailySeries* series() const {
    return temperatures ? &temperatures->series : nullptr;
  }
  calendar::Date started() const { return ask.seen.planted.value_or(ask.planting.set_out); }
  // Problems of crop::Forecaster with their fields as the body names them.
  outcome::Problems as_asked(outcome::Problems problems) const;
};

// Errors: those of `check_shape`, of every reader, of weather::best_series, and
//   crop-unknown, crop-not-listed (no name is near: how to scale by hand), missing-sowing and
//   missing-sown_on (not asked of a plant that stands and is dated by its blossom),
//   nursery-date-late, seen-unknown ({known}), seen-twice, station-unknown
//   ({known}), readings-missing and months-missing (a list without rows).
// Remarks: seed-not-said (no soak is shown), harvest-far-from-table, sowing-unusual,
// seen-after-today.
// What can be seen: planted, emerged, the crop's own event (flowering is also first-flower, of a
// crop dated by its blossom also blossom) and
// first-fruit; fourth and fifth name the last two for any crop.
outcome::Result<CropQuestion> read_crop_question(const Session& session, const nlohmann::json& body,
                                                 reference_data::UsedSources& used);

}  // namespace wheyfield::api
