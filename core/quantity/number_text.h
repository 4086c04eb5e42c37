// Numbers as people write them, read without ever changing their size.
//
// Accepts: `12.5`, `12,5`, `1 234,5` (space, no-break space, narrow space or apostrophe as group
// mark), `1,234.5`, `1.234,5`, fractions `1/2`, `1 1/2`, `½`, local digits (Arabic-Indic, Persian,
// Devanagari, Bengali, Latin full width), a leading minus sign.
// One mark followed by exactly three digits (`1,234`, `1.234`) could be a thousand or a decimal:
// refused as "number-ambiguous" unless the whole part is 0 (`0.125`). `3..2`, empty text and
// letters are refused as "number-unreadable". Nothing is ever read as ten times another value.
#pragma once

#include <string_view>

#include "outcome/result.h"

namespace wheyfield::quantity {

// Errors: number-unreadable, number-ambiguous (field empty, value = the text).
outcome::Result<double> parse_number(std::string_view text);

// Splits "12,5 kg" into the number text "12,5" and the unit text "kg" (both trimmed).
struct NumberAndUnit {
  std::string_view number;
  std::string_view unit;
};
NumberAndUnit split_unit(std::string_view text);

std::string_view trimmed(std::string_view text);

}  // namespace wheyfield::quantity
