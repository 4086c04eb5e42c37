// When two notes about one thing say different things, and a person must be asked.
#pragma once

#include "journal/fold.h"

namespace wheyfield::journal {

// The same text; or the same unit and a number of the same size ("12,5 kg", "12.50 kg").
bool same_amount(const std::string& a, const std::string& b);

// By the question of the kind:
//   readings-differ   two readings (`ph`) are more than limits.ph_apart apart, to a hundredth
//   noted-twice       two devices say it
//   weights-differ    two bodies hold other values
//   batch-twice       two bodies hold other values, or were written for different days
//   answers-differ    of the latest civil day, what two devices said last (`answer`, `came`)
// False for a kind without a question.
bool say_different_things(const Kind& kind, const std::vector<const Event*>& said,
                          const Limits& limits);

}  // namespace wheyfield::journal
