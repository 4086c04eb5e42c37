#include "crop/degree_days.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::crop {
namespace {

constexpr double pi = 3.14159265358979323846;

double single_sine(double max, double min, double base) {
  const double mean = (max + min) / 2.0;
  if (min >= base) return mean - base;
  if (max <= base) return 0.0;
  const double half = (max - min) / 2.0;
  const double angle = std::asin((base - mean) / half);
  return (half * std::cos(angle) - (base - mean) * (pi / 2.0 - angle)) / pi;
}

double triangle(double max, double min, double base) {
  if (min >= base) return (max + min) / 2.0 - base;
  if (max <= base) return 0.0;
  return (max - base) * (max - base) / (2.0 * (max - min));
}

double four_case(double max, double min, double base) {
  const double mean = (max + min) / 2.0;
  if (min >= base) return mean - base;
  if (max <= base) return 0.0;
  if (mean >= base) return (max - base) / 2.0 - (base - min) / 4.0;
  return (max - base) / 4.0;
}

}  // namespace

std::string_view degree_day_word(DegreeDayRule rule) {
  static constexpr std::string_view words[] = {"average",     "clipped",  "single-sine",
                                               "capped-sine", "triangle", "four-case"};
  return words[static_cast<std::size_t>(rule)];
}

double degree_days(DegreeDayRule rule, double max, double min, double base, double cap) {
  switch (rule) {
    case DegreeDayRule::average:
      return std::max(0.0, (max + min) / 2.0 - base);
    case DegreeDayRule::clipped:
      return (std::clamp(max, base, cap) + std::clamp(min, base, cap)) / 2.0 - base;
    case DegreeDayRule::single_sine:
      return single_sine(max, min, base);
    case DegreeDayRule::capped_sine:
      return single_sine(max, min, base) - single_sine(max, min, cap);
    case DegreeDayRule::triangle:
      return triangle(max, min, base);
    case DegreeDayRule::four_case:
      return four_case(max, min, base);
  }
  return 0.0;
}

}  // namespace wheyfield::crop
