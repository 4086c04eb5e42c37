// What the host reads and what can go wrong before the core is asked.
//
// A problem carries a code; the word catalogue holds `cli.problem.<code>` (what was expected) and
// `cli.cure.<code>` (what to do about it).
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>
#include <tl/expected.hpp>

#include "cli/exit_codes.h"
#include "cli/source_map.h"
#include "words/catalogue.h"

namespace wheyfield::cli {

struct InputProblem {
  std::string code;
  Place place;
  std::string field;  // as people read it, "" = the whole file
  std::string value;  // what was written there
  words::Values details = {};
  int exit = exit_codes::unreadable;
};

using InputProblems = std::vector<InputProblem>;

template <class T>
using Reading = tl::expected<T, InputProblems>;

inline tl::unexpected<InputProblems> input_failure(InputProblem problem) {
  return tl::make_unexpected(InputProblems{std::move(problem)});
}

// A request's body with the place of each of its values. Without a file, the pointers are flags of
// the command line. `prefix` is what stands before the document's own pointers in the request's.
struct Document {
  nlohmann::json json;
  SourceMap places;
  bool from_file = false;
  std::string prefix = "";
};

}  // namespace wheyfield::cli
