#include "season/harvest_wait.h"

#include <algorithm>
#include <map>

namespace wheyfield::season {
namespace {

using dosing::GrowthStage;

GrowthStage stage_at(const crop::Use& use, calendar::Date first_picking) {
  if (use.window.early >= first_picking) return GrowthStage::after_first_picking;
  const bool flowers = use.event == "flowering" || use.id == "first-fruit";
  return flowers ? GrowthStage::from_flowering : GrowthStage::before_flowering;
}

calendar::Date first_picking_of(const crop::Planting& planting) {
  return planting.set_out + planting.harvest_after;
}

bool on_raw_ground(const crop::Crop& crop, const FieldUse& use) {
  const bool on_soil = use.use.id == "land-preparation" || use.method == "round-stem";
  return on_soil && crop.eaten_raw && dosing::touches_soil(crop.harvested);
}

}  // namespace

std::optional<HarvestWait> harvest_wait(const Season& season, const FieldUse& use,
                                        const dosing::HarvestRule& rule) {
  const crop::Planting& planting = season.farms[use.farm].fields[use.field].planting;
  if (!planting.crop->eaten_raw || use.use.id == "land-preparation" || use.method == "soak")
    return std::nullopt;
  const calendar::Date first = first_picking_of(planting);
  const auto places = dosing::placements(stage_at(use.use, first), true, use.method);
  if (!places || !places->leaves) return std::nullopt;
  const calendar::Date last = use.use.window.late;
  const auto from = dosing::earliest_harvest(last, dosing::Placement::leaves, true,
                                             dosing::touches_soil(planting.crop->harvested), rule);
  if (!from) return std::nullopt;
  return HarvestWait{*from, first, first - (*from - last)};
}

std::vector<RawGround> raw_grounds(const Season& season, const std::vector<PlannedUse>& uses,
                                   int manure_days) {
  std::map<std::pair<std::size_t, std::size_t>, RawGround> found;
  for (const PlannedUse& use : uses) {
    const FieldUse& due = use.due;
    const crop::Planting& planting = season.farms[due.farm].fields[due.field].planting;
    const calendar::Date last = due.use.window.late, first = first_picking_of(planting);
    if (!on_raw_ground(*planting.crop, due) || last + manure_days <= first) continue;
    RawGround& ground =
        found.try_emplace({due.farm, due.field}, RawGround{due.farm, due.field, last, first})
            .first->second;
    ground.until = std::max(ground.until, last);
  }
  std::vector<RawGround> grounds;
  for (const auto& [field, ground] : found) grounds.push_back(ground);
  return grounds;
}

}  // namespace wheyfield::season
