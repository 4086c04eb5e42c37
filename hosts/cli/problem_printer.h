// Problems as one line each for people: where it stands, what was written there, what was expected,
// what to do.
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "cli/input.h"

namespace wheyfield::cli {

// "/farms/3/fields/0/area" -> `farm "8", field 1, area`. An element of a list is named by its
// `code`, `name` or `item`, else by its place counted from 1; the list's own name comes from the
// words `cli.element.<list>` ({id}), and without such a sentence is shown as `list[4]`.
std::string field_label(const nlohmann::json& document, std::string_view pointer,
                        const words::Catalogue& words);

// A problem of an answer: `FILE:LINE: farm "8", field 1, area "0.5ha": expected. Cure.`
// Without a file, or a line for it, the field is a flag: `--water "abc": expected. Cure.` A problem
// without sentences (an `open` whose words could not be read) shows its code in their place.
std::string problem_line(const nlohmann::ordered_json& problem, const Document& asked,
                         const words::Catalogue& words);

// A problem the host found itself, in the same form.
std::string problem_line(const InputProblem& problem, const words::Catalogue& words);

// The host's problems as an answer: {schema, problems, sources}.
nlohmann::ordered_json answer_of(const InputProblems& problems, const words::Catalogue& words);

}  // namespace wheyfield::cli
