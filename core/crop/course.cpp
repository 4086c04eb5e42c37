#include "crop/course.h"

#include <algorithm>

namespace wheyfield::crop {
namespace {

using calendar::Date;
using calendar::exactly;
using calendar::whole_days;
using calendar::Window;
using Kind = ThermalSums::Kind;

double ratio(double seen, double forecast) { return forecast > 0.0 ? seen / forecast : 1.0; }

// Due from the day it was seen, for as long after as the forecast was uncertain, within a limit.
Window due_since(Date day, const Window& forecast, int limit) {
  const int days = std::clamp(forecast.late - forecast.likely, 1, std::max(1, limit));
  return {day, day, day + days};
}

Window up_to(Window w, Date day) {
  return {std::min(w.early, day - 1), std::min(w.likely, day), std::min(w.late, day)};
}

}  // namespace

Window CalendarClock::after(const Window& from, Amounts amounts) {
  return {from.early + whole_days(amounts.early), from.likely + whole_days(amounts.likely),
          from.late + whole_days(amounts.late)};
}

Window ThermalClock::window(Kind kind, const Window& from, Amounts amounts) {
  const auto early = sums_.earliest(kind, from.early, amounts.early);
  const auto likely = sums_.likely(kind, from.likely, amounts.likely);
  const auto late = sums_.latest(kind, from.late, amounts.late);
  ran_out = ran_out || !early || !likely || !late;
  return ran_out ? from : Window{*early, *likely, *late};
}

Window ThermalClock::after(const Window& from, Amounts amounts) {
  return window(Kind::development, from, amounts);
}

Window ThermalClock::emergence_after(Date from, Amounts amounts) {
  return window(Kind::emergence, exactly(from), amounts);
}

double ThermalClock::between(Date from, Date to) {
  const auto sum = sums_.gathered(from, to);
  ran_out = ran_out || !sum;
  return sum.value_or(0.0);
}

Window never_one_day(Window w) {
  if (w.early == w.late) return {w.early - 1, w.likely, w.late + 1};
  return w;
}

std::optional<Course> follow(const Outlook& outlook, const Seen& seen, Clock& clock) {
  Course c;
  const auto still = [&](Date from, Date to) { return std::max(0.0, clock.between(from, to)); };
  c.emerged = seen.emerged ? exactly(*seen.emerged) : outlook.emerged;
  c.seedling = never_one_day(clock.after(c.emerged, outlook.seedling));
  const auto believed = [&](double pace) {
    return outlook.rescales && within(pace, outlook.pace_limit) ? pace : 1.0;
  };
  const Date pace_from = outlook.pace_from.value_or(c.emerged.likely);

  Window fourth = outlook.fourth;
  if (seen.emerged && !outlook.pace_from)
    fourth = clock.after(c.emerged,
                         outlook.share * still(outlook.emerged.likely, outlook.fourth.likely));
  Window fifth = clock.after(fourth, outlook.fifth);
  const Date fifth_forecast = fifth.likely;
  if (seen.fourth) {
    c.fourth_pace =
        ratio(clock.between(pace_from, *seen.fourth), clock.between(pace_from, fourth.likely));
    c.pace = believed(*c.fourth_pace);
    c.fourth = due_since(*seen.fourth, fourth, outlook.after_seen_days);
    fifth = clock.after(exactly(*seen.fourth), outlook.fifth * c.pace);
  } else {
    c.fourth = never_one_day(fourth);
  }
  c.fifth = never_one_day(fifth);
  if (seen.fifth) {
    c.fifth_pace =
        ratio(clock.between(pace_from, *seen.fifth), clock.between(pace_from, fifth_forecast));
    c.pace = believed(*c.fifth_pace);
    c.fifth = due_since(*seen.fifth, fifth, outlook.after_seen_days);
    if (!seen.fourth) c.fourth = up_to(c.fourth, *seen.fifth);
  }
  if (clock.ran_out) return std::nullopt;

  c.harvest = outlook.harvest;
  const bool stays = outlook.harvest_stays && (seen.fourth || seen.fifth);
  if (c.harvest && !stays && seen.fifth) {
    const Date unseen = clock.after(outlook.fourth, outlook.fifth).likely;
    c.harvest = clock.after(exactly(*seen.fifth),
                            outlook.share * (c.pace * still(unseen, outlook.harvest->likely)));
  } else if (c.harvest && !stays && (seen.fourth || seen.emerged)) {
    const Window from = seen.fourth ? exactly(*seen.fourth) : fourth;
    c.harvest = clock.after(
        from, outlook.share * (c.pace * still(outlook.fourth.likely, outlook.harvest->likely)));
  }
  if (clock.ran_out) c.harvest.reset();
  if (c.harvest) c.harvest = never_one_day(*c.harvest);
  return c;
}

}  // namespace wheyfield::crop
