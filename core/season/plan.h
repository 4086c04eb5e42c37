// The season's plan: which batches, which tasks on which day, who gets how much, what is short.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "crop/crop_table.h"
#include "recipe/recipe.h"
#include "season/batch_plan.h"
#include "season/demand.h"
#include "season/gather.h"
#include "season/risk.h"
#include "season/season.h"
#include "words/catalogue.h"

namespace wheyfield::season {

// A field's use with what it gets.
struct PlannedUse {
  FieldUse due;
  // False, so sown without: nursery soak without stock in hand, or HandOut::none.
  bool planned = true;
  std::vector<Draw> draws;
  std::int64_t short_ml = 0;
  double on_time = 0.0;  // share of simulated seasons in which its serum is there on its day
};

// What is made beside: one of the season's preparations.
struct PreparationPlan {
  std::vector<Demand> due;
  std::vector<Lot> opening;
  BatchPlan batches;
  double on_time = 0.0;  // share of its litres over the simulated seasons
  std::optional<calendar::Date> earliest_ready = {};  // looked for when something is short
  // One for each due when something is short and hours of work are limited: as many hours as are
  // wanted would leave it less short.
  std::vector<bool> hands_would_help = {};
};

// What is missing on one hand-out day for one use, and which limit, when lifted alone, makes it
// less.
struct Shortage {
  calendar::Date collect;
  std::string use;
  std::int64_t short_ml = 0;
  std::int64_t due_ml = 0;
  int fields = 0;
  std::vector<std::string> binds;  // time, milk, vessel, life; "together": only all at once help
};

struct Task {
  calendar::Date date;
  std::string id;  // sentence `task.<id>`
  recipe::Who who = recipe::Who::trainer;
  std::optional<std::size_t> batch;        // index into BatchPlan::batches
  std::optional<std::size_t> preparation;  // whose batch it is; none: the season's own recipe
  words::Values values;
  std::vector<std::string> cautions;
};

struct SeasonPlan {
  std::vector<PlannedUse> uses;
  std::optional<SeasonRisk> risk;  // its `in_full` stands by demand, PlannedUse::on_time by use
  int past_uses = 0;               // whose windows ended before the season began: left out
  std::vector<Lot> opening;
  BatchPlan batches;
  std::vector<PreparationPlan> others;  // as Season::preparations
  std::vector<Shortage> shortages;
  // The latest first start from which nothing is short, of those up to `cure-search` days earlier;
  // looked for only when the earliest of them serves everything. Only with shortages.
  std::optional<calendar::Date> cure_start;
  bool under_way = false;                    // a changed plan: no earlier start is looked for
  std::optional<calendar::Date> changed_on;  // nobody can be told anything before it
  std::vector<Task> tasks;                   // by date
  outcome::Problems notes;                   // of the forecasts
  outcome::Problems broken;  // what the independent checker finds; empty for a sound plan
};

// How many seasons of chance are played for the plan's risk; 0: none.
struct Simulation {
  std::uint64_t seed = 1;
  std::int64_t seasons = 0;
};

// Works out the whole plan. `announced`: of the season's own recipe, then of each preparation;
// empty: nothing was. What cannot be met is in `shortages`; what binds and which start cures
// it is found with `screen`, which must be quick; the start that cures it then with `planner` too.
// Errors: those of `field_uses`.
outcome::Result<SeasonPlan> make_plan(const Season& season, const recipe::Recipe& recipe,
                                      const crop::CropTable& crops,
                                      const reference_data::ReferenceData& data,
                                      const PlanRules& rules, const BatchPlanner& planner,
                                      const BatchPlanner& screen, Simulation simulation,
                                      reference_data::UsedSources& used,
                                      const std::vector<Announced>& announced = {});

// The batches of one recipe.
struct Making {
  const recipe::Recipe* recipe = nullptr;
  const BatchPlan* batches = nullptr;
  std::optional<std::size_t> preparation;  // none: the season's own recipe
};

// All that the season makes: its own recipe first, then its preparations.
std::vector<Making> makings(const Season& season, const recipe::Recipe& recipe,
                            const SeasonPlan& plan);

// What the plan hands out of a batch [mL].
std::int64_t drawn_from(const SeasonPlan& plan, std::size_t batch);

// The first planned batch started after the spare `spare` is ready that the spare can replace: all
// that is drawn from it fits the spare's litres and days, and no other planned batch stands in its
// vessel then, where it may still fail. None when there is no such batch.
std::optional<std::size_t> spare_instead_of(const recipe::Recipe& recipe, const SeasonPlan& plan,
                                            std::size_t spare);

}  // namespace wheyfield::season
