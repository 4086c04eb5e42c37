// Reading the tables of a recipe: words out of a list, lists of texts, rows with their pointers.
#pragma once

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "outcome/result.h"
#include "reference_data/sourced.h"

namespace wheyfield::recipe {

template <class E>
using Names = std::vector<std::pair<const char*, E>>;

// The value of the word that stands at `member`. Errors: data-missing, recipe-word-unknown with the
// words that are known; the first of `names` is given then.
template <class E>
E read_word(const nlohmann::json& row, const char* member, const Names<E>& names,
            const std::string& field, outcome::Problems& problems) {
  const auto text =
      take_or<std::string>(reference_data::read_string(row, member, field), "", problems);
  std::string known;
  for (const auto& [name, value] : names) {
    if (text == name) return value;
    known += (known.empty() ? "" : ", ") + std::string(name);
  }
  if (!text.empty())
    problems.push_back({"recipe-word-unknown", field + "/" + member, text, {{"known", known}}});
  return names.front().second;
}

// The texts of a list; what is no text is left out, and so is a list that is not there.
inline std::vector<std::string> read_strings(const nlohmann::json& row, const char* member) {
  std::vector<std::string> texts;
  if (row.is_object() && row.contains(member))
    for (const nlohmann::json& text : row[member])
      if (text.is_string()) texts.push_back(text.get<std::string>());
  return texts;
}

// Whole days; a part of a day is refused, never cut off. The bound only keeps the number an int.
// Errors: data-missing, not-a-count.
inline int read_days(const nlohmann::json& row, const char* member, const std::string& field,
                     outcome::Problems& problems) {
  const double days = take_or(reference_data::read_number(row, member, field), 0.0, problems);
  if (std::abs(days) <= 1e6 && days == std::floor(days)) return static_cast<int>(days);
  problems.push_back({"not-a-count", field + "/" + member, row[member].dump(), {}});
  return 0;
}

// Calls `read` with each item of the list `member` and its pointer.
template <class Read>
void each(const nlohmann::json& row, const char* member, const std::string& field, Read read) {
  if (!row.is_object() || !row.contains(member) || !row[member].is_array()) return;
  std::size_t at = 0;
  for (const nlohmann::json& item : row[member])
    read(item, field + "/" + member + "/" + std::to_string(at++));
}

}  // namespace wheyfield::recipe
