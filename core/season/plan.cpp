#include "season/plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "season/lots.h"
#include "season/plan_check.h"
#include "season/tasks.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

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

struct Relaxed {
  const char* name;
  std::vector<std::int64_t> short_ml;
};

std::vector<Relaxed> relaxed_plans(const std::vector<BatchProblem>& problems,
                                   const BatchPlanner& planner, int earlier_days) {
  std::vector<Relaxed> relaxed;
  const auto add = [&](const char* name, const auto& ease) {
    std::vector<BatchProblem> easier = problems;
    for (BatchProblem& problem : easier) ease(problem);
    relaxed.push_back({name, planner.plan_together(easier).front().short_ml});
  };
  const auto time = [&](BatchProblem& p) { p.start_earlier_days = earlier_days; };
  const auto milk = [](BatchProblem& p) { p.milk_without_limit = true; };
  const auto vessel = [](BatchProblem& p) { p.vessels_without_limit = true; };
  const auto life = [](BatchProblem& p) { p.life_without_limit = true; };
  const auto hands = [](BatchProblem& p) { p.hands_without_limit = true; };
  if (earlier_days > 0) add("time", time);
  add("milk", milk);
  add("vessel", vessel);
  add("life", life);
  if (problems.front().season->hands) add("hands", hands);
  add("together", [&](BatchProblem& p) {
    time(p);
    milk(p);
    vessel(p);
    life(p);
    hands(p);
  });
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

std::vector<Shortage> shortages(const DueSeason& due, const GatheredDemand& gathered,
                                const BatchPlanner& planner, const std::vector<PlannedUse>& uses,
                                const BatchPlan& plan, int earlier_days) {
  const std::vector<Relaxed> relaxed =
      relaxed_plans(together(due, gathered), planner, earlier_days);
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

void see_whether_hands_bind(const std::vector<BatchProblem>& problems, const BatchPlanner& planner,
                            std::vector<PreparationPlan>& others) {
  if (!problems.front().season->hands ||
      std::none_of(others.begin(), others.end(),
                   [](const PreparationPlan& other) { return other.batches.total_short() > 0; }))
    return;
  std::vector<BatchProblem> lifted = problems;
  for (BatchProblem& problem : lifted) problem.hands_without_limit = true;
  const std::vector<BatchPlan> plans = planner.plan_together(lifted);
  for (std::size_t i = 0; i < others.size(); ++i)
    for (std::size_t d = 0; d < others[i].due.size(); ++d)
      others[i].hands_would_help.push_back(plans[i + 1].short_ml[d] <
                                           others[i].batches.short_ml[d]);
}

// Days before the first start that a search goes back: `before` days before the first day on which
// serum is due, or before the first start when that is earlier.
int days_to_search(const BatchProblem& problem, int before) {
  Date first = problem.season->first_start;
  for (const Demand& d : problem.demand) first = std::min(first, d.collect);
  return problem.season->first_start - first + before;
}

// Days before the first start from which nothing is short; none within `most`.
std::optional<int> curing_days(const DueSeason& due, const BatchPlanner& planner, int most) {
  const auto nothing_short = [&](int days) {
    return better_turn(due, planner, days).plan.total_short() == 0;
  };
  if (!nothing_short(most)) return std::nullopt;
  for (int days = 1; days < most; ++days)
    if (nothing_short(days)) return days;
  return most;
}

// The screen may find only an earlier start than is needed: the planner halves what is left.
std::optional<int> fewest_curing_days(const DueSeason& due, const BatchPlanner& planner,
                                      const BatchPlanner& screen, int most) {
  std::optional<int> days = curing_days(due, screen, most);
  if (!days && better_turn(due, planner, most).plan.total_short() == 0) days = most;
  if (!days) return std::nullopt;
  int too_few = 0;
  while (*days - too_few > 1) {
    const int middle = too_few + (*days - too_few) / 2;
    if (better_turn(due, planner, middle).plan.total_short() == 0)
      days = middle;
    else
      too_few = middle;
  }
  return days;
}

// Vessels in which a forecast step of the recipe is never ready on some day of the season:
// too-cold-to-plan, or too-cold-all-season, at the vessel.
outcome::Problems never_ready(const Season& season, const recipe::Recipe& recipe,
                              const PlanRules& rules) {
  outcome::Problems notes;
  if (!recipe.has_forecast()) return notes;
  const recipe::Step& step = recipe.steps[static_cast<std::size_t>(recipe.vessel_step())];
  for (std::size_t v = 0; v < season.vessels.size(); ++v) {
    const Vessel& vessel = season.vessels[v];
    if (vessel.kind != step.kind) continue;
    const Place& place = season.places[vessel.place];
    std::optional<Date> first, last, works;
    for (Date day = season.first_start; day <= season.to; day = day + 1)
      if (standing(step, place, vessel.milk, day, rules.cool_below, rules.readiness)) {
        works = works.value_or(day);
      } else {
        first = first.value_or(day);
        last = day;
      }
    if (first)
      notes.push_back({works ? "too-cold-to-plan" : "too-cold-all-season",
                       "/vessels/" + std::to_string(v),
                       vessel.name,
                       {{"place", place.name},
                        {"from", first->iso()},
                        {"to", last->iso()},
                        {"works", works ? works->iso() : ""}},
                       outcome::Severity::notice});
  }
  return notes;
}

}  // namespace

std::vector<Making> makings(const Season& season, const recipe::Recipe& recipe,
                            const SeasonPlan& plan) {
  std::vector<Making> all{{&recipe, &plan.batches, std::nullopt}};
  for (std::size_t i = 0; i < plan.others.size(); ++i)
    all.push_back({season.preparations[i].recipe, &plan.others[i].batches, i});
  return all;
}

outcome::Result<SeasonPlan> make_plan(const Season& season, const recipe::Recipe& recipe,
                                      const crop::CropTable& crops,
                                      const reference_data::ReferenceData& data,
                                      const PlanRules& rules, const BatchPlanner& planner,
                                      const BatchPlanner& screen, Simulation simulation,
                                      reference_data::UsedSources& used,
                                      const std::vector<Announced>& announced) {
  auto due = due_season(season, recipe, crops, data, rules, used);
  if (!due) return outcome::failure(due.error());
  keep_announced(announced, *due);
  SeasonPlan plan;
  plan.notes = std::move(due->notes);
  outcome::append(plan.notes, never_ready(season, recipe, rules));
  plan.past_uses = due->past_uses;
  if (!announced.empty()) plan.changed_on = announced.front().no_new_before;
  Turn turn = better_turn(*due, planner, 0);
  const GatheredDemand& gathered = *turn.gathered;
  plan.opening = gathered.problem.opening;
  plan.batches = std::move(turn.plan);
  name_batches(gathered.problem, plan.batches);
  const std::vector<BatchProblem> problems = together(*due, gathered);
  std::vector<BatchPlan> plans{plan.batches};
  for (std::size_t i = 0; i < turn.others.size(); ++i) {
    name_batches(due->others[i], turn.others[i]);
    plans.push_back(turn.others[i]);
    plan.others.push_back(
        {due->others[i].demand, due->others[i].opening, std::move(turn.others[i]), 0.0, {}});
    if (plan.others.back().batches.total_short() > 0)
      plan.others.back().earliest_ready = earliest_ready(due->others[i]);
  }
  plan.broken = check_plans(problems, plans);
  for (FieldUse& use : due->uses) plan.uses.push_back({std::move(use), true, {}, 0, 0.0});
  hand_down(gathered, plan.batches, plan.uses);
  if (simulation.seasons > 0) {
    plan.risk = season_risk(problems, plans, simulation.seed, simulation.seasons);
    for (std::size_t i = 0; i < plan.others.size(); ++i)
      plan.others[i].on_time = plan.risk->others_on_time[i];
    for (std::size_t i = 0; i < plan.uses.size(); ++i)
      if (const int g = gathered.group_of[i]; g >= 0)
        plan.uses[i].on_time = plan.risk->in_full[static_cast<std::size_t>(g)];
  }
  // Under way nothing can start earlier, and the screen knows of no announced batches.
  const bool under_way = !announced.empty() && !announced.front().nothing();
  see_whether_hands_bind(problems, under_way ? planner : screen, plan.others);
  if (plan.batches.total_short() > 0) {
    plan.under_way = under_way;
    const int earlier_days =
        plan.under_way ? 0
                       : days_to_search(gathered.problem,
                                        static_cast<int>(data.constant("cure-search").value));
    plan.shortages = shortages(*due, gathered, plan.under_way ? planner : screen, plan.uses,
                               plan.batches, earlier_days);
    if (!plan.under_way)
      if (const auto days = fewest_curing_days(*due, planner, screen, earlier_days))
        plan.cure_start = season.first_start - *days;
  }
  for (const Making& making : makings(season, recipe, plan)) {
    recipe::note_sources(*making.recipe, used);
    note_forecasts(*making.recipe, rules.readiness, used);
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

}  // namespace wheyfield::season
