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
  double caps;             // a whole number of steps
  quantity::Volume given;  // what these caps really bring
  double parts;            // the strength they really give, 1:parts; 0 when `caps` is 0
  double off;              // relative difference from the wanted dose, (given - serum) / serum
  bool fits;               // |off| within the tolerance: otherwise measure with a syringe
};

// Counts `serum` in caps of the MEASURED volume `cap`, in steps of `step` caps; `tolerance` is the
// relative error a dose may have. `serum` is what `serum_for` gives for `water` and `reading`:
//   added-to:  parts = water / given             `water` is poured in
//   in-total:  parts = (water - given) / given   `water` is the finished mix
// No serum is exactly no caps. Precondition: cap > 0 (readers hold it to cap-volume-limits).
// Errors: cap-unmeasured (no cap given: measure it, never guess).
outcome::Result<CapCount> count_caps(quantity::Volume serum, std::optional<quantity::Volume> cap,
                                     quantity::Volume water, double step, double tolerance,
                                     Reading reading = Reading::added_to);

// How a volume of mix is carried: full loads of one container and the last part load.
struct Loads {
  int full = 0;
  quantity::Volume serum_full;  // in each full load
  quantity::Volume last;        // mix in the last part load, 0 when none
  quantity::Volume serum_last;
  double loads = 0.0;  // mix / container
};

// A rest below `negligible` of a container counts as none: a mix worked out through areas and rates
// is never a whole number of cans to the drop. From the data: negligible-load.

// Containers carried for one use: whole ones, a part load counts as one. Any mix at all is carried
// once. Precondition: container > 0.
int trips(quantity::Volume mix, quantity::Volume container, double negligible);

// Precondition: container > 0.
Loads loads(quantity::Volume mix, quantity::Volume container, double parts, double negligible);

}  // namespace wheyfield::dosing
