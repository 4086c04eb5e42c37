// The hybrid logical clock: stamps that go on counting up on one device, and that come after all
// that the device knew, without one phone's wrong year spreading to the others.
//
// The rule is that of Kulkarni, Demirbas and others, "Logical Physical Clocks", OPODIS 2014 (from
// memory), on whole seconds.
#pragma once

#include "journal/event.h"

namespace wheyfield::journal {

// Stamps of others further ahead of the device's clock than this are not gone by [s].
constexpr std::int64_t furthest_ahead_s = 24 * 60 * 60;

class Clock {
 public:
  // `device` is our own code; `now` our wall clock [s since 1970].
  Clock(std::string device, std::int64_t now) : device_(std::move(device)), now_(now) {}

  // Goes by the stamp of an event of our own set. False when it lies too far ahead and is of
  // another device: then it is not gone by.
  bool saw(const Event& event);

  // The stamp of the next event: after all gone by, after `floor` (the latest event it refers to or
  // says something new about), and not before now.
  Stamp next(Stamp floor = {-1, 0});

 private:
  std::string device_;
  std::int64_t now_;
  Stamp latest_{-1, 0};
};

}  // namespace wheyfield::journal
