// Which farms' facts go when a member is forgotten.
#pragma once

#include <string>
#include <vector>

#include "journal/fold.h"

namespace wheyfield::journal {

// The farm of the member (kind `member`), unless the member's `agreed` for `result-nameless` is yes
// or another member holds it too. For the body of a `forget`: decided once, where it is written, so
// that every phone blanks the same.
std::vector<std::string> farms_to_forget(const Facts& facts, const std::string& member);

}  // namespace wheyfield::journal
