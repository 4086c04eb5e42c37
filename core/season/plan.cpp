#include "season/plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "season/batch_chances.h"
#include "season/plan_check.h"
#include "season/tasks.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

std::vector<Lot> opening_lots(const Season& season) {
  std::vector<Lot> lots;
  for (const StockItem& item : season.stock)
    if (item.item == "serum" && item.amount > 0.0 && item.made_on)
      lots.push_back({*item.made_on, *item.made_on + season.serum_life_days,
                      quantity::whole_millilitres(quantity::litres(item.amount))});
  std::stable_sort(lots.begin(), lots.end(),
                   [](const Lot& a, const Lot& b) { return a.use_by < b.use_by; });
  return lots;
}

Date collecting_day(const FieldUse& use) { return use.collect_on.value_or(use.use.window.likely); }

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

// Shares what a demand was given among its uses, in their order; the last ones go short.
void hand_down(const GatheredDemand& gathered, const BatchPlan& plan,
               std::vector<PlannedUse>& uses) {
  std::vector<std::vector<Draw>> left = plan.draws;
  std::vector<std::size_t> next(left.size(), 0);
  for (std::size_t i = 0; i < uses.size(); ++i) {
    uses[i].planned = gathered.group_of[i] >= 0;
    if (!uses[i].planned) continue;
    const auto g = static_cast<std::size_t>(gathered.group_of[i]);
    std::int64_t need = uses[i].due.serum_ml;
    while (need > 0 && next[g] < left[g].size()) {
      Draw& draw = left[g][next[g]];
      const std::int64_t ml = std::min(need, draw.ml);
      uses[i].draws.push_back({draw.lot, ml});
      draw.ml -= ml;
      need -= ml;
      if (draw.ml == 0) ++next[g];
    }
    uses[i].short_ml = need;
  }
}

// What lacks for uses whose amount is not a guess [mL].
std::int64_t measured_short(const GatheredDemand& gathered, const BatchPlan& plan) {
  std::int64_t sum = 0;
  for (std::size_t g = 0; g < plan.short_ml.size(); ++g)
    if (!gathered.by_seed[g]) sum += plan.short_ml[g];
  return sum;
}

struct Relaxed {
  const char* name;
  std::vector<std::int64_t> short_ml;
};

std::vector<Relaxed> relaxed_plans(const BatchProblem& problem, const BatchPlanner& planner,
                                   int earlier_days) {
  std::vector<Relaxed> relaxed;
  const auto add = [&](const char* name, bool time, bool milk, bool vessel, bool life) {
    BatchProblem easier = problem;
    easier.start_earlier_days = time ? earlier_days : 0;
    easier.milk_without_limit = milk;
    easier.vessels_without_limit = vessel;
    easier.life_without_limit = life;
    relaxed.push_back({name, planner.plan(easier).short_ml});
  };
  add("time", true, false, false, false);
  add("milk", false, true, false, false);
  add("vessel", false, false, true, false);
  add("life", false, false, false, true);
  add("together", true, true, true, true);
  return relaxed;
}

std::vector<std::string> binding(const std::vector<Relaxed>& relaxed, std::size_t g,
                                 std::int64_t short_ml) {
  std::vector<std::string> binds;
  for (const Relaxed& easier : relaxed)
    if (easier.short_ml[g] < short_ml && (binds.empty() || easier.name != std::string("together")))
      binds.push_back(easier.name);
  return binds;
}

std::vector<Shortage> shortages(const GatheredDemand& gathered, const BatchPlanner& planner,
                                const std::vector<PlannedUse>& uses, const BatchPlan& plan,
                                int earlier_days) {
  const std::vector<Relaxed> relaxed = relaxed_plans(gathered.problem, planner, earlier_days);
  std::map<std::pair<int, std::string>, Shortage> by_day;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (gathered.group_of[i] < 0) continue;
    const auto g = static_cast<std::size_t>(gathered.group_of[i]);
    const Date collect = collecting_day(uses[i].due);
    const crop::Use& use = uses[i].due.use;
    Shortage& s = by_day[{collect.days(), use.id}];
    s.collect = collect;
    s.use = use.id;
    s.due_ml += uses[i].due.serum_ml;
    if (uses[i].short_ml == 0) continue;
    s.short_ml += uses[i].short_ml;
    ++s.fields;
    for (const std::string& limit : binding(relaxed, g, plan.short_ml[g]))
      if (std::find(s.binds.begin(), s.binds.end(), limit) == s.binds.end())
        s.binds.push_back(limit);
  }
  std::vector<Shortage> found;
  for (auto& [key, shortage] : by_day)
    if (shortage.short_ml > 0) found.push_back(std::move(shortage));
  return found;
}

