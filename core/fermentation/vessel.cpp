#include "fermentation/vessel.h"

#include <cmath>
#include <cstddef>
#include <numbers>

namespace wheyfield::fermentation {
namespace {

constexpr double daily = 2.0 * std::numbers::pi / 24.0;  // [rad/h]

}  // namespace

double vessel_hours(const std::vector<VesselRow>& rows, double litres) {
  std::size_t above = 1;
  while (above + 1 < rows.size() && litres > rows[above].litres) ++above;
  const VesselRow& low = rows[above - 1];
  const VesselRow& high = rows[above];
  const double along = std::log(litres / low.litres) / std::log(high.litres / low.litres);
  return low.hours * std::pow(high.hours / low.hours, along);
}

double wave_kept(double tau) { return 1.0 / std::hypot(1.0, daily * tau); }

double wave_delay(double tau) { return std::atan(daily * tau) / daily; }

}  // namespace wheyfield::fermentation
