// Civil dates (proleptic Gregorian), as written on a wall calendar: no clock, no time zone, no
// today(). Hosts hand in the date; the core only counts days.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "outcome/result.h"

namespace wheyfield::calendar {

// Monday is 1 (ISO 8601).
enum class Weekday { monday = 1, tuesday, wednesday, thursday, friday, saturday, sunday };

// A civil day. Valid range 1900-01-01 .. 2199-12-31 when read; arithmetic is not checked.
class Date {
 public:
  Date() = default;
  static Date from_days(int days_since_1970) { return Date(days_since_1970); }
  // No check of the day against the month: use `parse` for what people write.
  static Date from_civil(int year, int month, int day);

  int days() const { return days_; }
  int year() const;
  int month() const;
  int day() const;
  Weekday weekday() const;
  std::string iso() const;  // "2027-03-04"; years 0 to 9999

  friend Date operator+(Date a, int days) { return Date(a.days_ + days); }
  friend Date operator-(Date a, int days) { return Date(a.days_ - days); }
  friend int operator-(Date a, Date b) { return a.days_ - b.days_; }
  friend bool operator==(Date a, Date b) { return a.days_ == b.days_; }
  friend bool operator!=(Date a, Date b) { return a.days_ != b.days_; }
  friend bool operator<(Date a, Date b) { return a.days_ < b.days_; }
  friend bool operator<=(Date a, Date b) { return a.days_ <= b.days_; }
  friend bool operator>(Date a, Date b) { return a.days_ > b.days_; }
  friend bool operator>=(Date a, Date b) { return a.days_ >= b.days_; }

 private:
  explicit Date(int days) : days_(days) {}
  int days_ = 0;
};

// "2027-03-04". Errors: date-unreadable (not YYYY-MM-DD), date-impossible (29 February 2027, with
// {last} = the last day of that month), date-out-of-range.
outcome::Result<Date> parse_date(std::string_view text);

// English weekday names as the season file writes them ("Thursday"), any case.
std::optional<Weekday> parse_weekday(std::string_view text);
// "monday" .. "sunday": word key endings.
std::string_view weekday_key(Weekday weekday);

// When something will happen: a window, never one day. Holds early <= likely <= late.
struct Window {
  Date early;
  Date likely;
  Date late;
};

inline Window exactly(Date day) { return {day, day, day}; }

// A length of time as a window [days]. Holds 0 <= early <= likely <= late.
struct DayRange {
  int early = 0;
  int likely = 0;
  int late = 0;
};

inline Window operator+(Window w, DayRange d) {
  return {w.early + d.early, w.likely + d.likely, w.late + d.late};
}

// Days rounded half up.
inline int whole_days(double days) { return static_cast<int>(std::floor(days + 0.5)); }

}  // namespace wheyfield::calendar
