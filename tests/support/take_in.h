// A team file taken in as a host does it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/deflate.h"
#include "journal/crc32.h"
#include "journal/packed_notes.h"
#include "journal/team_file.h"

namespace wheyfield::testing {

inline outcome::Result<std::vector<journal::Event>> take_in(std::string_view file) {
  const auto part = journal::split(file);
  if (!part) return outcome::failure(part.error());
  const auto inflated = cli::inflate(part->bytes, journal::most_unpacked);
  if (!inflated) return outcome::failure(journal::team_file_changed());
  if (inflated->too_large) return outcome::failure(journal::team_file_too_large());
  return journal::check(*part, inflated->text);
}

inline std::string team_file(const std::vector<const journal::Event*>& events) {
  const std::string text = journal::pack(events);
  return journal::compose({"Notes of the Reedwater group"},
                          {events.size(), cli::deflate(text), journal::crc32_of(text)});
}

}  // namespace wheyfield::testing
