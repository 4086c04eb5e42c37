// An independent judge of plans: it knows the constraints, not how a plan was found.
//
// Problems (code, field = pointer into the plan):
//   plan-starts-too-early     a step before the first day on which work may start
//   plan-steps-broken         steps out of order, with a gap, or not those of the recipe
//   plan-dwell-short / plan-dwell-long   a step ends before its late end or overstays
//   plan-window-wrong         a ready window that is not the dwell's
//   plan-never-ready          a forecast step that the forecast never calls ready
//   plan-group-day            the group's work after the vessel step on a day without a meeting,
//                             though one comes before the batch overstays
//   plan-vessel-unknown / plan-vessel-overfull / plan-vessel-underfull / plan-vessel-kind /
//   plan-vessel-busy
//   plan-hands-over           more hours of work on a day than the group can give
//   plan-milk-over            more milk than can be had on a day, or on a day without milk
//   plan-ready-wrong / plan-life-wrong
//   plan-lot-overdrawn        more drawn than a lot holds
//   plan-draw-early / plan-draw-expired / plan-draw-negative / plan-draw-from-spare
//   plan-demand-unbalanced    drawn + short is not what is due
#pragma once

#include "outcome/result.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

// Empty when the plan keeps every constraint of the problem (relaxations are not honoured).
outcome::Problems check_plan(const BatchProblem& problem, const BatchPlan& plan);

// Of preparations planned together: each for itself, and what they share. The fields of the first
// as above, of the others below /preparations/<i>.
outcome::Problems check_plans(const std::vector<BatchProblem>& problems,
                              const std::vector<BatchPlan>& plans);

}  // namespace wheyfield::season
