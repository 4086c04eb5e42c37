#include "fermentation/place_speed.h"

#include <cmath>
#include <cstddef>

namespace wheyfield::fermentation {
namespace {

constexpr double farthest = 5.0;
constexpr double grid_step = 0.1;
constexpr std::size_t grid_points = 101;

double grid_at(std::size_t i) { return grid_step * static_cast<double>(i) - farthest; }

void scale_to_one(std::vector<double>& density) {
  double sum = 0.0;
  for (const double each : density) sum += each;
  for (double& each : density) each /= sum;
}

}  // namespace

PlaceSpeed::PlaceSpeed(const ParameterTable& table)
    : place_share_(table.row("speed-place-share").value), spread_(table.row("speed").spread) {
  for (std::size_t i = 0; i < grid_points; ++i)
    density_.push_back(std::exp(-0.5 * grid_at(i) * grid_at(i)));
  scale_to_one(density_);
}

double PlaceSpeed::ratio(double z, double u) const {
  const double own = 1.0 - place_share_;
  const double off = z - std::sqrt(place_share_) * u;
  return std::exp(0.5 * z * z - 0.5 * off * off / own) / std::sqrt(own);
}

void PlaceSpeed::learn(const Hypothesis& usual) {
  for (std::size_t i = 0; i < grid_points; ++i) {
    double fit = 0.0;
    for (const Member& member : usual.members)
      fit += member.weight * ratio(of(member.z, Differs::speed), grid_at(i));
    density_[i] *= usual.chance * fit + (1.0 - usual.chance);
  }
  scale_to_one(density_);
  ++batches_;
}

double PlaceSpeed::tilt(double z) const {
  double mean = 0.0;
  for (std::size_t i = 0; i < grid_points; ++i) mean += density_[i] * ratio(z, grid_at(i));
  return mean;
}

double PlaceSpeed::factor_at(double share) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < grid_points; ++i) {
    const double before = sum;
    sum += density_[i];
    if (sum < share) continue;
    const double u = grid_at(i) + grid_step * ((share - before) / density_[i] - 0.5);
    return std::exp(spread_ * std::sqrt(place_share_) * u);
  }
  return std::exp(spread_ * std::sqrt(place_share_) * farthest);
}

}  // namespace wheyfield::fermentation
