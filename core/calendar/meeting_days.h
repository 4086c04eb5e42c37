// The group's meeting days: one weekday, less the days on which nobody meets.
#pragma once

#include <optional>
#include <vector>

#include "calendar/date.h"

namespace wheyfield::calendar {

struct MeetingDays {
  Weekday weekday = Weekday::monday;
  std::vector<Date> none_on;  // holidays and the like

  bool meets(Date day) const;
  // The last meeting on or before `day`, and the first on or after; looks at most a year away.
  std::optional<Date> last_up_to(Date day) const;
  std::optional<Date> first_from(Date day) const;
};

// The last `weekday` strictly before `day` (a market day before the work).
Date last_before(Weekday weekday, Date day);

}  // namespace wheyfield::calendar
