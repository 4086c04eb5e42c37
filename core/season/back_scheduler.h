// The baseline planner: works back from each hand-out to the latest safe start.
//
// Demands are served in order of their collecting day, oldest stock first. What is not in stock is
// brewed: among all vessels and milk days the batch with the latest start that is ready in time by
// the LATE end of every window, does not overstay any step, fits its vessel, its milk and the serum
// life; ties go to the larger batch, then the vessel named first. A batch also takes along later
// demand within the serum life, up to what vessel and milk allow. The product is rounded up to half
// litres. When nothing brewed for a demand would keep until its last use, an earlier batch is tried
// that frees a fresher one (at most 400 trials a plan). One spare batch for each so many is added
// where it fits, never in the way of a planned one. What cannot be served stays short; nothing is
// moved or shrunk silently.
#pragma once

#include "season/batch_plan.h"

namespace wheyfield::season {

class BackScheduler : public BatchPlanner {
 public:
  BatchPlan plan(const BatchProblem& problem) const override;
};

}  // namespace wheyfield::season
