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

// The balance with what does not hang on the pH worked out beforehand.
class Balance {
 public:
  explicit Balance(const MilkBuffer& buffer)
      : strength_(buffer.strength), first_(std::pow(10.0, -buffer.ph0)) {
    for (const AcidGroup& group : buffer.groups) {
      const double k = std::pow(10.0, -group.pk);
      groups_.push_back({k, group.amount, k / (k + first_)});
    }
  }

  Uptake at(double protons) const {
    Uptake sum{0.0, 0.0};
    for (const Group& group : groups_) {
      const double bare = group.k / (group.k + protons);  // share without its proton
      sum.acid += group.amount * (group.bare_first - bare);
      sum.slope -= group.amount * bare * (1.0 - bare);
    }
    return {strength_ * sum.acid + 1000.0 * (protons - first_),
            std::numbers::ln10 * (strength_ * sum.slope - 1000.0 * protons)};
  }

 private:
  struct Group {
    double k;
    double amount;
    double bare_first;  // at the pH of the start
  };
  std::vector<Group> groups_;
  double strength_;
  double first_;
};

}  // namespace

double strong_acid(const MilkBuffer& buffer, double ph) {
  return Balance(buffer).at(std::pow(10.0, -ph)).acid;
}

double lactic_acid(const MilkBuffer& buffer, double ph) {
  return strong_acid(buffer, ph) * (1.0 + std::pow(10.0, buffer.lactic_pka - ph));
}

AcidCurve::AcidCurve(const MilkBuffer& buffer) {
  const Balance balance(buffer);
  const double lactic = std::pow(10.0, buffer.lactic_pka);
  const double richer = std::pow(10.0, (buffer.ph0 - lowest) / (points - 1));
  double protons = std::pow(10.0, -buffer.ph0);
  for (std::size_t i = 0; i < acid_.size(); ++i, protons *= richer) {
    ph_[i] = buffer.ph0 + (lowest - buffer.ph0) * static_cast<double>(i) / (points - 1);
    const Uptake at = balance.at(protons);
    const double bound = lactic * protons;
    acid_[i] = at.acid * (1.0 + bound);
    slope_[i] = 1.0 / (at.slope * (1.0 + bound) - at.acid * std::numbers::ln10 * bound);
  }
  for (std::size_t i = 0; i + 1 < acid_.size(); ++i) {
    const double steepest = 3.0 * (ph_[i + 1] - ph_[i]) / (acid_[i + 1] - acid_[i]);
    slope_[i] = std::max(slope_[i], steepest);
    slope_[i + 1] = std::max(slope_[i + 1], steepest);
  }
  marks_per_acid_ = static_cast<double>(marks) / acid_.back();
  std::size_t at = 0;
  for (std::size_t mark = 0; mark < marks; ++mark) {
    while (acid_[at + 1] * marks_per_acid_ <= static_cast<double>(mark)) ++at;
    before_[mark] = static_cast<std::uint8_t>(at);
  }
}

double AcidCurve::acid_per_ph(double above) const {
  const auto end = std::find_if(ph_.begin(), ph_.end(), [&](double ph) { return ph <= above; });
  return acid_[static_cast<std::size_t>(end - ph_.begin())] / (ph_.front() - *end);
}

double AcidCurve::ph(double lactic) const {
  if (lactic <= acid_.front()) return ph_.front();
  if (lactic >= acid_.back()) return ph_.back();
  const auto mark = static_cast<std::size_t>(lactic * marks_per_acid_);
  std::size_t i = before_[std::min(mark, marks - 1)];
  while (acid_[i + 1] <= lactic) ++i;
  const double width = acid_[i + 1] - acid_[i];
  const double u = (lactic - acid_[i]) / width;
  const double v = 1.0 - u;
  return v * v * ((1.0 + 2.0 * u) * ph_[i] + u * width * slope_[i]) +
         u * u * ((1.0 + 2.0 * v) * ph_[i + 1] - v * width * slope_[i + 1]);
}

}  // namespace wheyfield::fermentation
