// One group's season, planned as if it met on another weekday: what it costs and what it needs.
//
// The same season with its meetings moved to that weekday; the days on which nobody meets stay as
// they are, for a holiday is a date. Planned as a season plan is, without the simulated seasons and
// without the search for what binds and for an earlier start, which say nothing about costs. With a
// solver what this leaves open is tried again with it, and the better plan stands.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "crop/crop_table.h"
#include "lot_sizing/mip.h"
#include "outcome/result.h"
#include "programme/worth.h"
#include "recipe/recipe.h"
#include "reference_data/reference_data.h"
#include "season/batch_plan.h"
#include "season/gather.h"
#include "season/season.h"

namespace wheyfield::programme {

// A bought input over the whole season.
struct GroupNeed {
  std::string item;
  std::string unit;
  double amount = 0.0;
  double in_hand = 0.0;
};

// Of an input, on the day on which a batch takes it [mL].
struct DatedNeed {
  calendar::Date on;
  std::int64_t ml = 0;
};

// A plan that went to the solver.
struct HandedOver {
  double gap = 0.0;          // of the plan before
  bool least_short = false;  // as it was proven before
  bool better = false;       // the solver's plan leaves less short or costs less
};

struct DayPlan {
  calendar::Weekday weekday = calendar::Weekday::monday;
  Worth worth;  // short litres and cost of the plan; `moved` stays 0
  season::Certificate proven;
  std::optional<HandedOver> handed_over;
  int batches = 0;
  std::optional<calendar::Date> first_start;
  std::int64_t made_ml = 0;
  std::vector<GroupNeed> needs;     // in the recipe's order
  std::vector<DatedNeed> molasses;  // by day, what is not in hand
};

constexpr double near_best = 0.001;  // a gap above it goes to the solver

// A plan is handed to `solver`, if there is one, when its gap is above `near_best` or it is not
// proven that nothing can be left less short. Limits are counts of nodes, so the same plan each
// time; the plan is never worse than without.
// Errors: those of `season::due_season` and of `season::shopping`; a plan that the checker refuses.
outcome::Result<DayPlan> plan_meeting_on(calendar::Weekday weekday, season::Season season,
                                         const recipe::Recipe& recipe, const crop::CropTable& crops,
                                         const reference_data::ReferenceData& data,
                                         const season::PlanRules& rules,
                                         reference_data::UsedSources& used,
                                         const lot_sizing::MipSolver* solver = nullptr);

// The material that the lorry brings.
constexpr const char* lorry_item = "molasses";

// The days on which a group must have its next full can, the first can first: `size_ml` > 0.
std::vector<calendar::Date> full_cans(const std::vector<DatedNeed>& needs, std::int64_t size_ml);

}  // namespace wheyfield::programme
