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
  Stamp stamp = before.seconds < now_ ? Stamp{now_, 0} : Stamp{before.seconds, before.count + 1};
  if (stamp.count > largest_count) stamp = {stamp.seconds + 1, 0};
  saw(stamp);
  return stamp;
}

}  // namespace wheyfield::journal