// Days before the first start that a search goes back: `before` days before the first day on which
// serum is due, or before the first start when that is earlier.
int days_to_search(const BatchProblem& problem, int before) {
  Date first = problem.season->first_start;
  for (const Demand& d : problem.demand) first = std::min(first, d.collect);
  return problem.season->first_start - first + before;
}

// The demand with the two turns that what is kept for unweighed seed can have.
struct Turns {
  GatheredDemand on_its_day;
  std::optional<GatheredDemand> last;  // none when nothing is kept for seed
};

struct Turn {
  const GatheredDemand* gathered;
  BatchPlan plan;
};

// The turn that leaves less of the measured uses short, `earlier_days` before the first start.
Turn better_turn(const Turns& turns, const BatchPlanner& planner, int earlier_days) {
  const auto planned = [&](const GatheredDemand& gathered) {
    BatchProblem problem = gathered.problem;
    problem.start_earlier_days = earlier_days;
    return Turn{&gathered, planner.plan(problem)};
  };
  Turn turn = planned(turns.on_its_day);
  const std::int64_t measured = measured_short(turns.on_its_day, turn.plan);
  if (measured == 0 || !turns.last) return turn;
  Turn last = planned(*turns.last);
  return measured_short(*turns.last, last.plan) < measured ? last : turn;
}

std::optional<Date> curing_start(const Turns& turns, const BatchPlanner& planner,
                                 int earlier_days) {
  const auto nothing_short = [&](int days) {
    return better_turn(turns, planner, days).plan.total_short() == 0;
  };
  if (!nothing_short(earlier_days)) return std::nullopt;
  for (int days = 1; days <= earlier_days; ++days)
    if (nothing_short(days)) return turns.on_its_day.problem.season->first_start - days;
  return std::nullopt;
}

}  // namespace

PlanRules PlanRules::of(const reference_data::ReferenceData& data) {
  return {data.constant("cool-below").value,
          data.constant("helpers-hours").value,
          std::llround(data.constant("least-batch").value * 1000.0),
          1.0 - data.constant("storage-headspace").value,
          guessed_chances(data),
          data.constant("missed-litre-times").value};
}

