// Reads a text file with every refusal said: where, what was expected, what to do.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "cli/input.h"

namespace wheyfield::cli {

constexpr std::uintmax_t largest_file = std::uintmax_t{32} << 20;

// The whole text, without a byte order mark. Refuses, with exit code `unreadable`: file-missing,
// file-is-folder, file-unreadable, file-too-large (by its size, before reading), file-empty
// (nothing but blanks), file-not-utf8 (names line and column).
Reading<std::string> read_text_file(const std::string& path, std::uintmax_t limit = largest_file);

// Line and column (in characters, from 1) of a byte offset.
Place place_of(std::string_view text, std::size_t offset, const std::string& file);

// The text of one line (from 1), without its end.
std::string line_of(std::string_view text, int line);

}  // namespace wheyfield::cli
