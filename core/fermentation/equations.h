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
// Those whose change hangs on the others: the places lag .. lactic, in that order.
using Inner = std::array<double, 4>;

class Equations {
 public:
  // Both must outlive the equations.
  Equations(const BatchModel& batch, const Setting& setting);

  State begin() const;
  // change: each place per hour at `now`, `hours` >= 0 after the mixing.
  void operator()(const State& now, State& change, double hours) const;
  Moment seen(const State& state, double hours) const;

  // The same for the inner places alone, the bucket at `celsius` and so much lactose left.
  void work(const Inner& now, double celsius, double lactose, Inner& change) const;
  // Lactose that is left when there is so much lactic acid [mmol/L].
  double lactose_left(double lactic) const;
  const AcidCurve& curve() const { return curve_; }
  double tau() const { return tau_; }  // [h]

 private:
  const BatchModel& batch_;
  const Setting& setting_;
  AcidCurve curve_;
  double tau_;
};

}  // namespace wheyfield::fermentation
