// Start here: how every room says what went wrong.
//
// A room never throws across its border, prints or aborts. It returns `Result<T>`: the value, or
// every problem found (all of them, not only the first, so that one look at a file mends it).
// Sentences are not written here: a problem carries a code, and the word catalogue holds
// `problem.<code>` (what was expected) and `cure.<code>` (what to do about it).
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include <tl/expected.hpp>

namespace wheyfield::outcome {

enum class Severity {
  error,     // the action cannot give a result
  question,  // the result stands, a person must confirm something
  notice     // said, and work goes on
};

struct Problem {
  std::string code;                            // e.g. "below-zero"; key of the sentences
  std::string field;                           // JSON pointer into the request, "" = the whole
  std::string value;                           // what was written there, as written
  std::map<std::string, std::string> details;  // named values for the sentences, e.g. {limit}
  Severity severity = Severity::error;
};

using Problems = std::vector<Problem>;

template <class T>
using Result = tl::expected<T, Problems>;

// The failure of one problem, ready to be returned from a function giving Result<T>.
inline tl::unexpected<Problems> failure(Problem problem) {
  return tl::make_unexpected(Problems{std::move(problem)});
}
inline tl::unexpected<Problems> failure(Problems problems) {
  return tl::make_unexpected(std::move(problems));
}

bool has_errors(const Problems& problems);

// Appends `more` to `all`.
void append(Problems& all, Problems more);

// Takes the value out of `result`, or collects its problems and gives `otherwise`. For readers
// that go on to find every mistake of a file.
template <class T>
T take_or(Result<T> result, T otherwise, Problems& problems) {
  if (result) return std::move(*result);
  append(problems, std::move(result.error()));
  return otherwise;
}

// The same problems with `prefix` put before each field pointer.
Problems under(const std::string& prefix, Problems problems);

}  // namespace wheyfield::outcome
