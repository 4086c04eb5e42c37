// The differential equations of batch.h themselves: for `course`, and for whoever integrates them
// by another method.
#pragma once

#include <array>
#include <cstddef>

#include "fermentation/batch.h"

namespace wheyfield::fermentation {

// Places of a state: [C], ln q, ln [1/mL] twice, [mmol/L] twice.
enum Place : std::size_t { temperature, lag, ln_fast, ln_tolerant, lactic, lactose, places };
using State = std::array<double, places>;

class Equations {
 public:
  // Both must outlive the equations.
  Equations(const BatchModel& batch, const Setting& setting);

  State begin() const;
  // change: each place per hour at `now`, `hours` >= 0 after the mixing.
  void operator()(const State& now, State& change, double hours) const;
  Moment seen(const State& state, double hours) const;

 private:
  const BatchModel& batch_;
  const Setting& setting_;
  AcidCurve curve_;
  double tau_;
};

}  // namespace wheyfield::fermentation
