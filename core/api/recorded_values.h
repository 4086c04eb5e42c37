// A dose that is asked for a farm of the journal: what is not said is taken from what was measured.
#pragma once

#include <optional>
#include <string_view>

#include <nlohmann/json.hpp>

#include "api/session.h"

namespace wheyfield::api {

// `body` of a dose action, its members `farm` and `nth` taken off and what is missing
// filled:
//   dose.mix      water (the sprayer's tank of a knapsack, else the can), cap, strength
//   dose.sprayer  tank, cap, strength
//   dose.plot     rate, strength
//   dose.soak     seed_is, mass, sowing of the farm's field of `crop`, strength
//   nutrients.balance  area of the farm's field of `crop`
//   dose.harvest  last_use, on, method of the latest use noted on that field, strength
// Nothing for an action or a body without `farm`. What the journal does not know stays missing, and
// the action asks for it. Error: farm-not-recorded.
outcome::Result<std::optional<nlohmann::json>> with_recorded(const Session& session,
                                                             std::string_view action,
                                                             const nlohmann::json& body);

}  // namespace wheyfield::api
