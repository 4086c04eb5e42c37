#include "fermentation/place_speed.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace wheyfield::fermentation {
namespace {

// u from -6 to 6 by a tenth.
constexpr std::size_t grid_points = 121;
constexpr double grid_step = 0.1;

double grid_u(std::size_t k) { return (static_cast<double>(k) - 60.0) * grid_step; }

void make_one(std::vector<double>& chances) {
  double sum = 0.0;
  for (const double each : chances) sum += each;
  for (double& each : chances) each /= sum;
}

bool tells_speed(const Reading& reading) { return reading.kind != Reading::Kind::thermometer; }

double last_hour(const std::vector<Reading>& readings) {
  double last = 0.0;
  for (const Reading& reading : readings) last = std::max(last, reading.hours);
  return last;
}

}  // namespace

PlaceSpeed::PlaceSpeed(const ParameterTable& table)
    : speed_(table.row("speed")), place_share_(table.row("speed-place-share").value) {
  for (std::size_t k = 0; k < grid_points; ++k)
    chance_.push_back(std::exp(-0.5 * grid_u(k) * grid_u(k)));
  make_one(chance_);
}

double PlaceSpeed::ratio(double z, double u) const {
  const double own = 1.0 - place_share_;
  const double off = z - std::sqrt(place_share_) * u;
  return std::exp(0.5 * (z * z - off * off / own)) / std::sqrt(own);
}

void PlaceSpeed::learn(const Hypothesis& usual) {
  const double count = static_cast<double>(usual.members.size());
  for (std::size_t k = 0; k < grid_points; ++k) {
    double weighed = 0.0, drawn = 0.0;
    for (const Member& member : usual.members) {
      const double each = ratio(of(member.z, Differs::speed), grid_u(k));
      weighed += member.weight * each;
      drawn += each / count;
    }
    chance_[k] *= usual.chance * weighed / drawn + 1.0 - usual.chance;
  }
  make_one(chance_);
  ++batches_;
}

double PlaceSpeed::tilt(double z) const {
  if (batches_ == 0) return 1.0;
  double sum = 0.0;
  for (std::size_t k = 0; k < grid_points; ++k) sum += chance_[k] * ratio(z, grid_u(k));
  return sum;
}

double PlaceSpeed::quantile(double share) const {
  double below = 0.0;
  std::size_t k = 0;
  while (k + 1 < grid_points && below + chance_[k] < share) below += chance_[k++];
  return grid_u(k) + grid_step * ((share - below) / chance_[k] - 0.5);
}

SpeedFactor PlaceSpeed::factor() const {
  const auto at = [&](double share) {
    return speed_.at(std::sqrt(place_share_) * quantile(share)) / speed_.value;
  };
  return {at(0.1), at(0.5), at(0.9)};
}

void weigh_by_place(const PlaceSpeed& place, Hypothesis& usual, Hypothesis& failing) {
  if (place.batches() == 0) return;
  double evidence = 0.0;  // of that of the usual batches anywhere
  for (Member& member : usual.members) {
    member.weight *= place.tilt(of(member.z, Differs::speed));
    evidence += member.weight;
  }
  for (Member& member : usual.members) member.weight /= evidence;
  const double both = usual.chance * evidence + failing.chance;
  usual.chance *= evidence / both;
  failing.chance /= both;
}

PlaceSpeed place_speed(const ParameterTable& table, const std::vector<RecordedBatch>& batches,
                       std::uint32_t members) {
  PlaceSpeed place(table);
  for (const RecordedBatch& batch : batches) {
    if (std::none_of(batch.readings.begin(), batch.readings.end(), tells_speed)) continue;
    Setting setting = batch.setting;
    setting.horizon = std::min(setting.horizon, std::floor(last_hour(batch.readings)) + 1.0);
    Ensemble ensemble(table, setting, batch.seed, members);
    ensemble.learn(batch.readings);
    place.learn(ensemble.usual());
  }
  return place;
}

}  // namespace wheyfield::fermentation
