// Writes a file whole or not at all.
#pragma once

#include <string>

namespace wheyfield::cli {

// Writes beside `path` under a passing name, then renames. False when anything failed; what stood
// at `path` is then still as it was.
bool write_file(const std::string& path, const std::string& text);

// Takes away what `write_file` has under way. Safe inside a signal handler.
void remove_unfinished_file();

}  // namespace wheyfield::cli
