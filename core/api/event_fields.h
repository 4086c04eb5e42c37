// The fields of what is written down, by the kind of event.
#pragma once

#include <string_view>
#include <vector>

#include "api/fields.h"

namespace wheyfield::api {

// Null when the kind is not known. For the kinds of the season file: its fields, of which an event
// needs only those that say what it is about.
const Fields* event_fields(std::string_view kind);

std::vector<const Fields*> all_event_fields();

// A list of the season body and the kind of event of each of its rows; `farms` hold `fields`, which
// are of the kind "field".
struct SeasonSection {
  std::string_view name;  // "vessels"
  std::string_view kind;  // "vessel"
  bool list = true;       // else one object
};
const std::vector<SeasonSection>& season_sections();

}  // namespace wheyfield::api
