#include "programme/group_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "recipe/scale.h"
#include "season/gather.h"
#include "season/lot_planner.h"
#include "season/plan_check.h"
#include "season/shopping.h"

namespace wheyfield::programme {
namespace {

using calendar::Date;

// Of a plan with its certificate.
Worth worth_of(const season::GatheredDemand& gathered, const season::BatchPlan& plan) {
  Worth worth;
  for (std::size_t g = 0; g < plan.short_ml.size(); ++g)
    (gathered.by_seed[g] ? worth.guess_ml : worth.short_ml) += plan.short_ml[g];
  worth.thousandths = plan.certificate->cost.thousandths();
  return worth;
}

// Nodes of the solver for one plan: the hardest of a thousand groups are near their end then.
constexpr int most_nodes = 2000;

bool open(const season::Turn& turn) {
  const season::Certificate& proven = *turn.plan.certificate;
  return !proven.least_short || proven.gap > near_best;
}

// The smaller the better: what is short of the serum, then of each preparation, then money.
std::vector<std::int64_t> rank(const season::Turn& turn) {
  const Worth worth = worth_of(*turn.gathered, turn.plan);
  std::vector<std::int64_t> parts{worth.short_ml, worth.guess_ml};
  for (const season::BatchPlan& other : turn.others) parts.push_back(other.total_short());
  parts.push_back(worth.thousandths);
  return parts;
}

// The same season with what is left open handed to the solver; `turn` becomes the better of both.
HandedOver hand_over(const season::DueSeason& due, const lot_sizing::MipSolver& solver,
                     season::Turn& turn) {
  const season::Certificate before = *turn.plan.certificate;
  season::Turn solved = season::better_turn(
      due, season::LotPlanner({}, &solver, {near_best, near_best / 10, most_nodes}), 0);
  const season::Certificate& after = *solved.plan.certificate;
  const HandedOver handed_over{before.gap, before.least_short, rank(solved) < rank(turn)};
  const bool as_good = rank(solved) == rank(turn);
  const bool closer = std::make_pair(!after.least_short, after.gap) <
                      std::make_pair(!before.least_short, before.gap);
  if (handed_over.better || (as_good && closer)) turn = std::move(solved);
  return handed_over;
}

double in_hand(const season::Season& season, const std::string& item) {
  double sum = 0.0;
  for (const season::StockItem& stock : season.stock)
    if (stock.item == item) sum += stock.amount;
  return sum;
}

std::int64_t made_ml(const season::BatchPlan& plan) {
  std::int64_t sum = 0;
  for (const season::Batch& batch : plan.batches) sum += batch.stored_ml;
  return sum;
}

std::vector<GroupNeed> needs_of(const season::Season& season,
                                const std::vector<season::Making>& all) {
  std::vector<GroupNeed> needs;
  for (const season::Making& making : all) {
    const double litres = static_cast<double>(made_ml(*making.batches)) / 1000.0;
    const recipe::Scaled scaled = recipe::scale(*making.recipe, litres);
    for (const recipe::Material& m : making.recipe->materials) {
      if (!m.bought) continue;
      const auto known = std::find_if(needs.begin(), needs.end(),
                                      [&](const GroupNeed& need) { return need.item == m.id; });
      if (known == needs.end())
        needs.push_back({m.id, m.unit, scaled.taken(m.id), in_hand(season, m.id)});
      else
        known->amount += scaled.taken(m.id);
    }
  }
  return needs;
}

// What each step of a batch takes of the item, on the day it begins; what is in hand goes first.
std::vector<DatedNeed> dated_needs(const season::Season& season,
                                   const std::vector<season::Making>& all,
                                   const std::string& item) {
  std::map<int, std::int64_t> by_day;
  for (const season::Making& making : all)
    for (const season::Batch& batch : making.batches->batches) {
      const recipe::Scaled scaled =
          recipe::scale(*making.recipe, static_cast<double>(batch.stored_ml) / 1000.0);
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
                                         const season::PlanRules& rules,
                                         reference_data::UsedSources& used,
                                         const lot_sizing::MipSolver* solver) {
  season.meetings.weekday = weekday;
  const auto due = season::due_season(season, recipe, crops, data, rules, used);
  if (!due) return outcome::failure(due.error());
  season::Turn turn = season::better_turn(*due, season::LotPlanner(), 0);
  std::optional<HandedOver> handed_over;
  if (solver != nullptr && open(turn)) handed_over = hand_over(*due, *solver, turn);
  std::vector<season::BatchPlan> plans{turn.plan};
  plans.insert(plans.end(), turn.others.begin(), turn.others.end());
  if (const auto broken = season::check_plans(season::together(*due, *turn.gathered), plans);
      !broken.empty())
    return outcome::failure(broken);
  DayPlan day;
  day.weekday = weekday;
  day.worth = worth_of(*turn.gathered, turn.plan);
  day.proven = *turn.plan.certificate;
  day.handed_over = handed_over;
  season::SeasonPlan plan;
  plan.batches = std::move(turn.plan);
  for (season::BatchPlan& other : turn.others)
    plan.others.push_back({{}, {}, std::move(other), 0.0, {}});
  const std::vector<season::Making> all = season::makings(season, recipe, plan);
  for (const season::Making& making : all) {
    recipe::note_sources(*making.recipe, used);
    season::note_forecasts(*making.recipe, rules.readiness, used);
  }
  if (const auto priced = season::shopping(season, all, data); !priced)
    return outcome::failure(priced.error());
  const std::vector<season::Batch>& batches = plan.batches.batches;
  day.batches = static_cast<int>(batches.size());
  if (!batches.empty()) day.first_start = batches.front().start();
  day.made_ml = made_ml(plan.batches);
  day.needs = needs_of(season, all);
  day.molasses = dated_needs(season, all, lorry_item);
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
