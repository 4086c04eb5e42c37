// A spare batch for each so many planned ones, never in the way of a planned one.
#pragma once

#include "season/batch_chain.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

// Adds a spare for each `batches_per_spare` planned batches, in the order of their start: as large
// as the largest of them, with the latest start that is ready by their first hand-out, else the
// soonest after it that comes by their last. Counts in `spares_missing` those that have no place.
void add_spares(const BatchProblem& problem, ChainTable& chains, BatchPlan& plan);

}  // namespace wheyfield::season
