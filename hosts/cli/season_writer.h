// Writes a season as the TOML that people edit: a table per part, an array of tables per list, in
// the order the members have.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace wheyfield::cli {

// Objects become [a.b], lists of objects [[a.b]], everything else `name = value`; inside a table
// plain values come first. Nulls are left out. `season` must be an object; reading the text back
// gives the same JSON.
std::string season_toml(const nlohmann::ordered_json& season);

}  // namespace wheyfield::cli
