// A dose that is asked for a farm of the journal: what is not said is taken from what was measured.
#pragma once

#include <string_view>

#include <nlohmann/json.hpp>

#include "api/session.h"

namespace wheyfield::api {

// `body` of a dose action, its members `farm` and `nth` taken off and, where they are missing, filled:
//   dose.mix      water (the sprayer's tank of a knapsack, else the can), cap, strength
//   dose.sprayer  tank, cap, strength
//   dose.plot     rate, strength
//   dose.soak     seed_is, mass, sowing of the farm's field of `crop`, strength
//   dose.harvest  last_use, on, method of the latest use noted on that field, strength
// A body without `farm` comes back as it is. What the journal does not know stays missing, and the
// action asks for it. Error: farm-not-recorded.
outcome::Result<nlohmann::json> with_recorded(const Session& session, std::string_view action,
                                              nlohmann::json body);

}  // namespace wheyfield::api
