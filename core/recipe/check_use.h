// Can what a recipe says of its finished input be? Bulletins print numbers that cannot.
#pragma once

#include "outcome/result.h"
#include "recipe/recipe.h"
#include "reference_data/reference_data.h"

namespace wheyfield::recipe {

struct UseLimits {        // from the data:
  Sourced own_leaves;     // leaf-strength-limit-parts: strongest that a recipe itself goes by
  Sourced taught_leaves;  // leaf-dilution-limit-parts: strongest that is believed of a source
  Sourced nitrogen;       // nitrogen-limit-percent: protein holds no more [% of weight]
  Sourced ph;             // ferment-ph-limits: low .. high of what a ferment can reach

  static UseLimits of(const reference_data::ReferenceData& data);
};

// Every problem found, empty when it can be. Field pointers start at the recipe object, rows
// counted as in the file.
//   recipe-too-strong           the recipe's own strength on leaves is stronger than `own_leaves`
//   recipe-dilution-impossible  a row on leaves stronger than `taught_leaves`, or any row below 1
//                               part of water
//   recipe-nitrogen-impossible  more nitrogen than protein holds
//   recipe-ph-impossible        a pH, also of a forecast, that no ferment reaches
//   recipe-keeping-own          a keeping that is nobody's but ours
//   recipe-impossible           days of keeping or before harvest outside 0..3650, strength below 1
outcome::Problems check_use(const Recipe& recipe, const UseLimits& limits);

}  // namespace wheyfield::recipe
