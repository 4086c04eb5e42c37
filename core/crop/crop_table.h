// Crops and the rules of the five uses, as sourced tables.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "crop/thermal_time.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::crop {

// One row of FAO-56 Table 11: lengths of the four growth stages [days]. The length of the whole is
// their sum (four printed totals of the paper are wrong).
struct StageRow {
  std::string region;
  int initial = 0;
  int development = 0;
  int mid = 0;
  int late = 0;
  reference_data::Origin origin;
  int sum() const { return initial + development + mid + late; }
};

// Days from the fourth event to first fruit and to harvest, for a crop that has no row and is dated
// by the event itself (coffee: the blossom).
struct AfterFourth {
  calendar::DayRange fifth;
  calendar::DayRange harvest;
  reference_data::Origin fifth_origin;
  reference_data::Origin harvest_origin;
};

struct Crop {
  std::string id;
  std::string harvested;  // grain, fruit, leaf, root, bulb, head, tuber, stem
  std::string fourth;     // event of the fourth use: flowering, head-swells, ...
  bool has_fifth = false;
  bool eaten_raw = false;
  calendar::DayRange emergence;  // days from sowing to seedlings seen
  reference_data::Origin emergence_origin;
  std::vector<StageRow> stages;
  bool established = false;  // stands already: nothing is prepared, sown or soaked
  // How it is usually started (words of crop::Start), a standing plant in no way.
  std::vector<std::string> starts;
  reference_data::Origin starts_origin;
  std::vector<std::string> notes;               // codes of what must be said of a forecast
  std::optional<reference_data::Sourced> base;  // base temperature [C], for counting by hand
  std::optional<AfterFourth> after_fourth;
  // What is seen of it tells nothing of its pace: it moves what follows by days, and days to
  // harvest that are given stand. A judgement of this origin.
  std::optional<reference_data::Origin> shifts_only;
  std::string stand_in;  // the crop whose row is scaled by hand for want of an own one, or ""
};

// When one use falls, counted from an anchor; several rules may share an id.
struct UseRule {
  std::string id;      // land-preparation, seed-soak, seedling, flowering, first-fruit
  std::string when;    // "any", or the ways of starting it holds for, joined by "|"
  std::string anchor;  // sowing, seed-sown, emerged, planted-out, stage, use:flowering
  double early = 0;
  double likely = 0;
  double late = 0;
  bool factor = false;  // offsets multiply the length of the anchor stage instead of adding days
  // The same offsets in degree-days [C d], for a crop dated by warmth.
  struct DegreeDays {
    double early;
    double likely;
    double late;
    reference_data::Origin origin;
  };
  std::optional<DegreeDays> degree_days;
  reference_data::Origin origin;
};

class CropTable {
 public:
  // Reads the sections "crops", "uses" and "thermal". Errors: data-missing, data-range.
  static outcome::Result<CropTable> parse(const reference_data::ReferenceData& data);
  // Crops with at least one stage row.
  const Crop* find(const std::string& id) const;  // nullptr when unknown
  std::vector<std::string> ids() const;
  const std::vector<Crop>& crops() const { return crops_; }
  // Crops without one (coffee, pigeon pea, amaranth, okra): only a forecast can date them.
  const std::vector<Crop>& rowless() const { return rowless_; }
  const Crop* find_any(const std::string& id) const;
  const std::vector<ThermalRow>& thermal() const { return thermal_; }
  const std::vector<UseRule>& rules() const { return rules_; }

 private:
  std::vector<Crop> crops_;
  std::vector<Crop> rowless_;
  std::vector<ThermalRow> thermal_;
  std::vector<UseRule> rules_;
};

}  // namespace wheyfield::crop