GatheredDemand gather(const Season& season, const recipe::Recipe& recipe,
                      const std::vector<FieldUse>& uses, const PlanRules& rules, SeedTurn turn) {
  GatheredDemand gathered;
  gathered.problem.recipe = &recipe;
  gathered.problem.season = &season;
  gathered.problem.opening = opening_lots(season);
  gathered.problem.cool_below = rules.cool_below;
  gathered.problem.helpers_hours = rules.helpers_hours;
  gathered.problem.least_batch_ml = rules.least_batch_ml;
  gathered.problem.chances = rules.chances;
  gathered.problem.missed_times = rules.missed_times;
  gathered.problem.storage = storage(season, rules.storage_filled);
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

outcome::Result<SeasonPlan> make_plan(const Season& season, const recipe::Recipe& recipe,
                                      const crop::CropTable& crops,
                                      const reference_data::ReferenceData& data,
                                      const BatchPlanner& planner, const BatchPlanner& screen,
                                      Simulation simulation, reference_data::UsedSources& used) {
  const PlanRules rules = PlanRules::of(data);
  for (const char* id : {"cool-below", "helpers-hours", "least-batch", "storage-headspace",
                         "batch-failure-share", "missed-litre-times"})
    used.note(data.constant(id).origin, id);
  SeasonPlan plan;
  auto found = field_uses(season, crops, data, used);
  if (!found) return outcome::failure(found.error());
  plan.notes = std::move(found->notes);
  std::vector<FieldUse> due = std::move(found->uses);
  const auto current = std::stable_partition(due.begin(), due.end(), [&](const FieldUse& use) {
    return use.use.window.late >= season.from;
  });
  plan.past_uses = static_cast<int>(due.end() - current);
  due.erase(current, due.end());
  Turns turns{gather(season, recipe, due, rules, SeedTurn::on_its_day), {}};
  const std::vector<bool>& by_seed = turns.on_its_day.by_seed;
  if (std::find(by_seed.begin(), by_seed.end(), true) != by_seed.end())
    turns.last = gather(season, recipe, due, rules, SeedTurn::last);
  Turn turn = better_turn(turns, planner, 0);
  const GatheredDemand& gathered = *turn.gathered;
  plan.opening = gathered.problem.opening;
  plan.batches = std::move(turn.plan);
  plan.broken = check_plan(gathered.problem, plan.batches);
  for (FieldUse& use : due) plan.uses.push_back({std::move(use), true, {}, 0, 0.0});
  hand_down(gathered, plan.batches, plan.uses);
  if (simulation.seasons > 0) {
    plan.risk = season_risk(gathered.problem, plan.batches, simulation.seed, simulation.seasons);
    for (std::size_t i = 0; i < plan.uses.size(); ++i)
      if (const int g = gathered.group_of[i]; g >= 0)
        plan.uses[i].on_time = plan.risk->in_full[static_cast<std::size_t>(g)];
  }
  if (plan.batches.total_short() > 0) {
    const int earlier_days =
        days_to_search(gathered.problem, static_cast<int>(data.constant("cure-search").value));
    plan.shortages = shortages(gathered, screen, plan.uses, plan.batches, earlier_days);
    plan.cure_start = curing_start(turns, screen, earlier_days);
  }
  for (const recipe::Step& step : recipe.steps) {
    used.note(step.warm.origin, "step." + step.id);
    used.note(step.cool.origin, "step." + step.id);
    for (const auto* flows : {&step.takes, &step.gives})
      for (const recipe::Flow& flow : *flows)
        if (!flow.remainder) used.note(flow.ratio.origin, "material." + flow.material);
  }
  plan.tasks = tasks(season, recipe, plan);
  return plan;
}

std::int64_t drawn_from(const SeasonPlan& plan, std::size_t batch) {
  std::int64_t sum = 0;
  for (const auto& draws : plan.batches.draws)
    for (const Draw& draw : draws)
      if (draw.lot == plan.opening.size() + batch) sum += draw.ml;
  return sum;
}

std::optional<std::size_t> spare_instead_of(const recipe::Recipe& recipe, const SeasonPlan& plan,
                                            std::size_t spare) {
  const std::vector<Batch>& made = plan.batches.batches;
  const auto vessel_step = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
  const auto others_out = [&](std::size_t i) {
    return std::none_of(made.begin(), made.end(), [&](const Batch& other) {
      return &other != &made[i] && !other.spare && other.start() < made[i].start() &&
             made[i].start() < other.steps[vessel_step].to;
    });
  };
  std::vector<std::int64_t> drawn(made.size(), 0);
  std::vector<Date> last_use(made.size(), Date::from_days(0));
  for (const PlannedUse& use : plan.uses)
    for (const Draw& draw : use.draws)
      if (draw.lot >= plan.opening.size()) {
        const std::size_t i = draw.lot - plan.opening.size();
        drawn[i] += draw.ml;
        last_use[i] = std::max(last_use[i], use.due.use.window.late);
      }
  for (std::size_t i = 0; i < made.size(); ++i)
    if (!made[i].spare && made[i].start() >= made[spare].ready &&
        last_use[i] <= made[spare].use_by && drawn[i] <= made[spare].stored_ml && others_out(i))
      return i;
  return std::nullopt;
}

std::string batch_name(std::size_t index) { return "B" + std::to_string(index + 1); }

}  // namespace wheyfield::season
