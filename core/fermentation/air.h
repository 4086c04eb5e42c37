// The air beside the bucket, hour by hour, without a logger: the curve of Campbell and Norman
// (weather/diurnal.h) through each day's minimum and maximum. Its mean lies at min + 0.44 of the
// range, below the mid-range that degree-days count.
//
// The curve is taken every half hour of the clock and joined by straight lines (within 0.03 C for a
// range of 14 C): quick, and without the steps of the curve between two unlike days.
#pragma once

#include <array>
#include <vector>

#include "calendar/date.h"
#include "weather/daily_series.h"

namespace wheyfield::fermentation {

class Air {
 public:
  static Air constant(double celsius);
  // The same day again and again. `first_hour`: hour of the day (solar time) at which the batch
  // begins, 0 <= first_hour < 24.
  static Air daily(double min, double max, double first_hour);
  // From `first_hour` of `first` on; days outside the series count as its nearest day.
  // Precondition: the series is not empty.
  static Air series(const weather::DailySeries& series, calendar::Date first, double first_hour);

  // [C], `hours` >= 0 since the batch began.
  double at(double hours) const;

  // Where its straight lines meet [h since the batch began]: at first_corner(), in (0, 0.5], and
  // every between_corners from there on.
  static constexpr double between_corners = 0.5;
  double first_corner() const;

 private:
  struct Day {
    double min;
    double max;
  };
  static constexpr int halves = 48;  // of an hour, in a day
  Air(const std::vector<Day>& days, double first_hour, int first);
  double half_hour(int day, int half) const;

  std::vector<std::array<double, halves>> days_;  // with the nearest day before and after them
  double first_hour_;
  int first_;  // place in days_ of the day on which the batch begins; may lie outside
};

}  // namespace wheyfield::fermentation
