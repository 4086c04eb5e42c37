// A batch of the model itself as a keeper would see it: strips, meter and looks, read with the
// errors of the table, the same for the same number on every machine.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>

#include "fermentation/ensemble.h"
#include "fermentation/normal.h"
#include "numerics/stream.h"

namespace wheyfield::testing {

class KeptBatch {
 public:
  using Reading = fermentation::Reading;

  KeptBatch(const fermentation::Member& truth, std::uint64_t number)
      : truth_(truth), stream_(77, number) {
    bias_ = 0.15 * fermentation::standard_normal(stream_);
  }
  Reading strip(double hours, double step = 0.5) {
    double read =
        ph(hours) + bias_ + (step > 0.3 ? 0.25 : 0.20) * fermentation::standard_normal(stream_);
    if (fermentation::even(stream_) < 0.02) read = 3.0 + 4.0 * fermentation::even(stream_);
    return {Reading::Kind::strip, hours, std::round(read / step) * step, step};
  }
  Reading meter(double hours) {
    const double read = ph(hours) + bias_ + 0.08 * fermentation::standard_normal(stream_);
    return {Reading::Kind::meter, hours, std::round(read / 0.1) * 0.1, 0.1};
  }
  Reading set(double hours) {
    const double seen = ph(hours) + 0.15 * fermentation::standard_normal(stream_);
    return {Reading::Kind::set, hours, seen < 4.85 ? 1.0 : 0.0};
  }
  double ph(double hours) const { return truth_.ph[static_cast<std::size_t>(hours)]; }

 private:
  const fermentation::Member& truth_;
  numerics::Stream stream_;
  double bias_ = 0.0;
};

}  // namespace wheyfield::testing
