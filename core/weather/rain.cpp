#include "weather/rain.h"

#include <algorithm>
#include <string>

#include "weather/daily_series.h"

namespace wheyfield::weather {
namespace {

using calendar::Date;
using outcome::failure;
using outcome::Problem;
using outcome::Result;

constexpr double most_in_a_day = 500.0;  // [mm]; more is a slip of the pen

// The first whole month between two days that both stand in the list; its first day, or `to`.
Date whole_month_within(Date from, Date to) {
  for (Date day = from; day < to; day = day + 1) {
    const Date next = Date::from_civil(day.year(), day.month(), 28) + 4;
    if (day.day() == 1 && next - (next.day() - 1) <= to) return day;
  }
  return to;
}

Problem gap(const std::string& field, Date missing, Date next) {
  if (const Date month = whole_month_within(missing, next); month < next)
    return {"rain-month-missing", field, month.iso().substr(0, 7), {}};
  return {"rain-gap", field, missing.iso(), {{"count", std::to_string(next - missing)}}};
}

}  // namespace

Result<RainSeries> rain_from_days(const std::vector<RainDay>& days) {
  if (days.empty()) return failure({"rain-missing", "/rain", "", {}});
  outcome::Problems problems;
  for (std::size_t i = 0; i < days.size(); ++i)
    if (!(days[i].mm >= 0.0 && days[i].mm <= most_in_a_day))
      problems.push_back({"rain-out-of-range",
                          "/rain/" + std::to_string(i) + "/mm",
                          one_decimal(days[i].mm),
                          {{"limit", std::to_string(static_cast<int>(most_in_a_day))}}});
  if (!problems.empty()) return failure(problems);
  std::vector<std::size_t> order(days.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return days[a].day < days[b].day; });
  RainSeries series{days[order.front()].day, {}};
  for (std::size_t i : order) {
    const std::string field = "/rain/" + std::to_string(i) + "/day";
    const Date next = series.last_day() + 1;
    if (days[i].day < next) return failure({"rain-day-twice", field, days[i].day.iso(), {}});
    if (next < days[i].day) return failure(gap(field, next, days[i].day));
    series.mm.push_back(days[i].mm);
  }
  return series;
}

}  // namespace wheyfield::weather
