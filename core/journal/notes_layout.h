// What pack and unpack must agree on.
#pragma once

#include <array>
#include <cstdint>

#include <nlohmann/json.hpp>

#include "journal/packed_notes.h"

namespace wheyfield::journal {

constexpr std::array<const char*, 6> number_columns{"counter", "at", "count", "on", "utc", "shape"};

// The civil day on the wall clock of a device [days since 1970].
inline std::int64_t wall_clock_day(std::int64_t seconds, std::int64_t utc_offset_min) {
  const std::int64_t wall = seconds + utc_offset_min * 60;
  return wall >= 0 ? wall / 86400 : -((86399 - wall) / 86400);
}

// May a body with these members stand column by column?
inline bool fits_columns(const nlohmann::json& body) {
  if (!body.is_object() || body.size() > most_columns) return false;
  std::size_t bytes = 0;
  for (const auto& [name, value] : body.items()) bytes += name.size();
  return bytes <= longest_names;
}

}  // namespace wheyfield::journal
