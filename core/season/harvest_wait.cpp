#include "season/harvest_wait.h"

namespace wheyfield::season {
namespace {

using dosing::GrowthStage;

GrowthStage stage_at(const crop::Use& use, calendar::Date first_picking) {
  if (use.window.early >= first_picking) return GrowthStage::after_first_picking;
  const bool flowers = use.event == "flowering" || use.id == "first-fruit";
  return flowers ? GrowthStage::from_flowering : GrowthStage::before_flowering;
}

}  // namespace

std::optional<HarvestWait> harvest_wait(const Season& season, const FieldUse& use,
                                        const dosing::HarvestRule& rule) {
  const crop::Planting& planting = season.farms[use.farm].fields[use.field].planting;
  if (!planting.crop->eaten_raw || use.use.id == "land-preparation" || use.method == "soak")
    return std::nullopt;
  const calendar::Date first = planting.set_out + planting.harvest_after;
  const auto places = dosing::placements(stage_at(use.use, first), true, use.method);
  if (!places || !places->leaves) return std::nullopt;
  const calendar::Date last = use.use.window.late;
  const auto from = dosing::earliest_harvest(last, dosing::Placement::leaves, true,
                                             dosing::touches_soil(planting.crop->harvested), rule);
  if (!from) return std::nullopt;
  return HarvestWait{*from, first, first - (*from - last)};
}

}  // namespace wheyfield::season
