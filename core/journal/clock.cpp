#include "journal/clock.h"

#include <algorithm>

namespace wheyfield::journal {

bool Clock::saw(Stamp stamp) {
  if (stamp.seconds > now_ + furthest_ahead_s) return false;
  latest_ = std::max(latest_, stamp);
  return true;
}

Stamp Clock::next(Stamp floor) {
  const Stamp before = std::max(latest_, floor);
  const Stamp stamp =
      before.seconds < now_ ? Stamp{now_, 0} : Stamp{before.seconds, before.count + 1};
  saw(stamp);
  return stamp;
}

}  // namespace wheyfield::journal
