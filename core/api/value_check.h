// Reads every value of an object as its declared field wants it, for what is only written down.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "api/fields.h"
#include "api/session.h"
#include "quantity/units.h"

namespace wheyfield::api {

// The problems of `check_shape`, and those of the readers of each value (see field_reader.h).
outcome::Problems check_values(const nlohmann::json& object, const Fields& fields,
                               const std::string& pointer, const quantity::UnitTable& units);

// The same for the body of a note of that kind, and what only its kind can tell:
//   reading, weight, paid-in, paid-out   say something; error note-says-nothing (details: known)
//   member, other, by, witness           are codes of at most 12 letters, digits and hyphens, for a
//                                        name stands in its own kind; error code-unreadable
//   recipe                               is one that there is; error recipe-unknown (suggestion)
//   reading    ph within the row ph-written; error ph-out-of-range (low, high), for 39 is not 3.9;
//              temperature within bucket-celsius-written; error bucket-celsius-out-of-range.
outcome::Problems check_note(const std::string& kind, const nlohmann::json& body,
                             const Fields& fields, const std::string& pointer,
                             const Session& session);

}  // namespace wheyfield::api
