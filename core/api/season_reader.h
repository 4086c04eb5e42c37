// Reads the season body into season::Season: every problem of the file in one pass.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "crop/crop_table.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"
#include "season/season.h"

namespace wheyfield::api {

// What the season makes beside, as it was entered; its recipe is not looked up yet.
struct EnteredPreparation {
  std::string recipe;
  int keeps_days = 0;
  season::Wanted wanted;
};

struct ReadSeason {
  season::Season season;                         // without preparations
  std::vector<EnteredPreparation> preparations;  // in the order of the file
  outcome::Problems remarks;                     // questions and notices that do not stop the plan
  reference_data::UsedSources used;              // of the temperatures
};

// `today` judges only what was seen. `body` is the season object itself ({"season": {...}, "farms":
// [...], ...}). Errors: those of `check_shape`, of every reader, and
//   from-after-to, first-start-outside, farm-code-twice, place-unknown, crop-unknown,
//   recipe-unknown is left to the caller, farm-unknown, fill-line-above-size, nursery-date-missing,
//   seed-missing, round-stem-incomplete, stock-date-missing, milk-rule-order, vessel-name-twice,
//   sown-outside (after the season or more than a year before it),
//   cap-out-of-range (1..100 mL), can-, sprayer-, plant-mix-, spacing- and mix-rate-out-of-range.
// Questions: area-large (above the set size), area-other-unit (hectares among acres),
//   harvest-far-from-table (a length far from every published row of the crop), sowing-unusual,
//   seen-after-today.
outcome::Result<ReadSeason> read_season(const nlohmann::json& body, const crop::CropTable& crops,
                                        const reference_data::ReferenceData& data,
                                        calendar::Date today);

}  // namespace wheyfield::api
