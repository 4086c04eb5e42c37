// A season file: TOML in trade words. `farms_from = "farms.csv"` takes the farms from a table that
// lies beside it.
#pragma once

#include <string>

#include "cli/input.h"

namespace wheyfield::cli {

// The season with its farms in place. Refusals: those of the readers; farms-twice (both `farms` and
// `farms_from`) and farms-from-not-text (exit `problems`).
Reading<Document> read_season_file(const std::string& path);

// Puts `farms` of a table into `season`, with their places.
void take_farms(Document& season, Document farms);

}  // namespace wheyfield::cli
