// How often batches fail or come late: the guess, and the group's own count once it is worth more.
#pragma once

#include <cstdint>

#include "lot_sizing/waiting.h"
#include "reference_data/reference_data.h"

namespace wheyfield::season {

// From the data: batch-failure-share; batch-late-1, -2 and -3, the rest is ready on its day.
lot_sizing::Chances guessed_chances(const reference_data::ReferenceData& data);

struct FailureShare {
  std::int32_t share = 0;  // parts of a million
  bool own = false;        // of the group's own batches, else the guess
  int missing = 0;         // own batches still to be recorded before they count
  int recorded = 0;        // own batches
};

// `failed` of `recorded` own batches, 0 <= failed <= recorded. From own-batches-least of them on
// (failed + 1/2) / (recorded + 1), the mean that Jeffreys' prior leads to (memory): that none of
// ten failed does not prove that none ever will.
FailureShare failure_share(const reference_data::ReferenceData& data, int failed, int recorded);

}  // namespace wheyfield::season
