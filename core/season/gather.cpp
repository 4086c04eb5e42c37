#include "season/gather.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

#include "season/batch_chances.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

std::vector<Lot> opening_lots(const Season& season, const std::string& product, int keeps_days) {
  std::vector<Lot> lots;
  for (const StockItem& item : season.stock)
    if (item.item == product && item.amount > 0.0 && item.made_on)
      lots.push_back({*item.made_on, *item.made_on + keeps_days,
                      quantity::whole_millilitres(quantity::litres(item.amount))});
  std::stable_sort(lots.begin(), lots.end(),
                   [](const Lot& a, const Lot& b) { return a.use_by < b.use_by; });
  return lots;
}

// Optional uses are planned while stock in hand covers them, in order of time.
bool covered_by_opening(const std::vector<Lot>& lots, const FieldUse& use, std::int64_t taken) {
  std::int64_t in_hand = 0;
  for (const Lot& lot : lots)
    if (lot.from <= collecting_day(use) && lot.use_by >= use.use.window.late) in_hand += lot.ml;
  return in_hand >= taken + use.serum_ml;
}

// What all cans together hold; none when no can was entered.
std::optional<Volume> storage(const Season& season, double filled) {
  if (season.containers.empty()) return std::nullopt;
  Volume room;
  for (const Containers& cans : season.containers) room = room + cans.size * cans.count * filled;
  return room;
}

BatchProblem empty_problem(const Season& season, const recipe::Recipe& recipe,
                           const PlanRules& rules) {
  BatchProblem problem;
  problem.recipe = &recipe;
  problem.season = &season;
  problem.cool_below = rules.cool_below;
  problem.readiness = rules.readiness;
  problem.helpers_hours = rules.helpers_hours;
  problem.least_batch_ml = rules.least_batch_ml;
  problem.chances = rules.chances;
  problem.missed_times = rules.missed_times;
  problem.storage = storage(season, rules.storage_filled);
  return problem;
}

// What lacks for uses whose amount is not a guess [mL].
std::int64_t measured_short(const GatheredDemand& gathered, const BatchPlan& plan) {
  std::int64_t sum = 0;
  for (std::size_t g = 0; g < plan.short_ml.size(); ++g)
    if (!gathered.by_seed[g]) sum += plan.short_ml[g];
  return sum;
}

}  // namespace

Date collecting_day(const FieldUse& use) { return use.collect_on.value_or(use.use.window.likely); }

PlanRules PlanRules::of(const reference_data::ReferenceData& data, int failed, int recorded) {
  const lot_sizing::Chances guessed = guessed_chances(data);
  lot_sizing::Chances chances = guessed;
  const FailureShare failure = failure_share(data, failed, recorded);
  chances.failed = failure.share;
  return {data.constant("cool-below").value,
          data.constant("helpers-hours").value,
          std::llround(data.constant("least-batch").value * 1000.0),
          1.0 - data.constant("storage-headspace").value,
          chances,
          guessed,
          data.constant("missed-litre-times").value,
          data.constant("change-hours").value,
          failure,
          {fermentation::ReadinessTable::parse(data).value_or(fermentation::ReadinessTable()), 0}};
}

GatheredDemand gather(const Season& season, const recipe::Recipe& recipe,
                      const std::vector<FieldUse>& uses, const PlanRules& rules, SeedTurn turn) {
  GatheredDemand gathered;
  gathered.problem = empty_problem(season, recipe, rules);
  gathered.problem.opening = opening_lots(season, "serum", season.serum_life_days);
  gathered.group_of.assign(uses.size(), -1);
  std::map<std::tuple<bool, int, bool, int>, std::vector<std::size_t>> together;
  std::int64_t optional_taken = 0;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (uses[i].hand_out == HandOut::none) continue;
    if (!uses[i].use.required) {
      if (!covered_by_opening(gathered.problem.opening, uses[i], optional_taken)) continue;
      optional_taken += uses[i].serum_ml;
    }
    const bool by_seed = uses[i].hand_out == HandOut::by_seed;
    together[{by_seed && turn == SeedTurn::last, collecting_day(uses[i]).days(), by_seed,
              uses[i].use.window.late.days()}]
        .push_back(i);
  }
  for (const auto& [key, members] : together) {
    Demand demand{Date::from_days(std::get<1>(key)), Date::from_days(std::get<3>(key)), 0,
                  std::get<2>(key)};
    for (const std::size_t i : members) {
      demand.ml += uses[i].serum_ml;
      gathered.group_of[i] = static_cast<int>(gathered.problem.demand.size());
    }
    gathered.problem.demand.push_back(demand);
    gathered.by_seed.push_back(std::get<2>(key));
  }
  return gathered;
}

