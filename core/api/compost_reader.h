// Reads what goes into a heap: texts of the command line ("100 kg cattle-manure at 65 %") and rows
// of a table of ingredients.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "api/fields.h"
#include "api/session.h"
#include "compost/ingredient.h"

namespace wheyfield::api {

// One ingredient as it was asked for.
struct HeapPart {
  std::string id;                            // of the table, or the trainer's own name
  const compost::Ingredient* row = nullptr;  // null: her own
  compost::Contents what;
  // With the C:N at the ends of its row; the same as `what` where she gave her own numbers.
  compost::Contents at_low, at_high;
  bool cut = false;          // nitrogen x C:N was cut to compost-carbon-most
  std::optional<double> kg;  // fixed; else to be worked out between the bounds
  double at_least = 0.0;     // [kg]
  std::optional<double> at_most;
  std::optional<double> price;  // for 1 kg
  std::string pointer;          // where it stands in the request
};

// Of one row of `ingredients`.
const Fields& heap_ingredient_fields();

// All of `put` (amounts that are there), `add` (to be worked out; an amount is the most there is)
// and `ingredients`. Errors: ingredient-unknown (details: known, suggestion), ingredient-twice,
// compost-carbon-impossible (details: carbon, limit), compost-moisture-impossible,
// compost-nitrogen-out-of-range,
// compost-density-out-of-range, compost-kg-out-of-range, compost-bounds-crossed (details: limit),
// compost-amount-and-bounds, compost-part-unreadable, compost-density-missing (litres of what has
// no loose weight; details: ingredient), and those of the readers of numbers.
std::vector<HeapPart> read_heap_parts(const Session& session, const compost::IngredientTable& table,
                                      const nlohmann::json& body, outcome::Problems& problems);

}  // namespace wheyfield::api
