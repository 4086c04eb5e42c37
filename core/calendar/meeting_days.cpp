#include "calendar/meeting_days.h"

#include <algorithm>

namespace wheyfield::calendar {
namespace {

constexpr int look_days = 366;

int days_since(Weekday weekday, Date day) {
  return (static_cast<int>(day.weekday()) - static_cast<int>(weekday) + 7) % 7;
}

}  // namespace

bool MeetingDays::meets(Date day) const {
  return day.weekday() == weekday &&
         std::find(none_on.begin(), none_on.end(), day) == none_on.end();
}

std::optional<Date> MeetingDays::last_up_to(Date day) const {
  for (Date d = day - days_since(weekday, day); day - d <= look_days; d = d - 7)
    if (meets(d)) return d;
  return std::nullopt;
}

std::optional<Date> MeetingDays::first_from(Date day) const {
  for (Date d = day + (7 - days_since(weekday, day)) % 7; d - day <= look_days; d = d + 7)
    if (meets(d)) return d;
  return std::nullopt;
}

Date last_before(Weekday weekday, Date day) {
  const int back = days_since(weekday, day);
  return day - (back == 0 ? 7 : back);
}

}  // namespace wheyfield::calendar
