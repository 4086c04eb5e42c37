#include "crop/thermal_sums.h"

#include <algorithm>

namespace wheyfield::crop {
namespace {

using calendar::Date;

// A sum that misses its goal by less than this [C d] has reached it: rounding, not cold.
constexpr double hair = 1e-9;

template <class Rate>
std::vector<double> cumulative(const weather::DailySeries& series, double warmer, Rate rate) {
  std::vector<double> sums{0.0};
  sums.reserve(series.min.size() + 1);
  for (std::size_t i = 0; i < series.min.size(); ++i)
    sums.push_back(sums.back() + rate((series.min[i] + series.max[i]) / 2.0 + warmer));
  return sums;
}

}  // namespace

ThermalSums::ThermalSums(const ThermalRow& row, const weather::DailySeries& series)
    : first_day_(series.first_day) {
  const double shifts[] = {0.0, series.spread, -series.spread};
  for (std::size_t s = 0; s < 3; ++s) {
    emergence_[s] = cumulative(series, shifts[s], [&](double t) { return row.emergence_rate(t); });
    development_[s] =
        cumulative(series, shifts[s], [&](double t) { return row.development_rate(t); });
  }
}

const std::array<ThermalSums::Cumulative, 3>& ThermalSums::sums(Kind kind) const {
  return kind == Kind::emergence ? emergence_ : development_;
}

std::optional<Date> ThermalSums::reached(const Cumulative& sums, Date from, double amount) const {
  const int start = from - first_day_;
  if (start < 0 || start >= static_cast<int>(sums.size())) return std::nullopt;
  const auto first = sums.begin() + start;
  const auto found = std::lower_bound(first, sums.end(), *first + amount - hair);
  if (found == sums.end()) return std::nullopt;
  return first_day_ + static_cast<int>(found - sums.begin());
}

std::optional<Date> ThermalSums::likely(Kind kind, Date from, double amount) const {
  return reached(sums(kind)[0], from, amount);
}

std::optional<Date> ThermalSums::earliest(Kind kind, Date from, double amount) const {
  std::optional<Date> best;
  for (const Cumulative& each : sums(kind))
    if (const auto day = reached(each, from, amount); day && (!best || *day < *best)) best = day;
  return best;
}

std::optional<Date> ThermalSums::latest(Kind kind, Date from, double amount) const {
  std::optional<Date> best = from;
  for (const Cumulative& each : sums(kind)) {
    const auto day = reached(each, from, amount);
    if (!day) return std::nullopt;
    best = std::max(*best, *day);
  }
  return best;
}

std::optional<double> ThermalSums::least_a_day(Kind kind, Date from) const {
  const int start = from - first_day_;
  const int days = static_cast<int>(emergence_[0].size()) - 1 - start;
  if (start < 0 || days <= 0) return std::nullopt;
  double least = sums(kind)[0].back();
  for (const Cumulative& each : sums(kind))
    least = std::min(least, each.back() - each[static_cast<std::size_t>(start)]);
  return least / days;
}

std::optional<double> ThermalSums::gathered(Date from, Date to) const {
  const Cumulative& sums = development_[0];
  const int last = static_cast<int>(sums.size()) - 1;
  const int a = from - first_day_, b = to - first_day_;
  if (a < 0 || b < 0 || a > last || b > last) return std::nullopt;
  return sums[static_cast<std::size_t>(b)] - sums[static_cast<std::size_t>(a)];
}

}  // namespace wheyfield::crop
