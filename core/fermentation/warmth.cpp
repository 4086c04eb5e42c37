#include "fermentation/warmth.h"

#include <cmath>
#include <cstddef>

namespace wheyfield::fermentation {

Warmth::Warmth(const Air& air, double begin, double offset, double tau, double horizon)
    : corner_(air.first_corner()), tau_(tau) {
  const double kept = std::exp(-Air::between_corners / tau);
  stretches_.reserve(static_cast<std::size_t>(horizon / Air::between_corners) + 2);
  double start = 0.0, celsius = begin, now = air.at(0.0) + offset;
  for (int corner = 0; start <= horizon; ++corner) {
    const double end = corner_ + corner * Air::between_corners;
    const double then = air.at(end) + offset;
    const double slope = (then - now) / (end - start);
    const double line = now - slope * tau;
    stretches_.push_back({start, line, slope, celsius - line});
    const double left = corner == 0 ? std::exp(-(end - start) / tau) : kept;
    celsius = line + slope * (end - start) + (celsius - line) * left;
    start = end;
    now = then;
  }
}

double Warmth::at(double hours) const {
  const std::size_t i =
      hours < corner_ ? 0 : 1 + static_cast<std::size_t>((hours - corner_) / Air::between_corners);
  const Stretch& in = stretches_[i];
  const double along = hours - in.start;
  return in.line + in.slope * along + in.off * std::exp(-along / tau_);
}

}  // namespace wheyfield::fermentation
