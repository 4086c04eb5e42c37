// Many things said at once, against what is known: what is new, what changes, what stays.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/recorder.h"
#include "journal/fold.h"
#include "journal/kinds.h"

namespace wheyfield::api {

// One member of one thing that is said anew.
struct Change {
  std::string kind;
  std::string about;  // the identity, or the id of a corrected note
  std::string member;
  std::string was;  // "" = nothing was said
  std::string now;
};

struct Import {
  std::vector<Change> changes;  // of things that were known
  int fresh = 0;                // things that were not known
  int same = 0;                 // things of which nothing new is said
};

// Of a kind that folds to the latest: notes in `recorder` the members of `body` that differ from
// the facts, with those of the identity, and counts in `import`. What `body` leaves out stays.
void note_what_is_new(const journal::Kind& kind, const std::string& identity, nlohmann::json body,
                      const journal::Facts& facts, calendar::Date on, Recorder& recorder,
                      Import& import);

}  // namespace wheyfield::api
