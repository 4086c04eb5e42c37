// The season file and the journal: a season body becomes events, and facts become a season body.
//
// A body that is imported into an empty journal comes back as it was, but that numbers are texts.
#pragma once

#include <map>
#include <string>

#include <nlohmann/json.hpp>

#include "api/import.h"
#include "calendar/date.h"
#include "journal/fold.h"
#include "outcome/result.h"

namespace wheyfield::api {

// The season body that the facts tell: its sections, and besides
//   - what was seen of a field (kind `seen`) as its emerged_on, flower_or_swelling_on,
//   first_fruit_on,
//   - who stayed away (kind `attendance`, came no) as absences of the member's farm,
//   - a farm whose people have all left (kinds `left`, `joined`) by `today` without fields.
//   - without vessels that stand at a farm that is not there, or whose people have all left.
struct SeasonTold {
  nlohmann::json body;  // without members when nothing of a season was said
  std::map<std::string, const journal::Item*> rows;  // pointer into the body -> what tells it
  outcome::Problems notices;                         // vessel-without-farm (details: at)
};
SeasonTold season_told(const journal::Facts& facts, calendar::Date today);

// Problems of that body, their fields pointing at the notes that say it: "/notes/KOBO-12/area".
outcome::Problems at_their_notes(const SeasonTold& told, outcome::Problems problems);

// Notes in `recorder` what `body` says and the facts do not. What the body leaves out stays as it
// is: an import takes nothing away. Error: row-twice (two rows of a list about one thing; details:
// first = the pointer of the first).
outcome::Result<Import> import_season(const nlohmann::json& body, const journal::Facts& facts,
                                      calendar::Date on, Recorder& recorder);

}  // namespace wheyfield::api
