#include "programme/group_plan.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "recipe/scale.h"
#include "season/lot_planner.h"
#include "season/shopping.h"

namespace wheyfield::programme {
namespace {

using calendar::Date;

// For what is asked of a screen (what binds, which start cures it) when nobody wants to know.
class NoScreen : public season::BatchPlanner {
 public:
  season::BatchPlan plan(const season::BatchProblem& problem) const override {
    season::BatchPlan none;
    none.draws.resize(problem.demand.size());
    for (const season::Demand& demand : problem.demand) none.short_ml.push_back(demand.ml);
    return none;
  }
};

Worth worth_of(const season::SeasonPlan& plan) {
  Worth worth;
  for (const season::PlannedUse& use : plan.uses)
    (use.due.hand_out == season::HandOut::by_seed ? worth.guess_ml : worth.short_ml) +=
        use.short_ml;
  if (plan.batches.certificate) worth.thousandths = plan.batches.certificate->cost.thousandths();
  return worth;
}

double in_hand(const season::Season& season, const std::string& item) {
  double sum = 0.0;
  for (const season::StockItem& stock : season.stock)
    if (stock.item == item) sum += stock.amount;
  return sum;
}

std::vector<GroupNeed> needs_of(const season::Season& season, const recipe::Recipe& recipe,
                                std::int64_t made_ml) {
  const recipe::Scaled scaled = recipe::scale(recipe, static_cast<double>(made_ml) / 1000.0);
  std::vector<GroupNeed> needs;
  for (const recipe::Material& m : recipe.materials)
    if (m.bought) needs.push_back({m.id, m.unit, scaled.taken(m.id), in_hand(season, m.id)});
  return needs;
}

// What each step of a batch takes of the item, on the day it begins; what is in hand goes first.
std::vector<DatedNeed> dated_needs(const season::Season& season, const recipe::Recipe& recipe,
                                   const season::SeasonPlan& plan, const std::string& item) {
  std::map<int, std::int64_t> by_day;
  for (const season::Batch& batch : plan.batches.batches) {
    const recipe::Scaled scaled =
        recipe::scale(recipe, static_cast<double>(batch.stored_ml) / 1000.0);
    for (const season::BatchStep& step : batch.steps)
      for (const recipe::ScaledFlow& flow : scaled.steps[step.step].takes)
        if (flow.material == item) by_day[step.from.days()] += std::llround(flow.amount * 1000.0);
  }
  std::int64_t left = std::llround(in_hand(season, item) * 1000.0);
  std::vector<DatedNeed> needs;
  for (const auto& [day, ml] : by_day) {
    const std::int64_t held = std::min(left, ml);
    left -= held;
    if (ml > held) needs.push_back({Date::from_days(day), ml - held});
  }
  return needs;
}

}  // namespace

outcome::Result<DayPlan> plan_meeting_on(calendar::Weekday weekday, season::Season season,
                                         const recipe::Recipe& recipe, const crop::CropTable& crops,
                                         const reference_data::ReferenceData& data,
                                         reference_data::UsedSources& used) {
  season.meetings.weekday = weekday;
  const auto made =
      season::make_plan(season, recipe, crops, data, season::LotPlanner(), NoScreen(), {}, used);
  if (!made) return outcome::failure(made.error());
  if (!made->broken.empty()) return outcome::failure(made->broken);
  if (const auto priced = season::shopping(season, recipe, data, *made); !priced)
    return outcome::failure(priced.error());
  DayPlan day;
  day.weekday = weekday;
  day.worth = worth_of(*made);
  if (made->batches.certificate) day.proven = *made->batches.certificate;
  day.batches = static_cast<int>(made->batches.batches.size());
  if (day.batches > 0) day.first_start = made->batches.batches.front().start();
  for (const season::Batch& batch : made->batches.batches) day.made_ml += batch.stored_ml;
  day.needs = needs_of(season, recipe, day.made_ml);
  day.molasses = dated_needs(season, recipe, *made, lorry_item);
  return day;
}

std::vector<Date> full_cans(const std::vector<DatedNeed>& needs, std::int64_t size_ml) {
  std::vector<Date> cans;
  std::int64_t needed = 0, brought = 0;
  for (const DatedNeed& need : needs)
    for (needed += need.ml; brought < needed; brought += size_ml) cans.push_back(need.on);
  return cans;
}

}  // namespace wheyfield::programme
