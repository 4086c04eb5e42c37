// Several ingredients, each with the least and the most that is to be had: the cheapest mix within
// limits, or the one nearest to a ratio. Linear programmes (numerics/linear_program.h): C:N and
// moisture limits are linear in the wet amounts once they are multiplied out,
//   low <= C:N <= high      <=>  sum Q (1-M)(C - low N) >= 0  and  sum Q (1-M)(C - high N) <= 0
//   moisture <= high        <=>  sum Q (M - high) <= 0
// A dry mix is no fault: water is sprinkled on it (water_for_moisture), so there is no lower limit.
#pragma once

#include <optional>
#include <vector>

#include "compost/mix.h"

namespace wheyfield::compost {

struct Offer {
  Contents what;
  double at_least = 0.0;          // [kg wet]
  std::optional<double> at_most;  // [kg wet], >= at_least; none = as much as is wanted
  double price = 0.0;             // for 1 kg, >= 0
};

struct Aim {
  double ratio_low = 0.0;      // C:N, > 0
  double ratio_high = 0.0;     // >= ratio_low; equal: that ratio
  double moisture_high = 0.0;  // [% of wet weight], 0 < high < 100
  double litres = 0.0;  // of loose volume at the least; 0 = any. Each offer then has a density.
};

struct BestMix {
  std::vector<double> kg;  // of each offer, in their order
  double cost = 0.0;
};

// Within all limits at the least cost; of equally cheap mixes the lightest. None when no mix keeps
// all limits.
std::optional<BestMix> cheapest_mix(const std::vector<Offer>& offers, const Aim& aim);

// Nearest to the limits of C:N (by the kg of carbon too much or too little); of these the one with
// the least water above moisture_high; of these the lightest. None when even the volume cannot be
// had.
std::optional<BestMix> nearest_mix(const std::vector<Offer>& offers, const Aim& aim);

}  // namespace wheyfield::compost
