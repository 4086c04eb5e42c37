#include "dosing/harvest.h"

#include "dosing/measured.h"

namespace wheyfield::dosing {

outcome::Result<Placements> placements(GrowthStage stage, bool eaten_raw, std::string_view method) {
  Placements placed;
  if (method == "knapsack" || method == "can")
    placed.leaves = placed.soil_at_stem = true;
  else if (method == "leafy-branch")
    placed.leaves = true;
  else if (method == "round-stem")
    placed.soil_at_stem = true;
  else
    return outcome::failure({"method-unknown",
                             "/method",
                             std::string(method),
                             {{"known", "knapsack, leafy-branch, can, round-stem"}}});
  if (!placed.leaves || !eaten_raw || stage == GrowthStage::before_flowering) return placed;
  placed.leaves = false;
  placed.judgement = true;
  placed.closed = stage == GrowthStage::from_flowering ? "raw-flowering" : "raw-picked";
  return placed;
}

outcome::Result<double> leaf_strength(double parts, Placement placement, double strongest) {
  if (placement == Placement::leaves && !(parts >= strongest))
    return outcome::failure({"too-strong-for-leaves",
                             "/strength",
                             "1:" + shown(parts),
                             {{"strongest", "1:" + shown(strongest)}}});
  return parts;
}

HarvestRule harvest_rule(const reference_data::ReferenceData& data) {
  return {static_cast<int>(data.constant("raw-eaten-gap-days").value),
          static_cast<int>(data.constant("cooked-gap-days").value),
          static_cast<int>(data.constant("soil-gap-days").value)};
}

bool touches_soil(std::string_view harvested) {
  for (const char* one : {"leaf", "head", "bulb", "root", "tuber"})
    if (harvested == one) return true;
  return false;
}

std::optional<calendar::Date> earliest_harvest(calendar::Date last_use, Placement placement,
                                               bool eaten_raw, bool on_the_ground,
                                               HarvestRule rule) {
  if (placement == Placement::leaves)
    return last_use + (eaten_raw ? rule.raw_days : rule.cooked_days);
  if (eaten_raw && on_the_ground) return std::nullopt;
  return last_use + rule.soil_days;
}

}  // namespace wheyfield::dosing
