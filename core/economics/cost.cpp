#include "economics/cost.h"

#include <algorithm>

#include "dosing/dilution.h"

namespace wheyfield::economics {

Money SeasonCost::per_litre_handed_out() const {
  if (litres_handed_out <= 0.0) return {};
  return (bought + milk + labour).times(1.0 / litres_handed_out);
}

Money SeasonCost::per_litre_made() const {
  if (litres_made <= 0.0) return {};
  return (bought + milk + labour).times(1.0 / litres_made);
}

Money SeasonCost::per_acre(quantity::Area area) const {
  const double acres = quantity::in_acres(area);
  return acres > 0.0 ? total().times(1.0 / acres) : Money();
}

MakingCost making_cost(const season::Season& season, const std::vector<season::Making>& made) {
  MakingCost cost;
  for (const season::Making& making : made) {
    const double milk_share = season::milk_per_product(*making.recipe);
    const auto stands = static_cast<std::size_t>(std::max(0, making.recipe->vessel_step()));
    for (const season::Batch& batch : making.batches->batches) {
      cost.labour_hours += recipe::labour_hours(*making.recipe);
      if (const season::MilkRule* rule = season.milk_on(batch.steps[stands].from))
        cost.milk += rule->price.times(static_cast<double>(batch.stored_ml) / 1000.0 * milk_share);
    }
  }
  cost.labour = season.labour_day.times(cost.labour_hours / season.labour_hours);
  return cost;
}

SeasonCost season_cost(const season::Season& season, const recipe::Recipe& recipe,
                       const season::SeasonPlan& plan, const season::Shopping& shopping,
                       double negligible) {
  SeasonCost cost;
  cost.bought = shopping.total;
  const MakingCost making = making_cost(season, {{&recipe, &plan.batches, {}}});
  cost.milk = making.milk;
  cost.labour = making.labour;
  cost.labour_hours = making.labour_hours;
  for (const season::Batch& batch : plan.batches.batches)
    cost.litres_made += static_cast<double>(batch.stored_ml) / 1000.0;
  for (const season::PlannedUse& use : plan.uses) {
    if (!use.planned) continue;
    const bool kept = use.due.hand_out == season::HandOut::by_seed;
    for (const season::Draw& draw : use.draws)
      if (draw.lot >= plan.opening.size())
        (kept ? cost.litres_kept : cost.litres_handed_out) += static_cast<double>(draw.ml) / 1000.0;
    if (kept) continue;
    const season::Farm& farm = season.farms[use.due.farm];
    const auto due = static_cast<double>(use.due.serum_ml);
    const double served = due > 0.0 ? 1.0 - static_cast<double>(use.short_ml) / due : 0.0;
    const int cans = dosing::trips(use.due.mix * served, farm.can, negligible);
    cost.cans += cans;
    cost.water += season.places[farm.place].can_carried * cans;
  }
  return cost;
}

}  // namespace wheyfield::economics
