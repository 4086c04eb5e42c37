// What the group's notes leave open, beside the questions of the fold. A pure function of the
// facts.
#pragma once

#include <vector>

#include "journal/fold.h"
#include "quantity/units.h"

namespace wheyfield::group {

// same-person, handed-out-above-made and batch-lost-and-used (docs/models/group.md), by name.
std::vector<journal::Question> questions(const journal::Facts& facts,
                                         const quantity::UnitTable& units);

// The facts with the group's questions among theirs, by name.
journal::Facts with_questions(journal::Facts facts, const quantity::UnitTable& units);

}  // namespace wheyfield::group
