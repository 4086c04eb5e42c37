// Crops and the rules of the five uses, as sourced tables.
#pragma once

#include <string>
#include <vector>

#include "calendar/date.h"
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

struct Crop {
  std::string id;
  std::string harvested;  // grain, fruit, leaf, root, bulb, head, tuber
  std::string fourth;     // event of the fourth use: flowering, head-swells, ...
  bool has_fifth = false;
  bool eaten_raw = false;
  calendar::DayRange emergence;  // days from sowing to seedlings seen
  reference_data::Origin emergence_origin;
  std::vector<StageRow> stages;
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
  reference_data::Origin origin;
};

class CropTable {
 public:
  // Reads the sections "crops" and "uses". Errors: data-missing.
  static outcome::Result<CropTable> parse(const reference_data::ReferenceData& data);
  const Crop* find(const std::string& id) const;  // nullptr when unknown
  std::vector<std::string> ids() const;
  const std::vector<Crop>& crops() const { return crops_; }
  const std::vector<UseRule>& rules() const { return rules_; }

 private:
  std::vector<Crop> crops_;
  std::vector<UseRule> rules_;
};

}  // namespace wheyfield::crop
