// The course of a planting: emergence, the fourth event, first fruit, harvest, each a window, put
// right by what was seen.
//
// A clock says how progress is counted: in days (calendar) or in degree-days (a thermal row). The
// same rules of correction hold for both:
//   emergence seen     later events keep their distance from it; their windows lose the part of
//                      the spread that came before it. No rescaling: a week that was dry says
//                      nothing about the speed of the variety.
//   fourth, fifth seen pace k = progress seen / progress forecast, both counted from emergence (or
//                      planting out); what is still to come takes k times its progress. A pace
//                      that is not believed (before emergence, or far from 1) rescales nothing;
//                      crop/forecast.h sets its sighting aside. Of a crop whose sightings tell
//                      nothing of its pace (groundnut) later events keep their distance from
//                      what was seen.
// A thing that was seen makes its use due from that day on, for at most `after_seen_days`.
#pragma once

#include <optional>

#include "calendar/date.h"
#include "crop/thermal_sums.h"

namespace wheyfield::crop {

// What she saw, and when. Fourth: first flower, tuber start, ...; fifth: first fruit.
struct Seen {
  std::optional<calendar::Date> planted;  // set out on this day, whatever was planned
  std::optional<calendar::Date> emerged;
  std::optional<calendar::Date> fourth;
  std::optional<calendar::Date> fifth;
};

// Progress [days or C d] for the early, likely and late edge of a window.
struct Amounts {
  double early;
  double likely;
  double late;
};
inline Amounts operator*(Amounts a, double k) { return {a.early * k, a.likely * k, a.late * k}; }

class Clock {
 public:
  virtual ~Clock() = default;
  // The window in which the amounts have gathered since the window `from`.
  virtual calendar::Window after(const calendar::Window& from, Amounts amounts) = 0;
  virtual double between(calendar::Date from, calendar::Date to) = 0;
  // True once an answer lay beyond what the clock knows; its answers are then worth nothing.
  bool ran_out = false;
};

// Days, rounded half up.
class CalendarClock : public Clock {
 public:
  calendar::Window after(const calendar::Window& from, Amounts amounts) override;
  double between(calendar::Date from, calendar::Date to) override { return to - from; }
};

// Degree-days; the edges are those of the warmer and the colder year.
class ThermalClock : public Clock {
 public:
  explicit ThermalClock(const ThermalSums& sums) : sums_(sums) {}
  calendar::Window after(const calendar::Window& from, Amounts amounts) override;
  calendar::Window emergence_after(calendar::Date from, Amounts amounts);
  double between(calendar::Date from, calendar::Date to) override;

 private:
  calendar::Window window(ThermalSums::Kind kind, const calendar::Window& from, Amounts amounts);
  const ThermalSums& sums_;
};

// The forecast before anything was seen. Amounts are in the clock's unit.
struct Outlook {
  calendar::Window emerged;
  calendar::Window fourth;
  std::optional<calendar::Window> harvest;
  std::optional<calendar::Date> pace_from;  // none: pace counts from emergence
  Amounts share;                            // of an amount, for the edges: 0.9, 1, 1.1
  Amounts seedling;                         // after emergence
  Amounts fifth;                            // after the fourth
  int after_seen_days;
  double pace_limit;           // > 1; a pace above it, or below 1 / pace_limit, is not believed
  bool rescales = true;        // false: no pace is used, what follows keeps its distance
  bool harvest_stays = false;  // the harvest is not moved by the fourth or fifth event
};

// Is the pace between 1 / limit and limit? Never at or below 0: seen before it could begin.
inline bool within(double pace, double limit) { return pace <= limit && pace * limit >= 1.0; }

struct Course {
  calendar::Window emerged;
  calendar::Window seedling;
  calendar::Window fourth;
  calendar::Window fifth;
  std::optional<calendar::Window> harvest;
  double pace = 1.0;  // k as it was used
  // k as it was seen, believed or not; none when not seen.
  std::optional<double> fourth_pace;
  std::optional<double> fifth_pace;
};

// Every window but a seen emergence is two days wide at least. None when the clock ran out before
// the fifth event; a harvest beyond the clock is left out.
std::optional<Course> follow(const Outlook& outlook, const Seen& seen, Clock& clock);

// At least a day either side of `likely` when the window has shrunk to one day.
calendar::Window never_one_day(calendar::Window window);

}  // namespace wheyfield::crop
