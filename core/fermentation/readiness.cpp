#include "fermentation/readiness.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

namespace wheyfield::fermentation {
namespace {

using nlohmann::json;
using outcome::Problems;
using outcome::take_or;
using reference_data::read_number;
using reference_data::read_string;

using Hours = std::optional<double>;

// `share` of the way from a to b.
Hours between_logs(const Hours& a, const Hours& b, double share) {
  if (!a || !b) return std::nullopt;
  return *a * std::pow(*b / *a, share);
}

Hours read_hours(const json& row, const char* member, const std::string& field,
                 Problems& problems) {
  if (!row.is_object() || !row.contains(member)) return std::nullopt;
  return take_or(read_number(row, member, field), 0.0, problems);
}

// A later mark is there only where the one before it is.
bool in_order(const HourWindow& hours) {
  double before = 0.0;
  bool gone = false;
  for (const Hours& each : {hours.early, hours.likely, hours.late}) {
    if (!each) {
      gone = true;
      continue;
    }
    if (gone || !(*each > 0.0) || *each < before) return false;
    before = *each;
  }
  return true;
}

}  // namespace

HourWindow ReadinessCurve::at(double celsius) const {
  return {at(celsius, &HourWindow::early), at(celsius, &HourWindow::likely),
          at(celsius, &HourWindow::late)};
}

Hours ReadinessCurve::at(double celsius, Hours HourWindow::*mark) const {
  if (rows.empty() || celsius < rows.front().celsius) return std::nullopt;
  if (celsius >= rows.back().celsius) return rows.back().hours.*mark;
  const auto above =
      std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.celsius > celsius; });
  const Row& a = *(above - 1);
  const Row& b = *above;
  if (celsius == a.celsius) return a.hours.*mark;
  return between_logs(a.hours.*mark, b.hours.*mark,
                      (celsius - a.celsius) / (b.celsius - a.celsius));
}

outcome::Result<ReadinessTable> ReadinessTable::parse(const reference_data::ReferenceData& data) {
  ReadinessTable table;
  Problems problems;
  std::size_t at = 0;
  for (const json& row : data.section("readiness")) {
    const std::string field = "/data/readiness/" + std::to_string(at++);
    const auto liquid = take_or<std::string>(read_string(row, "liquid", field), "", problems);
    const auto state = take_or<std::string>(read_string(row, "state", field), "", problems);
    const double ph = take_or(read_number(row, "ph", field), 0.0, problems);
    const double celsius = take_or(read_number(row, "celsius", field), 0.0, problems);
    const HourWindow hours{read_hours(row, "early", field, problems),
                           read_hours(row, "likely", field, problems),
                           read_hours(row, "late", field, problems)};
    auto origin =
        take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
    if (!in_order(hours)) problems.push_back({"data-range", field, liquid, {}});
    auto found = std::find_if(table.curves_.begin(), table.curves_.end(), [&](const auto& curve) {
      return curve.liquid == liquid && curve.state == state && curve.ph == ph;
    });
    if (found == table.curves_.end()) {
      table.curves_.push_back({liquid, state, ph, {}, std::move(origin)});
      found = table.curves_.end() - 1;
    }
    if (!found->rows.empty() && celsius <= found->rows.back().celsius)
      problems.push_back({"data-range", field + "/celsius", std::to_string(celsius), {}});
    found->rows.push_back({celsius, hours});
  }
  if (!problems.empty()) return outcome::failure(std::move(problems));
  return table;
}

const ReadinessCurve* ReadinessTable::curve(const std::string& liquid, const std::string& state,
                                            double ph) const {
  for (const ReadinessCurve& each : curves_)
    if (each.liquid == liquid && each.state == state && each.ph == ph) return &each;
  return nullptr;
}

void ReadinessTable::note(const std::string& liquid, reference_data::UsedSources& used) const {
  for (const ReadinessCurve& each : curves_)
    if (each.liquid == liquid) used.note(each.origin, "readiness." + liquid);
}

}  // namespace wheyfield::fermentation
