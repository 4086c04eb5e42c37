#include "crop/thermal_time.h"

#include <algorithm>
#include <limits>

#include <nlohmann/json.hpp>

namespace wheyfield::crop {
namespace {

using nlohmann::json;
using outcome::Problems;
using reference_data::read_number;

void read_rate(const json& row, const std::string& field, ThermalRow& thermal, Problems& problems) {
  for (const json& point : row.value("rate", json::array()))
    if (point.is_array() && point.size() == 2 && point[0].is_number() && point[1].is_number())
      thermal.rate.push_back({point[0].get<double>(), point[1].get<double>()});
  if (thermal.rate.empty())
    problems.push_back({"data-missing", field + "/rate", thermal.crop, {{"member", "rate"}}});
  for (std::size_t i = 0; i < thermal.rate.size(); ++i)
    if (thermal.rate[i].gives < 0.0 || (i > 0 && thermal.rate[i].at <= thermal.rate[i - 1].at))
      problems.push_back({"data-range", field + "/rate/" + std::to_string(i), thermal.crop, {}});
}

}  // namespace

double ThermalRow::emergence_rate(double celsius) const {
  if (!emergence) return 0.0;
  return std::max(0.0, std::min(celsius, emergence->cap) - emergence->base);
}

double ThermalRow::development_rate(double celsius) const {
  if (celsius <= rate.front().at) return rate.front().gives;
  for (std::size_t i = 1; i < rate.size(); ++i) {
    const RatePoint &a = rate[i - 1], &b = rate[i];
    if (celsius < b.at) return a.gives + (b.gives - a.gives) * (celsius - a.at) / (b.at - a.at);
  }
  return rate.back().gives;
}

outcome::Result<ThermalRow> read_thermal_row(const json& row, const std::string& field) {
  Problems problems;
  ThermalRow thermal;
  thermal.crop =
      take_or<std::string>(reference_data::read_string(row, "crop", field), "", problems);
  const auto from =
      take_or<std::string>(reference_data::read_string(row, "counts_from", field), "", problems);
  thermal.from_transplanting = from == "transplanting";
  thermal.to_fourth = take_or(read_number(row, "to_fourth", field), 0.0, problems);
  thermal.origin =
      take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
  if (!row.is_object()) return outcome::failure(problems);
  thermal.remark = row.value("remark", std::string());
  thermal.in_days = row.value("unit", std::string()) == "day";
  if (row.contains("to_harvest"))
    thermal.to_harvest = take_or(read_number(row, "to_harvest", field), 0.0, problems);
  if (row.contains("emergence")) {
    const auto number = [&](const char* member) {
      return take_or(read_number(row["emergence"], member, field + "/emergence"), 0.0, problems);
    };
    thermal.emergence = EmergenceSum{number("base"), number("cap"), number("sum")};
  }
  read_rate(row, field, thermal, problems);
  if (!problems.empty()) return outcome::failure(problems);
  return thermal;
}

ConstantDays days_at(const ThermalRow& row, double celsius) {
  constexpr double never = std::numeric_limits<double>::infinity();
  const auto days = [](double sum, double rate) { return rate > 0.0 ? sum / rate : never; };
  ConstantDays at{0.0, 0.0, never};
  if (row.emergence) at.emergence = days(row.emergence->sum, row.emergence_rate(celsius));
  const double rate = row.development_rate(celsius);
  at.fourth = at.emergence + days(row.to_fourth, rate);
  if (row.to_harvest) at.harvest = at.fourth + days(*row.to_harvest, rate);
  return at;
}

}  // namespace wheyfield::crop
