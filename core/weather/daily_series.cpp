#include "weather/daily_series.h"

#include <algorithm>
#include <map>

namespace wheyfield::weather {
namespace {

using calendar::Date;
using outcome::failure;
using outcome::Result;

// The middle day of a month; day 15 is near enough to halves of 28 to 31 days.
Date mid_month(const MonthlyMean& m) { return Date::from_civil(m.year, m.month, 15); }

outcome::Problems month_problems(const std::vector<MonthlyMean>& months) {
  outcome::Problems problems;
  std::map<std::pair<int, int>, std::size_t> seen;
  for (std::size_t i = 0; i < months.size(); ++i) {
    const MonthlyMean& m = months[i];
    const std::string field = "/months/" + std::to_string(i);
    const auto text = [](double v) {
      std::string s = std::to_string(v);
      return s.substr(0, s.find('.') + 2);
    };
    if (!seen.emplace(std::pair{m.year, m.month}, i).second)
      problems.push_back({"month-twice", field + "/month", "", {}});
    for (const auto& [name, value] : {std::pair{"/min", m.min}, {"/max", m.max}})
      if (!(value >= -10.0 && value <= 50.0))
        problems.push_back({"temperature-out-of-range", field + name, text(value), {}});
    if (m.min > m.max)
      problems.push_back(
          {"minimum-above-maximum", field + "/min", text(m.min), {{"limit", text(m.max)}}});
  }
  return problems;
}

}  // namespace

bool DailySeries::covers(Date day) const {
  return day >= first_day && day - first_day < static_cast<int>(min.size());
}

double DailySeries::mean(Date day) const {
  const int last = static_cast<int>(min.size()) - 1;
  const auto i = static_cast<std::size_t>(std::clamp(day - first_day, 0, last));
  return (min[i] + max[i]) / 2.0;
}

double DailySeries::mean_over(Date first, int days) const {
  double sum = 0.0;
  for (int i = 0; i < days; ++i) sum += mean(first + i);
  return sum / days;
}

Result<DailySeries> from_monthly_means(const std::vector<MonthlyMean>& given, Date from, Date to) {
  if (given.empty()) return failure({"months-missing", "/months", "", {}});
  if (auto problems = month_problems(given); !problems.empty()) return failure(problems);
  std::vector<MonthlyMean> months = given;
  std::stable_sort(months.begin(), months.end(), [](const MonthlyMean& a, const MonthlyMean& b) {
    return mid_month(a) < mid_month(b);
  });
  DailySeries series{from, {}, {}, Origin::monthly_means, 0.0};
  std::size_t next = 0;
  for (Date day = from; day <= to; day = day + 1) {
    while (next < months.size() && mid_month(months[next]) < day) ++next;
    const MonthlyMean& b = months[std::min(next, months.size() - 1)];
    const MonthlyMean& a = months[next == 0 ? 0 : next - 1];
    const int span = mid_month(b) - mid_month(a);
    const double share = span == 0 ? 0.0 : static_cast<double>(day - mid_month(a)) / span;
    series.min.push_back(a.min + share * (b.min - a.min));
    series.max.push_back(a.max + share * (b.max - a.max));
  }
  return series;
}

Result<double> mean_at_altitude(quantity::Length altitude,
                                const reference_data::ReferenceData& data) {
  const double metres = quantity::in_metres(altitude);
  const auto refused = [&](const char* code, const std::string& limit) {
    return failure({code,
                    "/altitude",
                    std::to_string(static_cast<long long>(metres)) + " m",
                    {{"limit", limit}}});
  };
  const double least = data.constant("altitude-least").value;
  if (!(metres >= least))
    return refused("altitude-too-low", std::to_string(static_cast<int>(least)));
  if (metres > 6000.0) return refused("altitude-too-high", "6000");
  return data.constant("altitude-intercept").value -
         data.constant("altitude-lapse").value * metres / 1000.0;
}

Result<DailySeries> from_altitude(quantity::Length altitude, Date from, Date to,
                                  const reference_data::ReferenceData& data) {
  const auto mean = mean_at_altitude(altitude, data);
  if (!mean) return failure(mean.error());
  const auto days = static_cast<std::size_t>(to - from) + 1;
  return DailySeries{from, std::vector<double>(days, *mean), std::vector<double>(days, *mean),
                     Origin::altitude, data.constant("altitude-spread").value};
}

}  // namespace wheyfield::weather
