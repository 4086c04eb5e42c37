// The text file that carries notes from phone to phone: lines for people, and a block that programs
// read. Text only; the host packs and unpacks the bytes (zlib). Format: docs/formats/journal.md.
//
//   out: text = pack(events); compose(lines, {events.size(), deflate(text), crc32_of(text)})
//   in:  part = split(file);  text = inflate(part.bytes, most_unpacked);  check(part, text)
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "journal/event.h"
#include "outcome/result.h"

namespace wheyfield::journal {

struct TeamFilePart {
  std::size_t count = 0;  // of notes
  std::string bytes;      // packed: zlib, RFC 1950
  std::uint32_t crc = 0;  // of the text before it was packed
};

// A line for people that looks like a border of the block gets a ". " before it.
std::string compose(const std::vector<std::string>& lines_for_people, const TeamFilePart& part);

// Finds the block in whatever a chat program made of the file: other line ends, a byte order mark,
// blanks before and after lines, empty lines, text before and after. What it says about itself is
// not believed but compared.
// Errors: team-file-no-block, team-file-quoted (marks before the first line, as in an answer),
// team-file-two-blocks, team-file-cut-off, team-file-changed, team-file-format-newer (details:
// format).
outcome::Result<TeamFilePart> split(std::string_view text);

// The events, when the unpacked text is what the file was made of.
// Errors: team-file-changed; those of unpack.
outcome::Result<std::vector<Event>> check(const TeamFilePart& part, std::string_view unpacked);

// For the host, when the bytes cannot be unpacked, and when they are more than most_unpacked.
outcome::Problem team_file_changed();
outcome::Problem team_file_too_large();

}  // namespace wheyfield::journal
