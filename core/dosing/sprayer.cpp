#include "dosing/sprayer.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "dosing/measured.h"

namespace wheyfield::dosing {

using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;
using quantity::in_litres;
using quantity::in_metres;
using quantity::in_millilitres;
using quantity::in_square_metres;

Result<Length> rate_by_area(Volume used, Area area) {
  const Problems bad =
      not_above_zero({{"/used", in_litres(used)}, {"/area", in_square_metres(area)}});
  if (!bad.empty()) return failure(bad);
  return used / area;
}

Result<Length> rate_by_time(Area area, double cover_seconds, Volume caught, double catch_seconds) {
  const Problems bad = not_above_zero({{"/area", in_square_metres(area)},
                                       {"/cover_seconds", cover_seconds},
                                       {"/caught", in_litres(caught)},
                                       {"/catch_seconds", catch_seconds}});
  if (!bad.empty()) return failure(bad);
  return caught / area * (cover_seconds / catch_seconds);
}

Result<Length> rate_by_128th(Volume caught) {
  const Problems bad = not_above_zero({{"/caught", in_millilitres(caught)}});
  if (!bad.empty()) return failure(bad);
  return caught / plot_128th();
}

Result<Length> rate_by_flow(double litres_per_minute, double km_per_hour, Length swath) {
  const Problems bad = not_above_zero(
      {{"/flow", litres_per_minute}, {"/speed", km_per_hour}, {"/swath", in_metres(swath)}});
  if (!bad.empty()) return failure(bad);
  return litres_per_hectare(600.0 * litres_per_minute / (km_per_hour * in_metres(swath)));
}

Result<double> walking_speed(double seconds_per_100_m) {
  const Problems bad = not_above_zero({{"/seconds", seconds_per_100_m}});
  if (!bad.empty()) return failure(bad);
  return 360.0 / seconds_per_100_m;
}

namespace {

void question_runs(Runs& runs, const std::vector<Length>& each, RunLimits limits) {
  const std::string spread = shown(quantity::rounded(100.0 * runs.spread, 0));
  const auto ask = [&](const char* code, double limit, Severity severity) {
    runs.problems.push_back(
        {code,
         "/runs",
         spread + " %",
         {{"spread", spread},
          {"limit", shown(limit)},
          {"lowest", shown(static_cast<double>(runs.lowest + 1))},
          {"highest", shown(static_cast<double>(runs.highest + 1))},
          {"low", shown(quantity::rounded(in_litres_per_hectare(each[runs.lowest]), 1))},
          {"high", shown(quantity::rounded(in_litres_per_hectare(each[runs.highest]), 1))}},
         severity});
  };
  if (each.size() < limits.advised)
    runs.problems.push_back({"runs-few",
                             "/runs",
                             shown(static_cast<double>(each.size())),
                             {{"advised", shown(static_cast<double>(limits.advised))}},
                             Severity::notice});
  const double apart = quantity::rounded(runs.spread, 9);
  runs.apart = apart > limits.apart_above;
  if (runs.apart)
    ask("runs-apart", 100.0 * limits.apart_above, Severity::question);
  else if (apart > limits.redo_above)
    ask("runs-spread", 100.0 * limits.redo_above, Severity::question);
}

}  // namespace

Result<Runs> mean_of_runs(const std::vector<Length>& each, RunLimits limits) {
  if (each.empty()) return failure({"runs-missing", "/runs", "", {}});
  Problems bad;
  for (std::size_t i = 0; i < each.size(); ++i)
    outcome::append(
        bad,
        not_above_zero({{("/runs/" + std::to_string(i)).c_str(), in_litres_per_hectare(each[i])}}));
  if (!bad.empty()) return failure(bad);
  const auto [least, most] = std::minmax_element(each.begin(), each.end());
  Runs runs;
  for (Length one : each) runs.mean += one / static_cast<double>(each.size());
  runs.spread = (*most - *least) / runs.mean;
  runs.lowest = static_cast<std::size_t>(least - each.begin());
  runs.highest = static_cast<std::size_t>(most - each.begin());
  question_runs(runs, each, limits);
  return runs;
}

Result<FieldDose> dose_field(Length rate, Area field, Volume tank, double parts,
                             double negligible) {
  const Problems bad = not_above_zero({{"/rate", in_litres_per_hectare(rate)},
                                       {"/area", in_square_metres(field)},
                                       {"/tank", in_litres(tank)}});
  if (!bad.empty()) return failure(bad);
  const Volume mix = rate * field;
  constexpr double most_loads = 1e6;
  if (mix / tank > most_loads)
    return failure(
        {"too-large", "/area", shown(mix / tank), {{"limit", shown(most_loads) + " loads"}}});
  return FieldDose{mix, serum_for(mix, parts, Reading::added_to),
                   loads(mix, tank, parts, negligible)};
}

Result<double> trees_per_tank(double trees, Volume used, Volume tank) {
  const Problems bad =
      not_above_zero({{"/trees", trees}, {"/used", in_litres(used)}, {"/tank", in_litres(tank)}});
  if (!bad.empty()) return failure(bad);
  return trees * (tank / used);
}

Result<double> nozzle_size(std::string_view name) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const bool read =
      (name.size() == 2 || name.size() == 3) && std::all_of(name.begin(), name.end(), digit);
  double tenths = 0.0;
  if (read)
    for (char c : name) tenths = tenths * 10.0 + (c - '0');
  if (!(tenths > 0.0)) return failure({"nozzle-size-unreadable", "/size", std::string(name), {}});
  return name.size() == 2 ? tenths : tenths / 10.0;
}

Result<double> nozzle_flow(double size, double bar, NozzleRule rule) {
  // 1 psi = 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)2 = 6894.757 Pa (NIST SP 811, B.8).
  constexpr double bar_per_psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1e5;
  Problems bad = not_above_zero({{"/size", size}});
  if (!not_above_zero({{"", bar}}).empty())
    bad.push_back({"pressure-zero", "/pressure", shown(bar), {}});
  if (!bad.empty()) return failure(bad);
  return in_litres(us_gallons(size * rule.us_gallons_per_minute)) *
         std::sqrt(bar / (rule.psi * bar_per_psi));
}

Result<NozzleCheck> check_nozzle(double measured, double nominal, NozzleLimits limits) {
  const Problems bad = not_above_zero({{"/measured", measured}, {"/nominal", nominal}});
  if (!bad.empty()) return failure(bad);
  const double off = measured / nominal - 1.0, told = quantity::rounded(off, 9);
  return NozzleCheck{off, told > limits.worn_above   ? NozzleState::worn
                          : told < -limits.low_below ? NozzleState::low
                                                     : NozzleState::good};
}

}  // namespace wheyfield::dosing
