// A mixture for a heap: its C:N and its water, and how much of a second ingredient, or of water,
// brings it to a goal.
//
//   C:N      = sum Q (1-M) C / sum Q (1-M) N          dry weights, never the mean of the ratios
//   moisture = sum Q M / sum Q                        wet weights
//   second for a ratio R:     Q2 = (R N - C) / [(1-M2) (c2 - R n2)]
//   second for a moisture G:  Q2 = Q (G - M) / (M2 - G)
//   water for a moisture G:   W  = Q (G - M) / (1 - G)
// Q wet kg, M moisture, C and N kg of carbon and nitrogen of what is there, c2 and n2 those of one
// dry kg of the second. These are the formulas of Cornell's composting pages, the first one
// written for several ingredients (docs/models/compost.md).
#pragma once

#include <optional>
#include <vector>

#include "compost/ingredient.h"

namespace wheyfield::compost {

struct Part {
  Contents what;
  double kg = 0.0;  // wet, >= 0
};

struct Blend {
  double kg = 0.0;        // wet
  double water = 0.0;     // [kg]
  double carbon = 0.0;    // [kg]
  double nitrogen = 0.0;  // [kg]

  std::optional<double> ratio() const;  // C:N; none without nitrogen
  double moisture() const;              // [% of wet weight]; 0 of nothing
};

Blend blend(const std::vector<Part>& parts);
// Loose volume [L]: the volumes are added, though small pieces fill the gaps of large ones. None
// when a part has no density.
std::optional<double> loose_litres(const std::vector<Part>& parts);

// Wet kg of `second`. None when no amount of it brings the mix there: it lies on the same side of
// the goal as what is there, or exactly on it.
std::optional<double> second_for_ratio(const Blend& there, const Contents& second, double ratio);
// moisture in % of wet weight, 0 < moisture < 100.
std::optional<double> second_for_moisture(const Blend& there, const Contents& second,
                                          double moisture);
// [kg], the same number in litres; 0 when it is as wet already.
double water_for_moisture(const Blend& there, double moisture);

}  // namespace wheyfield::compost
