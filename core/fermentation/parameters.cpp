#include "fermentation/parameters.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <nlohmann/json.hpp>

namespace wheyfield::fermentation {
namespace {

using nlohmann::json;
using outcome::Problems;
using outcome::take_or;
using reference_data::read_number;
using reference_data::read_string;

constexpr const char* needed[] = {
    "speed",
    "acid-speed",
    "speed-place-share",
    "fast-rate",
    "fast-min",
    "fast-opt",
    "fast-max",
    "fast-ph-lowest",
    "fast-ph-opt",
    "fast-ph-highest",
    "fast-growth-limit",
    "fast-acid-limit",
    "fast-alpha",
    "fast-beta",
    "fast-most",
    "fast-start",
    "tolerant-rate",
    "tolerant-min",
    "tolerant-opt",
    "tolerant-max",
    "tolerant-ph-lowest",
    "tolerant-ph-opt",
    "tolerant-ph-highest",
    "tolerant-growth-limit",
    "tolerant-acid-limit",
    "tolerant-alpha",
    "tolerant-beta",
    "tolerant-most",
    "tolerant-start",
    "lag-work",
    "ph-start",
    "milk-strength",
    "lactose",
    "lactose-half",
    "lactate-yield",
    "lactic-pka-milk",
    "lactic-pka-limits",
    "acid-group-1-pk",
    "acid-group-1-amount",
    "acid-group-2-pk",
    "acid-group-2-amount",
    "acid-group-3-pk",
    "acid-group-3-amount",
    "acid-group-4-pk",
    "acid-group-4-amount",
    "acid-group-5-pk",
    "acid-group-5-amount",
    "milk-tolerant-start",
    "lag-work-alone",
    "serum-fast",
    "serum-tolerant",
    "serum-acid",
    "rinse-fast-start",
    "rinse-tolerant-start",
    "rinse-ph-start",
    "rinse-strength",
    "rinse-sugar",
    "rinse-group-1-pk",
    "rinse-group-1-amount",
    "rinse-group-2-pk",
    "rinse-group-2-amount",
    "vessel-pace",
    "air-offset",
    "strip-error-coarse",
    "strip-error-fine",
    "meter-error",
    "reading-bias",
    "misread",
    "scale-width",
    "set-ph",
    "thermometer-error",
    "failure-share",
    "failure-speed-most",
    "curd-ph",
    "ready-ph",
    "sour-ph",
    "lost-share",
    "use-half-strip",
    "use-third-strip",
    "use-meter",
    "rise-once",
    "rise-twice",
    "acid-ph",
};

Law read_law(const json& row, const std::string& field, Problems& problems) {
  const auto law = take_or<std::string>(read_string(row, "law", field), "none", problems);
  if (law == "normal") return Law::normal;
  if (law == "log") return Law::log;
  if (law != "none") problems.push_back({"data-range", field + "/law", law, {}});
  return Law::none;
}

Parameter read_parameter(const json& row, const std::string& field, Problems& problems) {
  Parameter parameter;
  parameter.value = take_or(read_number(row, "value", field), 0.0, problems);
  parameter.law = read_law(row, field, problems);
  if (parameter.law != Law::none)
    parameter.spread = take_or(read_number(row, "spread", field), 0.0, problems);
  parameter.unit = take_or<std::string>(read_string(row, "unit", field), "", problems);
  parameter.origin =
      take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
  return parameter;
}

}  // namespace

double Parameter::at(double z) const {
  switch (law) {
    case Law::normal:
      return value + spread * z;
    case Law::log:
      return value * std::exp(spread * z);
    case Law::none:
      break;
  }
  return value;
}

const std::vector<std::string>& ParameterTable::required() {
  static const std::vector<std::string> ids(std::begin(needed), std::end(needed));
  return ids;
}

outcome::Result<ParameterTable> ParameterTable::parse(const reference_data::ReferenceData& data) {
  ParameterTable table;
  Problems problems;
  std::size_t at = 0;
  for (const json& row : data.section("fermentation")) {
    const std::string field = "/data/fermentation/" + std::to_string(at++);
    const auto id = take_or<std::string>(read_string(row, "id", field), "", problems);
    Parameter parameter = read_parameter(row, field, problems);
    if (row.is_object() && row.contains("litres"))
      table.vessels_.push_back(
          {take_or(read_number(row, "litres", field), 1.0, problems), parameter.value});
    table.rows_.emplace(id, std::move(parameter));
  }
  for (const std::string& id : required())
    if (table.rows_.count(id) == 0)
      problems.push_back({"data-missing", "/data/fermentation", id, {{"member", id}}});
  if (table.vessels_.size() < 2)
    problems.push_back({"data-missing", "/data/fermentation", "vessel", {{"member", "litres"}}});
  if (!problems.empty()) return outcome::failure(problems);
  std::stable_sort(table.vessels_.begin(), table.vessels_.end(),
                   [](const VesselRow& a, const VesselRow& b) { return a.litres < b.litres; });
  return table;
}

void ParameterTable::note(reference_data::UsedSources& used) const {
  for (const auto& [id, parameter] : rows_) used.note(parameter.origin, id);
}

}  // namespace wheyfield::fermentation
