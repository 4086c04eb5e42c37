#include "lot_sizing/waiting.h"

#include <algorithm>
#include <functional>

namespace wheyfield::lot_sizing {
namespace {

constexpr std::int64_t sure = 1'000'000'000;

std::int64_t rounded(std::int64_t dividend, std::int64_t divisor) {
  return (dividend + divisor / 2) / divisor;
}

// cost x chance without overflow, to the nearest whole.
Cost expected(Cost cost, std::int64_t chance) {
  return cost / sure * chance + rounded(cost % sure * chance, sure);
}

// Corners of the lower convex envelope of points one day apart.
std::vector<std::size_t> envelope(const std::vector<Cost>& points) {
  std::vector<std::size_t> corners;
  const auto above = [&](std::size_t a, std::size_t b, std::size_t c) {
    const auto width = [](std::size_t from, std::size_t to) {
      return static_cast<Cost>(to - from);
    };
    return (points[b] - points[a]) * width(a, c) >= (points[c] - points[a]) * width(a, b);
  };
  for (std::size_t s = 0; s < points.size(); ++s) {
    while (corners.size() > 1 && above(corners[corners.size() - 2], corners.back(), s))
      corners.pop_back();
    corners.push_back(s);
  }
  return corners;
}

}  // namespace

std::vector<std::int64_t> chance_missed(const Chances& chances, int lead, int horizon) {
  std::vector<std::int64_t> missed;
  for (int slack = 0; slack <= horizon; ++slack) {
    std::int64_t sum = 0;
    for (int late = 0; late < static_cast<int>(chances.late.size()); ++late) {
      const int left = slack - late;
      const std::int64_t again = left < lead ? sure : missed[static_cast<std::size_t>(left - lead)];
      const std::int64_t chance =
          (million - chances.failed) * (left < 0 ? sure : 0) + chances.failed * again;
      sum += chances.late[static_cast<std::size_t>(late)] * rounded(chance, million);
    }
    missed.push_back(rounded(sum, million));
  }
  return missed;
}

std::vector<Cost> waiting_allowance(const Chances& chances, int lead, int horizon, Cost miss) {
  std::vector<Cost> allowance;
  for (const std::int64_t chance : chance_missed(chances, lead, horizon))
    allowance.push_back(expected(miss, chance));
  const std::vector<std::size_t> corners = envelope(allowance);
  // What the rounded envelope falls by each day, the largest first: convex again.
  std::vector<Cost> falls;
  for (std::size_t k = 1; k < corners.size(); ++k) {
    const auto days = static_cast<Cost>(corners[k] - corners[k - 1]);
    const Cost fall = allowance[corners[k - 1]] - allowance[corners[k]];
    for (Cost day = 1; day <= days; ++day)
      falls.push_back(fall * day / days - fall * (day - 1) / days);
  }
  std::stable_sort(falls.begin(), falls.end(), std::greater<>());
  for (std::size_t day = 0; day < falls.size(); ++day)
    allowance[day + 1] = allowance[day] - falls[day];
  return allowance;
}

}  // namespace wheyfield::lot_sizing
