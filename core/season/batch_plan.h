// The planning problem without farms: when how much serum is due, what it can be made in, and the
// batches that answer it. The border behind which another planner can stand.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "calendar/date.h"
#include "calendar/meeting_days.h"
#include "lot_sizing/waiting.h"
#include "recipe/recipe.h"
#include "recipe/scale.h"
#include "season/season.h"
#include "season/standing.h"

namespace wheyfield::season {

// Serum due together: collected on one day, in use until another.
struct Demand {
  calendar::Date collect;
  calendar::Date last_use;
  std::int64_t ml = 0;
  bool guess = false;  // kept for seed that nobody weighed: left short before anything measured
};

// Stored serum that can be drawn on from `from` to `use_by`.
struct Lot {
  calendar::Date from;
  calendar::Date use_by;
  std::int64_t ml = 0;
};

struct BatchStep {
  std::size_t step = 0;  // index into Recipe::steps
  calendar::Date from;
  calendar::Date to;            // planned end = start of the next step
  calendar::Window ready;       // when its output is ready
  calendar::Date stands_until;  // last day its output stands well
  bool cool = false;            // the cool windows were used
  // Mean of the bucket [C] that the step was forecast for; none: by taught windows.
  std::optional<double> bucket = std::nullopt;
};

struct Batch {
  std::size_t vessel = 0;      // index into Season::vessels
  std::int64_t stored_ml = 0;  // planned product at the likely yields
  std::vector<BatchStep> steps;
  calendar::Date ready;    // planned: handed out from this day on
  calendar::Date use_by;   // ready + serum life
  bool spare = false;      // against a failed batch; nothing is planned to be drawn from it
  std::string name = {};   // "B3": its name everywhere
  bool announced = false;  // kept as an earlier plan had it

  calendar::Date start() const { return steps.front().from; }
};

// A batch that people were told of.
struct Told {
  std::string name;
  std::size_t vessel = 0;  // index into Season::vessels
  calendar::Date fill_day;
  std::int64_t stored_ml = 0;
};

// What people were told already, of an earlier plan.
struct Announced {
  std::vector<Batch> batches;  // kept as they are; their vessels and milk are taken
  // Later ones may change, but a batch that is new to people costs `change_cost` more.
  std::vector<Told> told;
  std::vector<std::string> names;  // of all batches people were told of, lost ones too
  Money change_cost;
  std::optional<calendar::Date> no_new_before;

  bool nothing() const { return batches.empty() && told.empty() && !no_new_before; }
};

// Batches of other preparations stand in this vessel on the days from..to-1, filled with so much
// milk.
struct Stand {
  std::size_t vessel = 0;  // index into Season::vessels
  calendar::Date from;
  calendar::Date to;
  std::int64_t milk_ml = 0;
  std::map<int, double> hours = {};  // of work [h], by day
};

struct BatchProblem {
  const recipe::Recipe* recipe = nullptr;  // not null; passed `recipe::check`
  const Season* season = nullptr;          // not null: vessels, places, milk, meetings, life
  std::vector<Demand> demand;              // in the order in which they are served
  std::vector<Lot> opening;                // stock in hand
  double cool_below = 0.0;                 // [C] the cool windows are used below this mean
  Readiness readiness = {};                // what forecasts go by
  double helpers_hours = 0.0;              // [h] for the group's work on a day without a meeting
  std::int64_t least_batch_ml = 0;         // no smaller batch is planned where one of it fits
  // What may befall a batch, and how many times its own cost a litre is worth that is not there on
  // its day: the allowance for failed and late batches. 0: none.
  lot_sizing::Chances chances;
  double missed_times = 0.0;
  std::optional<Volume> storage;  // what cans hold of stored serum; none: no limit
  Announced announced;            // of an earlier plan
  std::optional<int> keeps_days;  // the product; none: the season's serum life
  std::vector<Stand> taken;       // by batches of other preparations

  // Relaxations, to find out what binds; none in a real plan.
  bool milk_without_limit = false;     // as much as is wanted, on any day
  bool vessels_without_limit = false;  // never in use
  bool life_without_limit = false;     // the product keeps for good
  bool hands_without_limit = false;    // as many hours of work as are wanted
  int start_earlier_days = 0;

  // Of what is not announced yet.
  calendar::Date first_start() const {
    return std::max(season->first_start, announced.no_new_before.value_or(season->first_start)) -
           start_earlier_days;
  }
  int life_days() const {
    return life_without_limit ? 100000 : keeps_days.value_or(season->serum_life_days);
  }
};

struct Draw {
  std::size_t lot = 0;  // 0 .. opening-1: stock in hand; then the batches in order
  std::int64_t ml = 0;
};

enum class PlanMethod { baseline, dynamic_programme, price_steps, mixed_integer };

// What was proven of a plan; spares are left out. `gap` is (cost - bound) / cost, 0 for a plan
// proven best; when it is not proven that no plan leaves less short, cost and bound count what is
// missed as well.
struct Certificate {
  Money cost;   // milk, packs, labour, allowance for failed batches
  Money bound;  // no plan that leaves as little short costs less
  double gap = 0.0;
  bool least_short = true;  // proven: no plan leaves less short
};

struct BatchPlan {
  std::vector<Batch> batches;            // by start day
  std::vector<std::vector<Draw>> draws;  // one list per demand
  std::vector<std::int64_t> short_ml;    // one per demand
  int spares_missing = 0;                // spares that were wanted and did not fit
  PlanMethod method = PlanMethod::baseline;
  std::optional<Certificate> certificate;
  std::optional<Money>
      baseline_cost;  // of the baseline planner's plan, counted as in `certificate`

  std::int64_t total_short() const;
};

// Names the batches that have no name: those told of by vessel and day as they were told, the
// others "B1" and so on, in their order, without the names of `announced`.
void name_batches(const BatchProblem& problem, BatchPlan& plan);

// A planner: same problem, same plan, on every machine.
class BatchPlanner {
 public:
  virtual ~BatchPlanner() = default;
  virtual BatchPlan plan(const BatchProblem& problem) const = 0;
  // Several preparations of one season, a plan for each. As it stands here: in their order, each in
  // what the earlier ones leave.
  virtual std::vector<BatchPlan> plan_together(const std::vector<BatchProblem>& problems) const;
};

// Largest product [mL] of one batch in a vessel: its measured fill line over the fill of the
// recipe's vessel step, and no more than the step's most fill; 0 in a vessel of another kind.
std::int64_t vessel_capacity_ml(const recipe::Recipe& recipe, const Vessel& vessel);

// Smallest product [mL] of one batch that works: the least fill of the vessel step; 0 when the
// recipe has none.
std::int64_t least_working_ml(const recipe::Recipe& recipe);

// Work of one batch by day [h]: each step's on its first day, and the tasks that count for
// themselves on theirs.
std::map<int, double> work_days(const recipe::Recipe& recipe, const std::vector<BatchStep>& steps);

// Hours that the group can give on `day`; none: no limit.
std::optional<double> hours_on(const Season& season, calendar::Date day);

// How the batches of a plan stand in the way of other preparations.
std::vector<Stand> stands(const recipe::Recipe& recipe, const std::vector<Batch>& batches);

// Milk (the supply-limited input) per unit of product [L/L]; 0 when the recipe takes none.
double milk_per_product(const recipe::Recipe& recipe);

}  // namespace wheyfield::season
