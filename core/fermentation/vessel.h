// How slowly does a bucket follow the air? A lumped vessel with one temperature:
//   dT/dt = (T_air - T) / tau
// A daily wave of the air reaches it weaker by 1 / sqrt(1 + (w tau)^2) and later by
// atan(w tau) / w, w = 2 pi / 24 h. tau comes from the litres in it (vessel-* rows of
// data/fermentation.toml), on a straight line between the logarithms of rows, and along the last
// stretch beyond them.
//
// Left out: evaporation through the net (0.4 to 1.9 K cooler), warmth of the fermentation (0.8 K
// at most), and that set curd is not stirred. All lie inside the spread of 1 K.
#pragma once

#include <vector>

namespace wheyfield::fermentation {

struct VesselRow {
  double litres;
  double hours;  // tau in still to breezy air, typically [h]
};

// tau [h] of `litres`. Preconditions: at least two rows, litres rising; litres > 0.
double vessel_hours(const std::vector<VesselRow>& rows, double litres);

double wave_kept(double tau);   // 0..1, of the amplitude of a daily wave
double wave_delay(double tau);  // [h]

}  // namespace wheyfield::fermentation
