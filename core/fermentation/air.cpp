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
  return Air(days, first_hour, first - series.first_day);
}

Air::Air(const std::vector<Day>& days, double first_hour, int first)
    : first_hour_(first_hour), first_(first + 1) {
  const int count = static_cast<int>(days.size());
  const auto day = [&](int number) {
    return days[static_cast<std::size_t>(std::clamp(number, 0, count - 1))];
  };
  for (int i = -1; i <= count; ++i) {
    const weather::ThreeDays around{day(i - 1).max, day(i).min, day(i).max, day(i + 1).min};
    auto& half_hours = days_.emplace_back();
    for (std::size_t half = 0; half < halves; ++half)
      half_hours[half] = weather::campbell_norman(around, static_cast<double>(half) / 2.0);
  }
}

double Air::half_hour(int day, int half) const {
  const int last = static_cast<int>(days_.size()) - 1;
  return days_[static_cast<std::size_t>(std::clamp(first_ + day, 0, last))]
              [static_cast<std::size_t>(half)];
}

double Air::first_corner() const {
  return (std::floor(first_hour_ / between_corners) + 1.0) * between_corners - first_hour_;
}

double Air::at(double hours) const {
  const double clock = 2.0 * (first_hour_ + hours);
  const int half = static_cast<int>(clock);
  const double low = half_hour(half / halves, half % halves);
  const double high = half_hour((half + 1) / halves, (half + 1) % halves);
  return low + (clock - half) * (high - low);
}

}  // namespace wheyfield::fermentation
