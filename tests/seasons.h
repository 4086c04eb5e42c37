// The season files of examples/, as JSON with dates as text, for tests that must run without
// files. Written by tools/bundle.py at build time.
#pragma once

#include <string_view>

namespace wheyfield::seasons {

// examples/<name>.toml: the "season" of the facade's season.plan. Empty when there is none.
std::string_view season_json(std::string_view name);

}  // namespace wheyfield::seasons
