#include "weather/readings.h"

#include <algorithm>
#include <string>

namespace wheyfield::weather {
namespace {

using outcome::failure;
using outcome::Problems;
using outcome::Result;

bool in_fahrenheit(const std::vector<Reading>& readings) {
  const auto above = std::count_if(readings.begin(), readings.end(),
                                   [](const Reading& r) { return r.max > highest_celsius; });
  return 2 * above > static_cast<std::ptrdiff_t>(readings.size());
}

Problems value_problems(const std::vector<Reading>& readings) {
  Problems problems;
  for (std::size_t i = 0; i < readings.size(); ++i)
    append(problems, temperature_problems(readings[i].min, readings[i].max,
                                          "/readings/" + std::to_string(i)));
  return problems;
}

}  // namespace

Result<DailySeries> from_readings(const std::vector<Reading>& readings,
                                  const reference_data::ReferenceData& data) {
  if (readings.empty()) return failure({"readings-missing", "/readings", "", {}});
  if (in_fahrenheit(readings))
    return failure({"readings-fahrenheit", "/readings", one_decimal(readings.front().max), {}});
  if (auto problems = value_problems(readings); !problems.empty()) return failure(problems);
  std::vector<std::size_t> order(readings.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return readings[a].day < readings[b].day; });
  DailySeries series{readings[order.front()].day,
                     {},
                     {},
                     Origin::readings,
                     spread_of(Origin::readings, data).value};
  for (std::size_t i : order) {
    const std::string field = "/readings/" + std::to_string(i) + "/day";
    const calendar::Date next = series.first_day + static_cast<int>(series.min.size());
    if (readings[i].day < next) return failure({"reading-twice", field, readings[i].day.iso(), {}});
    if (next < readings[i].day)
      return failure(
          {"reading-gap", field, next.iso(), {{"count", std::to_string(readings[i].day - next)}}});
    series.min.push_back(readings[i].min);
    series.max.push_back(readings[i].max);
  }
  return series;
}

DailySeries completed(const DailySeries& own, const DailySeries& rest) {
  DailySeries both = rest;
  bool all = true;
  for (std::size_t i = 0; i < both.min.size(); ++i) {
    const calendar::Date day = rest.first_day + static_cast<int>(i);
    if (!own.covers(day)) {
      all = false;
      continue;
    }
    const auto at = static_cast<std::size_t>(day - own.first_day);
    both.min[i] = own.min[at];
    both.max[i] = own.max[at];
  }
  if (both.entered_from) {
    both.entered_from = std::min(*both.entered_from, own.first_day);
    both.entered_to =
        std::max(*both.entered_to, own.first_day + static_cast<int>(own.min.size()) - 1);
  }
  both.origin = all ? own.origin : rest.origin;
  both.spread = all ? own.spread : std::max(own.spread, rest.spread);
  return both;
}

}  // namespace wheyfield::weather
