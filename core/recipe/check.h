// Does a recipe make sense? Everything that can be seen without making it once.
#pragma once

#include "outcome/result.h"
#include "recipe/recipe.h"

namespace wheyfield::recipe {

// Part of the mass entering a step that may go unaccounted for. A judgement, and no number of the
// trade: volumes and densities are rounded in the sources.
constexpr double mass_tolerance = 0.02;

// Every problem found, empty when sound. Field pointers start at the recipe object.
//   recipe-material-unknown   a flow names a material that is not listed
//   recipe-cycle              a step needs what only a later step (or itself) gives
//   recipe-never-made / recipe-never-used / recipe-made-twice
//   recipe-mass-balance       more mass leaves a step than enters, beyond `mass_tolerance`, or less
//                             and no flow is marked `remainder`
//   recipe-yield-above-inputs the high end of a measured yield weighs more than the most that goes
//   in recipe-vessel-missing     litres stand for days and the step names no vessel
//   recipe-range-missing      a measured yield without a range (low = high)
//   recipe-impossible         ratio <= 0, density outside 0.2..3 kg/L, dwell above 400 days or out
//                             of order, labour of a step or task below 0, a least fill of
//                             nothing, a page for no product, a letter that is not one of A .. Z
//   recipe-fill-limit         fill fraction outside (0, 1], or a vessel step without one
//   recipe-fate-missing       a by-product without a recorded fate
//   recipe-density-missing    a material in L without density
outcome::Problems check(const Recipe& recipe);

}  // namespace wheyfield::recipe
