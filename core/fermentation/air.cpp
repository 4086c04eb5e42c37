#include "fermentation/air.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "weather/diurnal.h"

namespace wheyfield::fermentation {

Air Air::constant(double celsius) { return Air({{celsius, celsius}}, 0.0, 0); }

Air Air::daily(double min, double max, double first_hour) {
  return Air({{min, max}}, first_hour, 0);
}

Air Air::series(const weather::DailySeries& series, calendar::Date first, double first_hour) {
  std::vector<Day> days;
  for (std::size_t i = 0; i < series.min.size(); ++i)
    days.push_back({series.min[i], series.max[i]});
  return Air(std::move(days), first_hour, first - series.first_day);
}

const Air::Day& Air::day(int number) const {
  const int last = static_cast<int>(days_.size()) - 1;
  return days_[static_cast<std::size_t>(std::clamp(first_ + number, 0, last))];
}

double Air::at(double hours) const {
  if (days_.size() == 1 && days_[0].min == days_[0].max) return days_[0].min;
  const double clock = first_hour_ + hours;
  const double midnights = std::floor(clock / 24.0);
  const int today = static_cast<int>(midnights);
  return weather::campbell_norman(
      {day(today - 1).max, day(today).min, day(today).max, day(today + 1).min},
      clock - 24.0 * midnights);
}

}  // namespace wheyfield::fermentation
