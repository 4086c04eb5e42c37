// The hybrid logical clock: stamps that come after what the device knew, without one phone's wrong
// year spreading to the others.
//
// The rule is that of Kulkarni, Demirbas and others, "Logical Physical Clocks", OPODIS 2014 (from
// memory), on whole seconds.
#pragma once

#include "journal/event.h"

namespace wheyfield::journal {

// Stamps further ahead of the device's clock than this are not gone by [s].
constexpr std::int64_t furthest_ahead_s = 86400;  // 24 hours

class Clock {
 public:
  // `now` is the device's wall clock [s since 1970].
  explicit Clock(std::int64_t now) : now_(now) {}

  // Goes by a stamp that is known. False when it lies too far ahead: then it is not gone by.
  bool saw(Stamp stamp);

  // The stamp of the next event: after all gone by, not before now, and after `floor`, the latest
  // event that it refers to or says something new about, wherever that lies. So a device whose
  // clock was set back still corrects what it corrects.
  Stamp next(Stamp floor = {-1, 0});

 private:
  std::int64_t now_;
  Stamp latest_{-1, 0};
};

}  // namespace wheyfield::journal