std::vector<BatchProblem> beside(const Season& season, const PlanRules& rules) {
  std::vector<BatchProblem> all;
  for (const Preparation& made : season.preparations) {
    BatchProblem problem = empty_problem(season, *made.recipe, rules);
    problem.keeps_days = made.keeps_days;
    problem.chances = rules.guessed;
    problem.opening = opening_lots(season, made.recipe->product, made.keeps_days);
    for (const Wanted& wanted : made.wanted)
      problem.demand.push_back({wanted.by, wanted.until, wanted.ml});
    std::stable_sort(problem.demand.begin(), problem.demand.end(),
                     [](const Demand& a, const Demand& b) { return a.collect < b.collect; });
    all.push_back(std::move(problem));
  }
  return all;
}

outcome::Result<DueSeason> due_season(const Season& season, const recipe::Recipe& recipe,
                                      const crop::CropTable& crops,
                                      const reference_data::ReferenceData& data,
                                      const PlanRules& rules, reference_data::UsedSources& used) {
  for (const char* id : {"cool-below", "helpers-hours", "least-batch", "storage-headspace",
                         "batch-failure-share", "missed-litre-times"})
    used.note(data.constant(id).origin, id);
  auto found = field_uses(season, crops, data, used);
  if (!found) return outcome::failure(found.error());
  DueSeason due{std::move(found->uses), 0, std::move(found->notes), {}, beside(season, rules)};
  const auto current = std::stable_partition(
      due.uses.begin(), due.uses.end(),
      [&](const FieldUse& use) { return use.use.window.late >= season.from; });
  due.past_uses = static_cast<int>(due.uses.end() - current);
  due.uses.erase(current, due.uses.end());
  due.turns.push_back(gather(season, recipe, due.uses, rules, SeedTurn::on_its_day));
  const std::vector<bool>& by_seed = due.turns.front().by_seed;
  if (std::find(by_seed.begin(), by_seed.end(), true) != by_seed.end())
    due.turns.push_back(gather(season, recipe, due.uses, rules, SeedTurn::last));
  return due;
}

void keep_announced(const std::vector<Announced>& announced, DueSeason& due) {
  if (announced.empty()) return;
  for (GatheredDemand& turn : due.turns) turn.problem.announced = announced.front();
  for (std::size_t i = 0; i < due.others.size(); ++i) due.others[i].announced = announced[i + 1];
}

std::vector<BatchProblem> together(const DueSeason& due, const GatheredDemand& turn) {
  std::vector<BatchProblem> all{turn.problem};
  all.insert(all.end(), due.others.begin(), due.others.end());
  return all;
}

Turn better_turn(const DueSeason& due, const BatchPlanner& planner, int earlier_days) {
  const auto planned = [&](const GatheredDemand& gathered) {
    std::vector<BatchProblem> problems = together(due, gathered);
    for (BatchProblem& problem : problems) problem.start_earlier_days = earlier_days;
    std::vector<BatchPlan> plans = planner.plan_together(problems);
    Turn turn{&gathered, std::move(plans.front()), {}};
    turn.others.assign(std::make_move_iterator(plans.begin() + 1),
                       std::make_move_iterator(plans.end()));
    return turn;
  };
  Turn turn = planned(due.turns.front());
  const std::int64_t measured = measured_short(due.turns.front(), turn.plan);
  const bool proven = turn.plan.certificate && turn.plan.certificate->least_short;
  if (measured == 0 || proven || due.turns.size() < 2) return turn;
  Turn last = planned(due.turns.back());
  return measured_short(due.turns.back(), last.plan) < measured ? last : turn;
}

}  // namespace wheyfield::season
