// Looks over a TOML text before the library parses it: nesting so deep that a recursive parser
// would run out of stack is refused here.
#pragma once

#include <cstddef>
#include <string_view>

namespace wheyfield::cli {

constexpr int deepest_nesting = 32;

// The offset where brackets, or the parts of one dotted key, nest deeper than `deepest_nesting`;
// npos when they never do. Strings and comments do not count.
std::size_t too_deep_at(std::string_view toml);

}  // namespace wheyfield::cli
