// 1:500 into what she holds in her hand.
//
// `1:n` means one part serum ADDED TO n parts water. A can may be filled with that much water, or
// topped up until the finished mix fills it; the two differ by about 1/n (0.2 % at 1:500, 1 % at
// 1:100), so every answer says which was counted.
//   added-to:  serum = water / n
//   in-total:  serum = mix / (n + 1)
#pragma once

#include <optional>

#include "outcome/result.h"
#include "quantity/quantity.h"

namespace wheyfield::dosing {

enum class Reading { added_to, in_total };

// Serum for `water` (added-to: the water poured in; in-total: the finished mix). Precondition parts
// > 1, water >= 0.
quantity::Volume serum_for(quantity::Volume water, double parts, Reading reading);

// Stored serum of an acre over a season [L/acre]: `uses` times the mix of one use [L/acre] at
// 1:parts. Set against the recipe's usual season dose, it shows a strength that was mistyped.
double season_litres_per_acre(double mix_litres_per_acre, double parts, int uses);

struct CapCount {
  double caps;             // counted in steps of half a cap
  quantity::Volume given;  // what these caps really bring
  double parts;            // the strength they really give, 1:parts added to the same water
  double off;              // relative difference from the wanted dose
  bool fits;               // |off| within the tolerance: otherwise measure with a syringe
};

// Counts `serum` in caps of the MEASURED volume `cap`.
// Errors: cap-unmeasured (no cap given: measure it, never guess), cap-out-of-range (not 1..100 mL).
outcome::Result<CapCount> count_caps(quantity::Volume serum, std::optional<quantity::Volume> cap,
                                     quantity::Volume water, double step, double tolerance);

// How a volume of mix is carried: full loads of one container and the last part load.
struct Loads {
  int full = 0;
  quantity::Volume serum_full;  // in each full load
  quantity::Volume last;        // mix in the last part load, 0 when none
  quantity::Volume serum_last;
  double loads = 0.0;  // mix / container
};

// Precondition: container > 0. A rest below a hundredth of the container counts as none.
Loads loads(quantity::Volume mix, quantity::Volume container, double parts);

}  // namespace wheyfield::dosing
