#include "season/tasks.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace wheyfield::season {
namespace {

using calendar::Date;
using words::Decimal;

Decimal about_litres(std::int64_t ml) { return shown_amount(static_cast<double>(ml) / 1000.0); }

bool holds(const recipe::TaskTemplate& task, const Season& season, const Vessel& vessel) {
  if (task.only_if.empty()) return true;
  if (task.only_if == "chlorinated") return season.places[vessel.place].chlorinated();
  return (task.only_if == "raw") == (vessel.milk == Milk::raw);
}

// Work of the group on a day without a meeting goes to the keeper and helpers; who helps is agreed
// at the last meeting before, or on the day the plan is changed when that is later.
void agree_on_helpers(const Season& season, Date day, const Making& making, std::size_t batch,
                      std::optional<Date> changed_on, const words::Values& amounts,
                      std::vector<Task>& all) {
  auto meeting = season.meetings.last_up_to(day - 1);
  if (!meeting || *meeting < season.from) return;
  if (changed_on) meeting = std::max(*meeting, *changed_on);
  words::Values values = amounts;
  values.insert_or_assign("day", day);
  all.push_back({*meeting,
                 "agree-helpers",
                 recipe::Who::trainer,
                 batch,
                 making.preparation,
                 std::move(values),
                 {}});
}

void batch_tasks(const Season& season, const Making& making, std::size_t index,
                 std::optional<Date> changed_on, std::vector<Task>& all) {
  const recipe::Recipe& recipe = *making.recipe;
  const Batch& batch = making.batches->batches[index];
  const Vessel& vessel = season.vessels[batch.vessel];
  const words::Values amounts = batch_values(season, recipe, batch);
  std::set<int> helped;
  for (const BatchStep& dated : batch.steps) {
    const recipe::Step& step = recipe.steps[dated.step];
    for (const recipe::TaskTemplate& task : step.tasks) {
      if (!holds(task, season, vessel)) continue;
      const Date day = (task.at_end ? dated.to : dated.from) + task.day;
      words::Values values = amounts;
      values.insert_or_assign("early", dated.ready.early);
      values.insert_or_assign("likely", dated.ready.likely);
      values.insert_or_assign("late", dated.ready.late);
      values.insert_or_assign("until", dated.to);
      values.insert_or_assign("stands_until", dated.stands_until);
      values.insert_or_assign("use_by", batch.use_by);
      const bool alone = task.who == recipe::Who::group && !season.meetings.meets(day);
      if (alone && helped.insert(day.days()).second)
        agree_on_helpers(season, day, making, index, changed_on, amounts, all);
      all.push_back({day, task.id, alone ? recipe::Who::helpers : task.who, index,
                     making.preparation, std::move(values), task.cautions});
    }
  }
}

std::string joined(const std::set<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

// Farm codes in the order of the season file, without repeats.
std::string farms_in_order(const Season& season, const std::set<std::size_t>& farms) {
  std::string out;
  for (const std::size_t f : farms) out += (out.empty() ? "" : ", ") + season.farms[f].code;
  return out;
}

// Adds the caution when one of these farms thins serum with chlorinated tap water.
void stand_water(const Season& season, const std::set<std::size_t>& farms,
                 std::vector<std::string>& cautions) {
  const auto chlorinated = [&](std::size_t farm) {
    return season.places[season.farms[farm].place].chlorinated();
  };
  if (std::any_of(farms.begin(), farms.end(), chlorinated))
    cautions.emplace_back("mix-water-stands");
}

std::vector<std::string> use_cautions(const std::string& event) {
  if (event == "seed-soak") return {"dressed-seed-never", "fresh-same-day"};
  return {"fresh-same-day", "wear"};
}

// One line for all fields that share a use, its window and the likely day in it; seed that nobody
// weighed has its own.
void use_tasks(const Season& season, const SeasonPlan& plan, std::vector<Task>& all) {
  struct Group {
    std::set<std::size_t> farms;
    std::set<std::string> crops;
    std::int64_t ml = 0;
    int fields = 0;
  };
  std::map<std::tuple<int, int, std::string, int, bool>, Group> groups;
  for (const PlannedUse& use : plan.uses) {
    if (use.due.serum_ml == use.short_ml || !use.planned) continue;
    const crop::Use& u = use.due.use;
    // Before the hand-out there is nothing to put on.
    const Date first = std::max(u.window.early, use.due.collect_on.value_or(u.window.early));
    const bool by_seed = use.due.hand_out == HandOut::by_seed;
    Group& g =
        groups[{first.days(), u.window.late.days(), u.event, u.window.likely.days(), by_seed}];
    g.farms.insert(use.due.farm);
    g.crops.insert(season.farms[use.due.farm].fields[use.due.field].planting.crop->id);
    g.ml += use.due.serum_ml - use.short_ml;
    ++g.fields;
  }
  for (const auto& [key, g] : groups) {
    const auto& [early, late, event, likely, by_seed] = key;
    words::Values values{{"n", g.fields},
                         {"use", event},
                         {"crops", joined(g.crops)},
                         {"farms", farms_in_order(season, g.farms)},
                         {"early", Date::from_days(early)},
                         {"likely", Date::from_days(likely)},
                         {"late", Date::from_days(late)},
                         {"litres", Decimal{static_cast<double>(g.ml) / 1000.0, 3}}};
    all.push_back({Date::from_days(early),
                   event != "seed-soak" ? "use" : (by_seed ? "soak-by-seed" : "soak-weighed"),
                   recipe::Who::group,
                   {},
                   {},
                   std::move(values),
                   use_cautions(event)});
    stand_water(season, g.farms, all.back().cautions);
  }
}

void hand_out_tasks(const Season& season, const SeasonPlan& plan, std::vector<Task>& all) {
  std::map<std::pair<int, bool>, std::pair<std::int64_t, std::set<std::size_t>>> given;
  for (const PlannedUse& use : plan.uses) {
    if (!use.planned || !use.due.collect_on || use.due.serum_ml == use.short_ml) continue;
    auto& [ml, farms] = given[{use.due.collect_on->days(), use.due.hand_out == HandOut::by_seed}];
    ml += use.due.serum_ml - use.short_ml;
    farms.insert(use.due.farm);
  }
  for (const auto& [when, of] : given) {
    const auto& [day, by_seed] = when;
    all.push_back(
        {Date::from_days(day),
         by_seed ? "hand-out-by-seed" : "hand-out",
         recipe::Who::trainer,
         {},
         {},
         {{"n", of.second.size()}, {"litres", Decimal{static_cast<double>(of.first) / 1000.0, 3}}},
         {"label-not-food", "gas-pressure"}});
    stand_water(season, of.second, all.back().cautions);
  }
}

// What is wanted beside, on the day it is wanted.
void wanted_tasks(const Season& season, const SeasonPlan& plan, std::vector<Task>& all) {
  for (std::size_t i = 0; i < plan.others.size(); ++i)
    for (std::size_t d = 0; d < plan.others[i].due.size(); ++d) {
      const Demand& due = plan.others[i].due[d];
      const std::int64_t ml = due.ml - plan.others[i].batches.short_ml[d];
      if (ml == 0) continue;
      const recipe::Recipe& recipe = *season.preparations[i].recipe;
      words::Values values{
          {"product", recipe.product}, {"litres", about_litres(ml)}, {"until", due.last_use}};
      all.push_back({due.collect,
                     "preparation-due",
                     recipe::Who::trainer,
                     {},
                     {},
                     std::move(values),
                     recipe.cautions});
    }
}

// The last market day before the first batch: the shopping list is for the whole season.
void market_task(const Season& season, const std::vector<Making>& all_made,
                 std::vector<Task>& all) {
  std::size_t batches = 0;
  std::optional<Date> first;
  for (const Making& making : all_made)
    for (const Batch& batch : making.batches->batches) {
      first = first ? std::min(*first, batch.start()) : batch.start();
      ++batches;
    }
  if (!first) return;
  const Date day = calendar::last_before(season.market, *first);
  all.push_back({day, "market", recipe::Who::trainer, {}, {}, {{"n", batches}}, {}});
}

}  // namespace

words::Decimal shown_amount(double amount) {
  return {amount, amount < 20.0 ? recipe::amount_places : amount < 100.0 ? 1 : 0};
}

words::Values batch_values(const Season& season, const recipe::Recipe& recipe, const Batch& batch) {
  const Vessel& vessel = season.vessels[batch.vessel];
  const double stored = static_cast<double>(batch.stored_ml) / 1000.0;
  words::Values values{{"batch", batch.name},
                       {"vessel", vessel.name},
                       {"farm", vessel.farm},
                       {"place", season.places[vessel.place].name},
                       {"stored", shown_amount(stored)}};
  const auto filled = batch.steps[static_cast<std::size_t>(std::max(0, recipe.vessel_step()))].from;
  if (const MilkRule* rule = season.milk_on(filled); rule && recipe.material("milk")) {
    const Money worth = rule->price.times(stored * milk_per_product(recipe));
    values.insert_or_assign("worth", Decimal{static_cast<double>(worth.whole()), 0});
    values.insert_or_assign("currency", season.currency);
  }
  const recipe::Scaled scaled = recipe::scale(recipe, stored);
  for (const recipe::ScaledStep& step : scaled.steps) {
    for (const auto* flows : {&step.takes, &step.gives})
      for (const recipe::ScaledFlow& flow : *flows)
        values.insert_or_assign(flow.material, shown_amount(flow.amount));
  }
  return values;
}

std::vector<Task> tasks(const Season& season, const recipe::Recipe& recipe,
                        const SeasonPlan& plan) {
  std::vector<Task> all;
  const std::vector<Making> all_made = makings(season, recipe, plan);
  market_task(season, all_made, all);
  for (const Making& making : all_made)
    for (std::size_t i = 0; i < making.batches->batches.size(); ++i)
      batch_tasks(season, making, i, plan.changed_on, all);
  hand_out_tasks(season, plan, all);
  wanted_tasks(season, plan, all);
  use_tasks(season, plan, all);
  std::stable_sort(all.begin(), all.end(),
                   [](const Task& a, const Task& b) { return a.date < b.date; });
  return all;
}

}  // namespace wheyfield::season
