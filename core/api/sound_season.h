// The season of a request, read and found ready to be planned.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "api/season_reader.h"
#include "api/session.h"
#include "recipe/recipe.h"

namespace wheyfield::api {

struct SoundSeason {
  ReadSeason read;
  const recipe::Recipe* recipe;  // not null
};

// The body's `season`, or without one the season that the journal tells. Errors: those of
// `read_season`, recipe-unknown and what is wrong with the recipe, stock-item-unknown, stock-unit,
// nothing-recorded, wrong-shape.
outcome::Result<SoundSeason> sound_season(const Session& session, const nlohmann::json& body);

}  // namespace wheyfield::api
