// What earlier batches of one place tell of the next: whether milk turns sour faster or slower
// there.
//
// How much a batch's speed is off, z (normal, 0, 1), is part the place's and part its own:
//   z = sqrt(w) u + sqrt(1 - w) e,   u, e normal (0, 1),   w = row speed-place-share.
// The density of u stands on a grid. A batch with the readings D, a usual one with the chance c,
// multiplies it by
//   c sum_i w_i r(z_i | u) + (1 - c),   r(z | u) = N(z; sqrt(w) u, 1 - w) / N(z; 0, 1),
// its members weighed by their readings under the plain prior; a failing batch tells nothing. In
// the next batch a member counts by its tilt, the mean of r(z | u) over u. Only the speed is
// shared: nothing else can be told apart by readings.
#pragma once

#include <vector>

#include "fermentation/ensemble.h"
#include "fermentation/parameters.h"

namespace wheyfield::fermentation {

class PlaceSpeed {
 public:
  // Nothing learned yet.
  explicit PlaceSpeed(const ParameterTable& table);

  // Of one batch of the place after its readings, drawn and weighed without this place. In any
  // order.
  void learn(const Hypothesis& usual);

  // How much likelier a batch of this place is to be z off than any batch; 1 with nothing learned.
  double tilt(double z) const;
  // The place's part of the speed as a factor, by which so many believed are slower; 0 < share < 1.
  double factor_at(double share) const;
  int batches() const { return batches_; }

 private:
  double ratio(double z, double u) const;

  double place_share_;           // w
  double spread_;                // of the logarithm of speed, all of it
  std::vector<double> density_;  // at the points of the grid; they add up to 1
  int batches_ = 0;
};

}  // namespace wheyfield::fermentation
