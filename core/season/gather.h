// What is due, gathered by collecting day into the planning problem.
#pragma once

#include <cstdint>
#include <vector>

#include "crop/crop_table.h"
#include "outcome/result.h"
#include "recipe/recipe.h"
#include "season/batch_chances.h"
#include "season/batch_plan.h"
#include "season/demand.h"
#include "season/season.h"

namespace wheyfield::season {

// When what is kept for seed that nobody weighed is served: after the other hand-outs of its day,
// or after all of the season's, for it is a guess where the others are measured.
enum class SeedTurn { on_its_day, last };

// The planning problem of a season: its uses gathered by collecting day and last day of use.
// `group_of[i]` is the demand that use i belongs to, or -1 when it is not planned.
struct GatheredDemand {
  BatchProblem problem;
  std::vector<int> group_of;
  std::vector<bool> by_seed;  // one for each demand: kept for seed that nobody weighed
};

// What the trade's tables say about planning; each an assumption or common practice with its row.
struct PlanRules {
  double cool_below = 0.0;          // [C]
  double helpers_hours = 0.0;       // [h]
  std::int64_t least_batch_ml = 0;  // [mL]
  double storage_filled = 1.0;      // part of a can that serum may fill
  lot_sizing::Chances chances;      // of a batch of the season's own recipe
  lot_sizing::Chances guessed;      // of a batch of anything else
  double missed_times = 0.0;        // BatchProblem::missed_times
  double change_hours = 0.0;        // [h] to tell people of a batch that is new to them
  FailureShare failure = {};        // where the failure share in `chances` comes from
  Readiness readiness = {};         // BatchProblem::readiness
  // `failed` of `recorded` batches of the group's own. A readiness table that cannot be read is
  // empty: `open` refuses it.
  static PlanRules of(const reference_data::ReferenceData& data, int failed = 0, int recorded = 0);
};

GatheredDemand gather(const Season& season, const recipe::Recipe& recipe,
                      const std::vector<FieldUse>& uses, const PlanRules& rules, SeedTurn turn);

// What the season makes beside, in its order.
std::vector<BatchProblem> beside(const Season& season, const PlanRules& rules);

// The day a use's serum is handed out: its meeting, else its likely day.
calendar::Date collecting_day(const FieldUse& use);

// What is due within a season.
struct DueSeason {
  std::vector<FieldUse> uses;
  int past_uses = 0;  // whose windows ended before the season began: left out
  outcome::Problems notes;
  // Gathered with seed on its day; and, when something is kept for seed, with seed last.
  std::vector<GatheredDemand> turns;
  std::vector<BatchProblem> others;  // the season's preparations, planned together with each turn
};

// `season` and `recipe` outlive it. Errors: those of `field_uses`.
outcome::Result<DueSeason> due_season(const Season& season, const recipe::Recipe& recipe,
                                      const crop::CropTable& crops,
                                      const reference_data::ReferenceData& data,
                                      const PlanRules& rules, reference_data::UsedSources& used);

// What was announced stays in every turn of the demand: of the serum first, then of each
// preparation. None: nothing was.
void keep_announced(const std::vector<Announced>& announced, DueSeason& due);

struct Turn {
  const GatheredDemand* gathered;
  BatchPlan plan;
  std::vector<BatchPlan> others;
};

// The problems that are planned together: of the turn, then the others.
std::vector<BatchProblem> together(const DueSeason& due, const GatheredDemand& turn);

// The turn that leaves less of the measured uses short, started `earlier_days` before the first
// start. A plan proven least short has no better one.
Turn better_turn(const DueSeason& due, const BatchPlanner& planner, int earlier_days);

}  // namespace wheyfield::season
