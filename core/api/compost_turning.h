// The taught turning calendar, as the data hold it.
#pragma once

#include "api/session.h"
#include "compost/turning.h"

namespace wheyfield::api {

// Rows compost-first-turn, compost-turn-every, compost-turn-count and compost-ready-day, noted in
// answer.used.
compost::TurningPlan turning_plan(const Session& session, Answer& answer);

}  // namespace wheyfield::api
