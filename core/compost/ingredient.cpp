#include "compost/ingredient.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace wheyfield::compost {

using nlohmann::json;
using outcome::Problems;
using outcome::take_or;
using reference_data::Sourced;

namespace {

double end_of(const Sourced& row, Ingredient::End end) {
  if (end == Ingredient::End::low) return row.low;
  return end == Ingredient::End::high ? row.high : row.value;
}

}  // namespace

Contents Ingredient::contents(double carbon_most, End end) const {
  const double carbon = ratio ? nitrogen.value * end_of(*ratio, end) : 0.0;
  return {nitrogen.value, std::min(carbon, carbon_most), moisture.value,
          density ? std::optional(density->value) : std::nullopt};
}

bool Ingredient::is_cut(double carbon_most) const {
  return ratio && nitrogen.value * ratio->value > carbon_most;
}

outcome::Result<IngredientTable> IngredientTable::parse(const reference_data::ReferenceData& data) {
  IngredientTable table;
  Problems problems;
  for (const json& row : data.section("compost")) {
    const std::string field = "/data/compost/" + std::to_string(table.rows_.size());
    const auto number = [&](const char* member) {
      const json cell = row.is_object() ? row.value(member, json()) : json();
      return take_or(reference_data::read_sourced(cell, field + "/" + member), Sourced{}, problems);
    };
    const auto may = [&](const char* member) {
      const bool there = row.is_object() && row.contains(member);
      return there ? std::optional(number(member)) : std::nullopt;
    };
    table.rows_.push_back(
        {take_or<std::string>(reference_data::read_string(row, "id", field), "", problems),
         number("nitrogen"), may("ratio"), number("moisture"), may("density"),
         row.is_object() && row.value("manure", false)});
  }
  if (table.rows_.empty())
    problems.push_back({"data-missing", "/data/compost", "", {{"member", "compost"}}});
  if (!problems.empty()) return outcome::failure(problems);
  return table;
}

const Ingredient* IngredientTable::find(const std::string& id) const {
  const auto found =
      std::find_if(rows_.begin(), rows_.end(), [&](const Ingredient& row) { return row.id == id; });
  return found == rows_.end() ? nullptr : &*found;
}

double moisture_of_sample(double wet, double dry) { return 100.0 * (wet - dry) / wet; }

}  // namespace wheyfield::compost
