// How much warmth a crop needs: one row of data/thermal.toml (after van Heemst 1988).
//
//   emergence    each day adds min(T, cap) - base, never below 0, until `sum` is reached
//   development  each day adds rate(T): straight lines between points, flat beyond the ends; the
//                fourth use's event (flowering, tuber start) at `to_fourth`, maturity `to_harvest`
//                later
// T is the daily mean (min + max) / 2 [C]; sums are in degree-days [C d]. No response to day
// length.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "outcome/result.h"
#include "reference_data/sourced.h"

namespace wheyfield::crop {

struct RatePoint {
  double at;     // daily mean [C]
  double gives;  // [C d a day]
};

struct EmergenceSum {
  double base;  // [C]
  double cap;   // [C]
  double sum;   // [C d]
};

struct ThermalRow {
  std::string crop;
  bool from_transplanting = false;        // else from sowing or planting in the field
  bool in_days = false;                   // after emergence the sums are days (cassava)
  std::optional<EmergenceSum> emergence;  // none: `to_fourth` counts from the start itself
  std::vector<RatePoint> rate;            // rising in `at`, at least one
  double to_fourth = 0;
  std::optional<double> to_harvest;
  std::string remark;  // code of what must be said where the row is used, or ""
  reference_data::Origin origin;

  double emergence_rate(double celsius) const;    // [C d a day], 0 without an emergence sum
  double development_rate(double celsius) const;  // [C d a day]
};

// Errors: data-missing, data-range (points not rising, or a rate below 0).
outcome::Result<ThermalRow> read_thermal_row(const nlohmann::json& row, const std::string& field);

// Days from the start when every day has the mean `celsius`, not rounded; infinite when too cold.
// `harvest` is infinite without a sum for it.
struct ConstantDays {
  double emergence;
  double fourth;
  double harvest;
};
ConstantDays days_at(const ThermalRow& row, double celsius);

}  // namespace wheyfield::crop
