// What the land and crops need: each field's uses with mix, serum and the meeting that hands it
// out.
//
//   mix   = area x measured mix per area, or plants x measured mix per plant (round the stem)
//   serum = mix / parts        (stored serum, whole mL, half away from zero)
// Windows come by the calendar scaled to the variety's own length, or, when the season asks for it,
// by degree-days where the crop has a row (crop/forecast.h); what was seen puts them right. Seeds
// are soaked, not sprayed, whatever the farm's method: the soak of weighed seed counts the water of
// the crop's soak row. Of seed that nobody weighed the usual mix per area is kept ready, an
// assumption, and handed out by the kilogram. A crop without a soak row gets no serum for a soak.
// Serum is handed out at the last meeting on or before the likely day.
#pragma once

#include <cstdint>
#include <vector>

#include "crop/crop_table.h"
#include "crop/forecast.h"
#include "dosing/soak.h"
#include "outcome/result.h"
#include "season/season.h"

namespace wheyfield::season {

enum class HandOut {
  volume,   // serum_ml, at the meeting
  by_seed,  // soak of seed that nobody weighed: `per_kg` at the meeting; serum_ml is kept for it
  none      // soak of a crop whose soaking time is not known: sown without
};

struct FieldUse {
  std::size_t farm = 0;   // index into Season::farms
  std::size_t field = 0;  // index into Farm::fields
  crop::Use use;
  std::string method;  // knapsack, leafy-branch, can, round-stem, soak
  bool measured = false;
  Volume mix;
  long long plants = 0;  // round the stem only
  std::int64_t serum_ml = 0;
  std::int64_t usual_ml = 0;                 // the same field at the usual mix per area
  std::optional<calendar::Date> collect_on;  // none: no meeting comes before it in the season
  crop::Road road = crop::Road::calendar;    // how its window was found
  HandOut hand_out = HandOut::volume;
  Volume per_kg;  // by_seed only: serum for 1 kg of seed
};

struct DueUses {
  std::vector<FieldUse> uses;
  // Questions and notices of the forecasts, and the notices seed-unweighed (/seed_mass) and
  // soak-time-unknown (/crop, both with the crop as value); each notice once a crop.
  outcome::Problems notes;
};

// Every use of every field, by collecting day, then farm, field and use. Uses whose likely day lies
// after the season's end are left out. Errors: those of the forecast, at the fields of the season
// file.
outcome::Result<DueUses> field_uses(const Season& season, const crop::CropTable& crops,
                                    const reference_data::ReferenceData& data,
                                    reference_data::UsedSources& used);

}  // namespace wheyfield::season
