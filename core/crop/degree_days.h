// Degree-days of one day from its minimum and maximum, by the six rules in use.
//
// The rules differ by several degree-days a day, so a sum is worth nothing without the name of its
// rule. The sums in data/thermal.toml were fitted to the daily mean (average); use the others only
// with requirements that were counted the same way.
//   M = (max + min) / 2, b = base, u = cap, all [C]; b < u, min <= max.
//   average          max(0, M - b); no cap
//   clipped          max and min are each clipped to [b, u], then averaged, less b
//                    (McMaster and Wilhelm 1997, their second method; from memory)
//   single_sine      area under a sine above b, Baskerville and Emin 1969 (from memory): for
//                    min < b < max with W = (max - min)/2, A = asin((b - M)/W):
//                    [W cos A - (b - M)(pi/2 - A)] / pi; no cap
//   capped_sine      single_sine above b less single_sine above u
//   triangle         (max - b)^2 / (2 (max - min)) for min < b < max; no cap
//   four_case        min >= b: M - b; max <= b: 0; M >= b: (max - b)/2 - (b - min)/4;
//                    else (max - b)/4 (a national weather service's rule); no cap
#pragma once

#include <string_view>

namespace wheyfield::crop {

enum class DegreeDayRule { average, clipped, single_sine, capped_sine, triangle, four_case };

// "average", "clipped", "single-sine", "capped-sine", "triangle", "four-case": the name to print.
std::string_view degree_day_word(DegreeDayRule rule);

// One day's degree-days [C d], >= 0.
double degree_days(DegreeDayRule rule, double max, double min, double base, double cap);

}  // namespace wheyfield::crop
