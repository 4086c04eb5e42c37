// The plan as work on days: what the recipe asks around each step, hand-outs and uses in the field.
#pragma once

#include <vector>

#include "season/plan.h"

namespace wheyfield::season {

// The market day, tasks of every batch from the recipe's templates, hand-outs and uses; by date.
// Group work that falls on a day without a meeting is given to `Who::helpers`, with a task at the
// meeting before to agree who helps.
std::vector<Task> tasks(const Season& season, const recipe::Recipe& recipe, const SeasonPlan& plan);

// To the gram or millilitre below 20, to a tenth below 100, whole above: a heap is not weighed.
words::Decimal shown_amount(double amount);

// Amounts of one batch by material name ({milk}, {molasses}, ...), with {batch}, {vessel}, {place},
// {farm}, {stored}: what the sentences of a recipe's tasks may name.
words::Values batch_values(const Season& season, const recipe::Recipe& recipe, const Batch& batch);

}  // namespace wheyfield::season
