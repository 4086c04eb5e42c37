#include "weather/diurnal.h"

#include <cmath>
#include <numbers>

namespace wheyfield::weather {
namespace {

using std::numbers::pi;

}  // namespace

double campbell_norman(const ThreeDays& days, double hour) {
  const double angle = pi * hour / 12.0;
  const double share = 0.44 - 0.46 * std::sin(0.9 + angle) + 0.11 * std::sin(0.9 + 2.0 * angle);
  const double max = hour <= 5.0 ? days.max_yesterday : days.max;
  const double min = hour > 14.0 ? days.min_tomorrow : days.min;
  return max * share + min * (1.0 - share);
}

double cesaraccio(const SunDay& day, double hour) {
  const double warmest = day.sunset - 4.0;
  const double at_sunset = day.max - 0.39 * (day.max - day.min_tomorrow);
  if (hour <= warmest)
    return day.min + (day.max - day.min) *
                         std::sin((hour - day.sunrise) / (warmest - day.sunrise) * pi / 2.0);
  if (hour < day.sunset)
    return at_sunset +
           (day.max - at_sunset) * std::sin(pi / 2.0 + (hour - warmest) / 4.0 * pi / 2.0);
  const double fall = (day.min_tomorrow - at_sunset) / std::sqrt(day.sunrise + 24.0 - day.sunset);
  return at_sunset + fall * std::sqrt(hour - day.sunset);
}

double parton_logan(const SunDay& day, double hour) {
  constexpr double a = 1.86, b = 2.20, c = -0.17;
  const double light = day.sunset - day.sunrise;
  const auto by_day = [&](double h) {
    return day.min + (day.max - day.min) * std::sin(pi * (h - day.sunrise - c) / (light + 2.0 * a));
  };
  if (hour <= day.sunset) return by_day(hour);
  return day.min +
         (by_day(day.sunset) - day.min) * std::exp(-b * (hour - day.sunset) / (24.0 - light));
}

}  // namespace wheyfield::weather
