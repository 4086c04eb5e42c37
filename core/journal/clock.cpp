#include "journal/clock.h"

#include <algorithm>

namespace wheyfield::journal {

bool Clock::saw(const Event& event) {
  if (event.id.device != device_ && event.at.seconds > now_ + furthest_ahead_s) return false;
  latest_ = std::max(latest_, event.at);
  return true;
}

Stamp Clock::next(Stamp floor) {
  const Stamp before = std::max(latest_, floor);
  const Stamp stamp =
      before.seconds < now_ ? Stamp{now_, 0} : Stamp{before.seconds, before.count + 1};
  // What is stamped late only because of what it refers to does not set the clock.
  if (stamp.seconds <= now_ + furthest_ahead_s || !(latest_ < floor)) latest_ = stamp;
  return stamp;
}

}  // namespace wheyfield::journal
