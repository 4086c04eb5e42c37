// How fast batches of one place are: what earlier buckets tell of the next one.
//
// The deviate of `speed` of a batch is a part of its place and a part of its own,
//   z = sqrt(w) u + sqrt(1 - w) e,    u and e standard normal,
// so that z of a batch of an unknown place stays standard normal. w is row speed-place-share of
// data/fermentation.toml (assumption), 0 <= w < 1. What is learned is the distribution of u, on a
// grid:
//   p(u | batches) ~ N(u; 0, 1) product over batches of [c L(u) + 1 - c]
//   L(u) = n sum_i w_i r(z_i, u) / sum_i r(z_i, u),  r(z, u) = N(z; sqrt(w) u, 1 - w) / N(z; 0, 1)
// over the n members of an ensemble, weighed by the batch's own readings (w_i), c the chance that
// the batch was not failing: one that fails tells nothing of the speed. Dividing by the draw's own
// sum takes most of its chance out; without readings L is 1.
//
// Only the speed is shared. Readings tell one thing of a batch, how fast it is (docs).
#pragma once

#include <cstdint>
#include <vector>

#include "fermentation/batch.h"
#include "fermentation/ensemble.h"
#include "fermentation/parameters.h"
#include "fermentation/reading.h"

namespace wheyfield::fermentation {

// Of the usual speed; 1 is usual.
struct SpeedFactor {
  double low;     // 10 %
  double likely;  // 50 %
  double high;    // 90 %
};

class PlaceSpeed {
 public:
  // Nothing recorded: u is standard normal.
  explicit PlaceSpeed(const ParameterTable& table);

  // One more batch of the place: the usual members of its ensemble after `learn` with its readings,
  // not refreshed, and learned without a place. In any order.
  void learn(const Hypothesis& usual);

  // How much likelier a batch of this place has the deviate z of `speed` than a batch anywhere:
  // integral of p(u) r(z, u) du. 1 while no batch is recorded.
  double tilt(double z) const;

  // Speed of the middle batch of the place, speed.at(sqrt(w) u).
  SpeedFactor factor() const;

  int batches() const { return batches_; }  // that it rests on

 private:
  double ratio(double z, double u) const;
  double quantile(double share) const;

  Parameter speed_;
  double place_share_;          // w
  std::vector<double> chance_;  // of each u of the grid; they add up to 1
  int batches_ = 0;
};

// Turns what an ensemble learned without a place into what it says at this place: the weights of
// the usual batches times their tilt, and both chances by the evidence under that prior. Failing
// batches keep their weights. The place must not have learned from this batch.
void weigh_by_place(const PlaceSpeed& place, Hypothesis& usual, Hypothesis& failing);

// A batch of the place as it was recorded.
struct RecordedBatch {
  Setting setting;
  std::vector<Reading> readings;
  std::uint64_t seed;  // of its draws: another for each batch, and the same each time
};

// From batches of one place; those without a strip, a meter or a look tell nothing and do not
// count. Each is drawn anew with so many members, up to its last reading.
PlaceSpeed place_speed(const ParameterTable& table, const std::vector<RecordedBatch>& batches,
                       std::uint32_t members = 500);

}  // namespace wheyfield::fermentation
