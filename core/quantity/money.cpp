#include "quantity/money.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::quantity {

// 1.0005 comes a hair under its half; the push stays far below a thousandth for large sums too.
Money Money::from_amount(double amount) {
  const double thousandths = amount * 1000.0;
  const double push = std::min(std::fabs(thousandths) * 1e-15, 1e-4);
  return from_thousandths(std::llround(thousandths + std::copysign(push, thousandths)));
}

std::int64_t Money::whole() const {
  const std::int64_t half = thousandths_ < 0 ? -500 : 500;
  return (thousandths_ + half) / 1000;
}

Money Money::times(double factor) const {
  return from_thousandths(std::llround(static_cast<double>(thousandths_) * factor));
}

}  // namespace wheyfield::quantity
