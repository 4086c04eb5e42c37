// What is said back when something is noted that may be a slip. Nothing here stops a note.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "api/session.h"

namespace wheyfield::api {

// Notices:
//   day-far          the day lies further ahead than `note-days-ahead`, or further back than
//                    `note-days-back` (data/constants.toml); details: days, way (ahead, back)
//   code-not-noted   a farm, member, batch, vessel or plot that no note speaks of, while others of
//                    its sort are noted; details: sort, nearest ("" when none is near)
//   batch-was-lost   made or handed out of a batch that was noted lost, putrid or with coloured
//                    mould; details: signs (ids)
//   money-without-currency   while no season says in which currency
// Fields point into the request of journal.add: /on, /body/farm.
outcome::Problems note_doubts(const Session& session, const std::string& kind,
                              const nlohmann::json& body, calendar::Date on);

}  // namespace wheyfield::api
