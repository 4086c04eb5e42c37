// What a recipe says of its finished input, as fields and as blocks of a page: strengths by source,
// keeping, signs, days before harvest, what was measured in it.
#pragma once

#include <optional>

#include "api/session.h"
#include "recipe/recipe.h"
#include "sheet/page.h"

namespace wheyfield::api {

// What she asked: the day of the last use, and the days of her local rule.
struct AskedHarvest {
  std::optional<calendar::Date> last_used;
  std::optional<int> local_days;
};

// Puts strength, dilutions, dilution_spread, keeping, signs, contents, ph, harvest and
// earliest_harvest into `fields`.
void put_use(Json& fields, const Session& session, const recipe::Recipe& recipe,
             const AskedHarvest& asked);

void add_use(sheet::Page& page, const Session& session, const recipe::Recipe& recipe,
             const AskedHarvest& asked);

}  // namespace wheyfield::api
