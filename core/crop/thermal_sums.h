// The warmth gathered along one series of temperatures for one crop row, summed once so that a
// field's dates are found by bisection: O(log days) each.
//
// Counting is by whole days: n days after `from` the days from .. from + n - 1 have been counted,
// and a thing happens on the first day whose sum is reached. Three sums are kept: the series as it
// is, and the series warmer and colder by its spread; the earliest and latest of the three make a
// window.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "crop/thermal_time.h"
#include "weather/daily_series.h"

namespace wheyfield::crop {

class ThermalSums {
 public:
  enum class Kind { emergence, development };

  ThermalSums(const ThermalRow& row, const weather::DailySeries& series);

  // The first day on which `amount` >= 0 [C d] has gathered since `from`, in the series as it is,
  // or the earliest and the latest of the three. None when the series does not hold `from` or ends
  // before.
  std::optional<calendar::Date> likely(Kind kind, calendar::Date from, double amount) const;
  std::optional<calendar::Date> earliest(Kind kind, calendar::Date from, double amount) const;
  std::optional<calendar::Date> latest(Kind kind, calendar::Date from, double amount) const;

  // The least a day [C d] of the three over the days from `from` to the end of the series; none
  // when the series does not hold `from`.
  std::optional<double> least_a_day(Kind kind, calendar::Date from) const;

  // Development gathered over from .. to - 1 [C d]; none outside the series.
  std::optional<double> gathered(calendar::Date from, calendar::Date to) const;

 private:
  using Cumulative = std::vector<double>;  // one more than days, begins with 0
  std::optional<calendar::Date> reached(const Cumulative& sums, calendar::Date from,
                                        double amount) const;
  const std::array<Cumulative, 3>& sums(Kind kind) const;

  calendar::Date first_day_;
  std::array<Cumulative, 3> emergence_;  // as it is, warmer, colder
  std::array<Cumulative, 3> development_;
};

}  // namespace wheyfield::crop
