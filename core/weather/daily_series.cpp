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

Date first_of(const MonthlyMean& m) { return Date::from_civil(m.year, m.month, 1); }
Date first_after(const MonthlyMean& m) {
  return Date::from_civil(m.year + m.month / 12, m.month % 12 + 1, 1);
}

// Places in the list, in order of time.
std::vector<std::size_t> in_order(const std::vector<MonthlyMean>& months) {
  std::vector<std::size_t> order(months.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return mid_month(months[a]) < mid_month(months[b]);
  });
  return order;
}

outcome::Problems month_problems(const std::vector<MonthlyMean>& months) {
  outcome::Problems problems;
  std::map<std::pair<int, int>, std::size_t> seen;
  for (std::size_t i = 0; i < months.size(); ++i) {
    const MonthlyMean& m = months[i];
    const std::string field = "/months/" + std::to_string(i);
    if (!seen.emplace(std::pair{m.year, m.month}, i).second)
      problems.push_back({"month-twice", field + "/month", "", {}});
    append(problems, temperature_problems(m.min, m.max, field));
  }
  return problems;
}

}  // namespace

std::string_view origin_word(Origin origin) {
  static constexpr std::string_view words[] = {"readings", "monthly-means", "station", "altitude"};
  return words[static_cast<std::size_t>(origin)];
}

const reference_data::Sourced& spread_of(Origin origin, const reference_data::ReferenceData& data) {
  static constexpr std::string_view ids[] = {"readings-spread", "months-spread", "station-spread",
                                             "altitude-spread"};
  return data.constant(ids[static_cast<std::size_t>(origin)]);
}

std::string one_decimal(double value) {
  const std::string digits = std::to_string(value);
  return digits.substr(0, digits.find('.') + 2);
}

outcome::Problems temperature_problems(double min, double max, const std::string& field) {
  outcome::Problems problems;
  for (const auto& [name, value] : {std::pair{"/min", min}, {"/max", max}})
    if (!(value >= lowest_celsius && value <= highest_celsius))
      problems.push_back({"temperature-out-of-range", field + name, one_decimal(value), {}});
  if (min > max)
    problems.push_back(
        {"minimum-above-maximum", field + "/min", one_decimal(min), {{"limit", one_decimal(max)}}});
  return problems;
}

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
  std::vector<MonthlyMean> months;
  for (const std::size_t i : in_order(given)) {
    if (!months.empty() && first_after(months.back()) < first_of(given[i]))
      return failure({"month-gap",
                      "/months/" + std::to_string(i) + "/month",
                      first_after(months.back()).iso().substr(0, 7),
                      {}});
    months.push_back(given[i]);
  }
  const MonthlyMean &first = months.front(), &last = months.back();
  DailySeries series{
      from, {}, {}, Origin::monthly_means, 0.0, first_of(first), first_after(last) - 1};
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
  if (metres > highest_metres)
    return refused("altitude-too-high", std::to_string(static_cast<int>(highest_metres)));
  return data.constant("altitude-intercept").value -
         data.constant("altitude-lapse").value * metres / 1000.0;
}

Result<DailySeries> from_altitude(quantity::Length altitude, Date from, Date to,
                                  const reference_data::ReferenceData& data) {
  const auto mean = mean_at_altitude(altitude, data);
  if (!mean) return failure(mean.error());
  const auto days = static_cast<std::size_t>(to - from) + 1;
  return DailySeries{from, std::vector<double>(days, *mean), std::vector<double>(days, *mean),
                     Origin::altitude, spread_of(Origin::altitude, data).value};
}

}  // namespace wheyfield::weather
