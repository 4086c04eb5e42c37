#include "fermentation/acid.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace wheyfield::fermentation {
namespace {

// B and its slope over the pH.
struct Uptake {
  double acid;
  double slope;
};

Uptake uptake(const MilkBuffer& buffer, double ph) {
  const double protons = std::pow(10.0, -ph);
  const double first = std::pow(10.0, -buffer.ph0);
  Uptake sum{0.0, 0.0};
  for (const AcidGroup& group : buffer.groups) {
    const double k = std::pow(10.0, -group.pk);
    const double bare = k / (k + protons);  // share without its proton
    sum.acid += group.amount * (k / (k + first) - bare);
    sum.slope -= group.amount * bare * (1.0 - bare);
  }
  return {buffer.strength * sum.acid + 1000.0 * (protons - first),
          std::numbers::ln10 * (buffer.strength * sum.slope - 1000.0 * protons)};
}

}  // namespace

double strong_acid(const MilkBuffer& buffer, double ph) { return uptake(buffer, ph).acid; }

double lactic_acid(const MilkBuffer& buffer, double ph) {
  return uptake(buffer, ph).acid * (1.0 + std::pow(10.0, buffer.lactic_pka - ph));
}

AcidCurve::AcidCurve(const MilkBuffer& buffer) {
  for (std::size_t i = 0; i < acid_.size(); ++i) {
    ph_[i] = buffer.ph0 + (lowest - buffer.ph0) * static_cast<double>(i) / (points - 1);
    const Uptake at = uptake(buffer, ph_[i]);
    const double bound = std::pow(10.0, buffer.lactic_pka - ph_[i]);
    acid_[i] = at.acid * (1.0 + bound);
    slope_[i] = 1.0 / (at.slope * (1.0 + bound) - at.acid * std::numbers::ln10 * bound);
  }
  for (std::size_t i = 0; i + 1 < acid_.size(); ++i) {
    const double steepest = 3.0 * (ph_[i + 1] - ph_[i]) / (acid_[i + 1] - acid_[i]);
    slope_[i] = std::max(slope_[i], steepest);
    slope_[i + 1] = std::max(slope_[i + 1], steepest);
  }
}

double AcidCurve::ph(double lactic) const {
  if (lactic <= acid_.front()) return ph_.front();
  if (lactic >= acid_.back()) return ph_.back();
  const auto above = std::upper_bound(acid_.begin(), acid_.end(), lactic);
  const auto i = static_cast<std::size_t>(above - acid_.begin()) - 1;
  const double width = acid_[i + 1] - acid_[i];
  const double u = (lactic - acid_[i]) / width;
  const double v = 1.0 - u;
  return v * v * ((1.0 + 2.0 * u) * ph_[i] + u * width * slope_[i]) +
         u * u * ((1.0 + 2.0 * v) * ph_[i + 1] - v * width * slope_[i + 1]);
}

}  // namespace wheyfield::fermentation
