#include "outcome/result.h"

#include <algorithm>
#include <iterator>

namespace wheyfield::outcome {

bool has_errors(const Problems& problems) {
  return std::any_of(problems.begin(), problems.end(),
                     [](const Problem& p) { return p.severity == Severity::error; });
}

void append(Problems& all, Problems more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

Problems under(const std::string& prefix, Problems problems) {
  for (Problem& problem : problems) problem.field = prefix + problem.field;
  return problems;
}

}  // namespace wheyfield::outcome
