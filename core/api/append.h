// Facts enter a session here.
#pragma once

#include "api/session.h"

namespace wheyfield::api {

// `request` = {"events": [event objects]}. All are read before one is taken. The answer: `added`,
// `known` (were there before), `clashes` (another event has their id; both are kept) and `blank`:
// all events with the ids of those whose bodies a `forget` or another phone has taken, now or
// before, as they stand: for the host to put in the place of what it stores under these ids.
// Errors: wrong-shape, those of journal::parse_event under /events/<i>.
outcome::Result<Answer> append_events(Session& session, const nlohmann::json& request);

// The events of a request, read. Errors as above.
outcome::Result<std::vector<journal::Event>> read_events(const nlohmann::json& request);

// The heads of what would be blanked, and is not yet to be, if these events were added.
std::vector<journal::Event> would_blank(const Session& session,
                                        const std::vector<journal::Event>& events);

// The facts of a set of events, with the limits of the data; the group's questions are among
// theirs.
journal::Facts facts_of(const journal::EventSet& events, const reference_data::ReferenceData& data);

}  // namespace wheyfield::api
