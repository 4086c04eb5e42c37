// Events as one JSON text, column by column, so that zlib makes it small: what is alike stands
// side by side. Grammar and a worked example: docs/formats/journal.md, "Packed notes".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "journal/event.h"
#include "outcome/result.h"

namespace wheyfield::journal {

// A body of more members than this, or with longer names in all [bytes], stands whole instead of
// column by column: names that are written once must not grow into much when they are read.
constexpr std::size_t most_columns = 16;
constexpr std::size_t longest_names = 160;
// The packed text, and the lines of all events in it together [bytes].
constexpr std::size_t most_unpacked = std::size_t{32} << 20;

// Any events that parse_event accepts; none twice is asked for, nor an order.
std::string pack(const std::vector<const Event*>& events);

// The same events, ordered by device, counter and line. Needs memory for no more than about fifty
// times the text, whatever the text says.
// Errors, each with the place in `field`, and nothing is given: notes-too-large (details: mb),
// notes-unreadable (not JSON, or too deep), notes-member (a part is missing, unknown or of the
// wrong sort), notes-number (a number column that cannot be read, or out of range), notes-uneven
// (columns of different lengths), notes-event (an event that parse_event refuses; details: nth,
// why = its code).
outcome::Result<std::vector<Event>> unpack(std::string_view text);

}  // namespace wheyfield::journal
