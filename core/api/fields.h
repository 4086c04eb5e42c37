// The fields of every request, declared once: reading, `schema`, TypeScript types and documents all
// follow from here.
#pragma once

#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "outcome/result.h"

namespace wheyfield::api {

// What a field holds. Scalars are written as text with their unit ("0.5 acre"); a bare JSON number
// counts as its text.
enum class Holds {
  text,
  number,
  money,
  volume,
  area,
  length,
  mix_per_area,
  strength,
  date,
  month,
  weekday,
  days,
  one_in,
  pack,
  flag,
  choice,
  size_by_size,
  object,
  list,
  texts,
  mass
};

struct Fields;

struct Field {
  std::string_view name;
  Holds holds = Holds::text;
  bool required = false;
  std::string_view choices = "";  // of a choice, joined by "|"
  // Of an object, or of each object of a list. An object without is checked elsewhere.
  const Fields* inner = nullptr;
};

// The word of a kind, such as "mix-per-area".
std::string_view holds_name(Holds holds);

struct Fields {
  std::string_view name;  // of the type, e.g. "Farm"
  std::vector<Field> fields;
};

// The body {"season": ...} of season.plan and season.check.
const Fields& season_fields();
// A row of monthly means {month, min, max} and one of daily readings {date, min, max}.
const Fields& month_fields();
const Fields& reading_fields();

// The body of season.change.
const Fields& season_change_fields();

// The body of an action that declares its fields as one table (the doses); else nullptr. Hosts
// build their options from it.
const Fields* fields_of(std::string_view action);

// Checks names, presence and shape of everything in `body`; values are read elsewhere.
// Problems: key-unknown (details: suggestion, known), missing (severity error), wrong-shape,
// choice-unknown (details: known, suggestion).
outcome::Problems check_shape(const nlohmann::json& body, const Fields& fields,
                              const std::string& pointer);

// "a, b, c"
std::string joined(const std::vector<std::string>& words);

// The nearest of `known` (joined by ", " or "|") within a third of its letters, "" when none is
// near.
std::string nearest(std::string_view word, const std::vector<std::string>& known);

// These types, with the types inside them, and their fields, for `schema`.
nlohmann::ordered_json schema_json(const std::vector<const Fields*>& types);

}  // namespace wheyfield::api
