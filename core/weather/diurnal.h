// How warm is it at a given hour? Three published curves through a day's minimum and maximum.
//
// Use one curve only within an answer: they differ by a degree. Degree-days need none of them;
// they count the mid-range (min + max) / 2, which lies above the true daily mean (the first curve's
// mean is min + 0.44 x range), so the two must not be mixed.
// Temperatures [C], hours of solar time [h], 0 <= hour <= 24 unless said otherwise.
#pragma once

namespace wheyfield::weather {

// Campbell and Norman (1998), An Introduction to Environmental Biophysics, eq. 2.2, 2.3:
//   G(t) = 0.44 - 0.46 sin(0.9 + pi t / 12) + 0.11 sin(0.9 + 2 pi t / 12)
//   T(t) = max G + min (1 - G), with yesterday's maximum up to 5 h, tomorrow's minimum after 14 h
struct ThreeDays {
  double max_yesterday;
  double min;
  double max;
  double min_tomorrow;
};
double campbell_norman(const ThreeDays& days, double hour);

// Two sines and a square root, Cesaraccio et al. (2001), c = 0.39: up to the maximum, four hours
// before sunset; down to max - c (max - min_tomorrow) at sunset; then with the square root of time
// to the next minimum at the next sunrise. sunrise <= hour <= 24 + sunrise.
struct SunDay {
  double min;
  double max;
  double min_tomorrow;
  double sunrise;  // [h]
  double sunset;   // [h], at least 4 h after sunrise
};
double cesaraccio(const SunDay& day, double hour);

// Parton and Logan (1981), a = 1.86, b = 2.20, c = -0.17 (air at 1.5 m; from memory): a truncated
// sine from sunrise + c to sunset, then an exponential fall to `min`. sunrise + c <= hour <= 24 +
// sunrise; `min_tomorrow` is not used.
double parton_logan(const SunDay& day, double hour);

}  // namespace wheyfield::weather
