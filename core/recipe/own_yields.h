// What a group's own batches say of a recipe's measured yields.
//
// The recipe's range spans what is taught everywhere. In logarithms of the yield over the likely
// one, a batch is off by a part of its place and a part of its own, w and 1 - w of the variance
// that the range stands for (constant yield-place-share, an assumption). After n own batches whose
// mean logarithm is m, with k = n w / (n w + 1 - w) (Buehlmann's credibility, memory):
//   likely' = likely e^(k m)
//   low'    = likely' (low / likely)^f,  high' = likely' (high / likely)^f,
//   f^2     = 1 - w + w (1 - k)
// So without batches the recipe's own range stands, it never widens, and the part of the single
// batch remains however many there are.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "recipe/recipe.h"

namespace wheyfield::recipe {

// A yield that is measured, from the step in the season vessel on, and what it is measured against.
struct MeasuredYield {
  std::size_t step;
  std::size_t flow;  // in the step's `gives`
  std::string of;    // the material, going back over flows that nobody measures: milk
  double per_of;     // of the step's basis for each unit of it
};

// Of liquids from liquids, in the order of the recipe. Precondition: `check` found nothing.
std::vector<MeasuredYield> measured_yields(const Recipe& recipe);

const Flow& flow_of(const Recipe& recipe, const MeasuredYield& yield);

// The ratio at which the output weighs as much as all that the step takes, at its most: more is a
// slip of the pen.
double most_ratio(const Recipe& recipe, const MeasuredYield& yield);

struct LearnedYield {
  MeasuredYield yield;
  double value;  // likely, per unit of the step's basis; low and high the same
  double low;
  double high;
  int batches;  // that it rests on
};

// From the ratios of own batches, each above 0 and up to `most_ratio`; none gives the recipe's own.
LearnedYield learned_yield(const Recipe& recipe, const MeasuredYield& yield,
                           const std::vector<double>& ratios, double place_share);

// The recipe with what was learned in place of what is taught, each computed here.
Recipe with_yields(Recipe recipe, const std::vector<LearnedYield>& learned);

}  // namespace wheyfield::recipe
