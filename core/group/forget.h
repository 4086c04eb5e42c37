// What goes when a person is forgotten.
#pragma once

#include <string>
#include <vector>

#include "journal/fold.h"

namespace wheyfield::group {

struct Forgetting {
  std::vector<std::string> codes;  // all of the person, in code order
  std::vector<std::string> farms;  // whose facts go too
};

// The person known by `member`. The farm goes unless somebody else holds it (is a member of it, by
// `member` or `joined`, whether still there or not) or the person's answers for `result-nameless`
// are all yes. Decided once, where the `forget` is written, so that every phone blanks the same. No
// codes when nobody is known by `member`.
Forgetting forgetting(const journal::Facts& facts, const std::string& member);

}  // namespace wheyfield::group
