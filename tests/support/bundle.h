// The real data tables, read once for a test: from the embedded bundle, so that no file is needed.
// Fails loudly (abort) when the tables cannot be read, for then no test means anything.
#pragma once

#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "crop/crop_table.h"
#include "embedded.h"
#include "recipe/recipe.h"
#include "reference_data/reference_data.h"

namespace wheyfield::testing {

template <class T>
T value_or_abort(outcome::Result<T> result) {
  if (!result) std::abort();
  return std::move(*result);
}

inline const reference_data::ReferenceData& bundle() {
  static const auto data =
      value_or_abort(reference_data::ReferenceData::parse(embedded::data_json()));
  return data;
}

// The value of a row of data/constants.toml.
inline double value(std::string_view id) { return bundle().constant(id).value; }

inline const crop::CropTable& crops() {
  static const auto table = value_or_abort(crop::CropTable::parse(bundle()));
  return table;
}

// The object of data/recipes/<id>.toml, to be read as it is or with a mistake planted in it.
inline nlohmann::json recipe_json(const std::string& id) {
  for (const nlohmann::json& row : bundle().section("recipes"))
    if (row.at("id") == id) return row;
  std::abort();
}

inline std::vector<std::string> recipe_ids() {
  std::vector<std::string> ids;
  for (const nlohmann::json& row : bundle().section("recipes")) ids.push_back(row.at("id"));
  return ids;
}

inline recipe::Recipe lactic_serum() {
  return value_or_abort(recipe::parse(recipe_json("lactic-serum"), "/recipe"));
}

}  // namespace wheyfield::testing
