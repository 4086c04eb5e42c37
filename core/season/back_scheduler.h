// The baseline planner: works back from each hand-out to the latest safe start.
//
// Demands are served in the order given, soonest-to-expire stock first. What is not in stock is
// added to batches already planned that still keep, soonest to expire first, up to what vessel and
// milk allow; then brewed: among all vessels and milk days the batch with the latest start that is
// ready in time by the LATE end of every window, does not overstay any step, fits its vessel, its
// milk and the serum life; ties go to the larger batch, then the vessel named first. Products are
// rounded up to half litres, or are all that vessel and milk hold.
//
// What stays short is looked at again, all stock shared out anew for each trial (at most 400 trials
// a plan): larger and further batches, latest fill day first; then the same with every batch as
// early as it can be without more getting short, which brings the idle days of a vessel together;
// then half a litre more in any batch. A plan that stays short is worked out again with its first
// batch on an earlier day, as long as that changes the order in which a vessel is filled; the least
// short plan counts, the first found among equals. What nothing is drawn from is taken out. One
// spare batch for each so many is added where it fits, never in the way of a planned one. What
// cannot be served stays short; nothing is moved or shrunk silently. No optimum is claimed.
#pragma once

#include "season/batch_chain.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

class BackScheduler : public BatchPlanner {
 public:
  BatchPlan plan(const BatchProblem& problem) const override;
};

// The same without spares.
BatchPlan back_scheduled(const BatchProblem& problem, ChainTable& chains);

}  // namespace wheyfield::season
