// UTF-8 as the host needs it: validity, width in characters, text safe for a terminal.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace wheyfield::cli {

// The offset of the first byte that is not part of well-formed UTF-8 (no overlong forms, no
// surrogates, nothing above U+10FFFF); npos when all is well.
std::size_t first_bad_byte(std::string_view text);

// Columns on a terminal, counted as characters (code points): right for the scripts without
// double-width signs.
std::size_t width(std::string_view text);

// Control characters, which could move the cursor or change colours, become "?".
std::string printable(std::string_view text);

// At most `most` characters, the last one "…" when something was cut.
std::string shortened(std::string_view text, std::size_t most);

}  // namespace wheyfield::cli
