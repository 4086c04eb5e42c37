#include "weather/day_length.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wheyfield::weather {
namespace {

using std::numbers::pi;

}  // namespace

int day_of_year(calendar::Date day) {
  return day - calendar::Date::from_civil(day.year(), 1, 1) + 1;
}

double day_length(double latitude, int day) {
  const double declination = 0.409 * std::sin(2.0 * pi * day / 365.0 - 1.39);
  const double cosine = -std::tan(latitude * pi / 180.0) * std::tan(declination);
  return 24.0 / pi * std::acos(std::clamp(cosine, -1.0, 1.0));
}

}  // namespace wheyfield::weather
