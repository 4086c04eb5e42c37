// The days of the practice year, as tests write them.
#pragma once

#include "calendar/date.h"

namespace wheyfield::testing {

inline calendar::Date on(int month, int day) {
  return calendar::Date::from_civil(2027, month, day);
}

}  // namespace wheyfield::testing
