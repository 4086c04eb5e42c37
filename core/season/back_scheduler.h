// The baseline planner: works back from each hand-out to the latest safe start.
//
// Demands are served in order of their collecting day, soonest-to-expire stock first. What is not
// in stock is added to batches already planned that still keep, soonest to expire first, up to what
// vessel and milk allow; then brewed: among all vessels and milk days the batch with the latest
// start that is ready in time by the LATE end of every window, does not overstay any step, fits its
// vessel, its milk and the serum life; ties go to the larger batch, then the vessel named first.
// Products are rounded up to half litres. When nothing brewed for a demand would keep until its
// last use, more of an earlier batch is tried that frees a fresher one (at most 400 trials a plan).
// A plan that stays short is worked out again with its first batch on an earlier day, as long as
// that changes the order in which a vessel is filled; the least short plan counts, the first found
// among equals; half litres are added to any batch that then leaves less short. One spare batch for
// each so many is added where it fits, never in the way of a planned one. What cannot be served
// stays short; nothing is moved or shrunk silently. No optimum is claimed.
#pragma once

#include "season/batch_plan.h"

namespace wheyfield::season {

class BackScheduler : public BatchPlanner {
 public:
  BatchPlan plan(const BatchProblem& problem) const override;
};

}  // namespace wheyfield::season
