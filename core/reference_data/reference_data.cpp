#include "reference_data/reference_data.h"

#include <iterator>
#include <optional>

#include <nlohmann/json.hpp>

namespace wheyfield::reference_data {
namespace {

using nlohmann::json;
using outcome::Problems;

std::optional<quantity::Dimension> dimension(const std::string& name) {
  if (name == "length") return quantity::Dimension::length;
  if (name == "area") return quantity::Dimension::area;
  if (name == "volume") return quantity::Dimension::volume;
  if (name == "mass") return quantity::Dimension::mass;
  return std::nullopt;
}

quantity::Unit read_unit(const json& row, const std::string& field, Problems& problems) {
  quantity::Unit unit{
      take_or<std::string>(read_string(row, "name", field), "", problems), {}, {}, 0};
  unit.factor = take_or(read_number(row, "factor", field), 1.0, problems);
  const auto kind = take_or<std::string>(read_string(row, "dimension", field), "", problems);
  take_or(read_origin(row, field), Origin{}, problems);
  if (const auto known = dimension(kind))
    unit.dimension = *known;
  else
    problems.push_back({"data-missing", field + "/dimension", kind, {{"member", "dimension"}}});
  if (row.is_object() && row.contains("aliases"))
    for (const auto& alias : row["aliases"])
      if (alias.is_string()) unit.aliases.push_back(alias.get<std::string>());
  return unit;
}

Source read_source(const json& row, const std::string& field, Problems& problems) {
  Source source{take_or<std::string>(read_string(row, "id", field), "", problems),
                take_or<std::string>(read_string(row, "title", field), "", problems),
                row.value("author", std::string()), "",
                take_or<std::string>(read_string(row, "grade", field), "", problems)};
  if (row.contains("year"))
    source.year = row["year"].is_number() ? std::to_string(row["year"].get<int>())
                                          : row["year"].get<std::string>();
  return source;
}

Equipment read_equipment(const json& row, const std::string& field, Problems& problems) {
  const json number = row.value("quantity", json());
  const Sourced quantity = take_or(read_sourced(number, field + "/quantity"), Sourced{}, problems);
  return {take_or<std::string>(read_string(row, "item", field), "", problems), quantity.value,
          quantity.unit, take_or<std::string>(read_string(row, "per", field), "", problems),
          quantity.origin};
}

// Constants that some room asks for.
constexpr const char* required[] = {"usual-mix-per-acre",
                                    "readings-apart",
                                    "change-hours",
                                    "note-days-ahead",
                                    "note-days-back",
                                    "ph-written",
                                    "sugar-density-0",
                                    "sugar-density-10",
                                    "sugar-density-20",
                                    "sugar-density-30",
                                    "sugar-density-40",
                                    "sugar-density-50",
                                    "sugar-density-60",
                                    "sugar-density-70",
                                    "sugar-density-80",
                                    "sugar-density-85",
                                    "storage-molasses-sucrose",
                                    "storage-molasses-reducing",
                                    "storage-molasses-ash",
                                    "storage-ash-mole",
                                    "storage-serum-density",
                                    "storage-serum-solids",
                                    "storage-serum-lactose",
                                    "storage-norrish-sucrose",
                                    "storage-norrish-reducing",
                                    "storage-salt-osmotic",
                                    "storage-gas-solubility",
                                    "storage-brix",
                                    "storage-volume-error",
                                    "storage-brix-limits",
                                    "storage-litres-limits",
                                    "retest-days",
                                    "speed-to-pace",
                                    "yeasts-grow-at",
                                    "morning-hour",
                                    "afternoon-hour",
                                    "batch-hour",
                                    "look-from",
                                    "look-to",
                                    "batch-usual-litres",
                                    "batch-litres-limits",
                                    "starter-share-limits",
                                    "bucket-celsius-written",
                                    "forecast-hours",
                                    "negligible-load",
                                    "gps-step-most",
                                    "gps-decimals-apart",
                                    "pour-worst-above",
                                    "soak-evening-out",
                                    "soak-morning-in",
                                    "soak-morning-up-to",
                                    "raw-manure-soil-days",
                                    "soil-gap-days",
                                    "seed-mass-limits",
                                    "bucket-depth-limits",
                                    "bucket-width-limits",
                                    "walk-limits",
                                    "sprayer-rate-usual",
                                    "nozzle-pressure-limits",
                                    "nozzle-size-limits",
                                    "nozzle-low-below",
                                    "fill-fraction",
                                    "batches-per-spare",
                                    "batch-failure-share",
                                    "batch-late-1",
                                    "batch-late-2",
                                    "batch-late-3",
                                    "own-batches-least",
                                    "yield-place-share",
                                    "area-question-above",
                                    "heated-milk-slower",
                                    "altitude-intercept",
                                    "altitude-lapse",
                                    "altitude-least",
                                    "altitude-spread",
                                    "cool-below",
                                    "cure-search",
                                    "helpers-hours",
                                    "least-batch",
                                    "missed-litre-times",
                                    "loose-cap-days",
                                    "cap-half-step",
                                    "visits-a-day",
                                    "water-stand-hours",
                                    "storage-headspace",
                                    "serum-nitrogen",
                                    "serum-phosphorus",
                                    "serum-potassium",
                                    "phosphate-per-phosphorus",
                                    "potash-per-potassium",
                                    "harvest-limits-t-per-ha",
                                    "spread-limits-t-per-ha",
                                    "dose-tolerance",
                                    "cup-volume",
                                    "harvest-length-limits",
                                    "mix-rate-limits",
                                    "usual-strength-parts",
                                    "cap-volume-limits",
                                    "can-volume-limits",
                                    "sprayer-volume-limits",
                                    "plant-mix-limits",
                                    "spacing-limits",
                                    "leaf-strength-limit-parts",
                                    "leaf-dilution-limit-parts",
                                    "nitrogen-limit-percent",
                                    "ferment-ph-limits",
                                    "raw-eaten-gap-days",
                                    "runs-advised",
                                    "runs-redo-above",
                                    "runs-apart-above",
                                    "nozzle-size-flow",
                                    "nozzle-size-pressure",
                                    "nozzle-worn-above",
                                    "depth-reading-error",
                                    "pours-advised",
                                    "equal-depth-tolerance",
                                    "tape-below",
                                    "gps-sigma",
                                    "pace-error",
                                    "soak-most-hours",
                                    "cooked-gap-days",
                                    "syringe-step",
                                    "syringe-tolerance",
                                    "readings-spread",
                                    "months-spread",
                                    "station-spread",
                                    "nursery-days",
                                    "use-after-seen-days",
                                    "pace-question",
                                    "variety-question",
                                    "compost-carbon-most",
                                    "compost-carbon-refused",
                                    "compost-ratio",
                                    "compost-moisture",
                                    "compost-heap-least",
                                    "compost-kg-limits",
                                    "compost-litres-limits",
                                    "compost-ratio-limits",
                                    "compost-first-turn",
                                    "compost-turn-every",
                                    "compost-turn-count",
                                    "compost-ready-day",
                                    "heap-turn-above",
                                    "heap-heats-by",
                                    "heap-heats-to",
                                    "heap-celsius-written",
                                    "heap-height-limits",
                                    "heat-time-days",
                                    "heat-time-slope",
                                    "compost-nitrogen-limits",
                                    "compost-density-limits",
                                    "heap-log-days"};

}  // namespace

ReferenceData::ReferenceData() : bundle_(std::make_unique<json>()) {}
ReferenceData::ReferenceData(ReferenceData&&) noexcept = default;
ReferenceData& ReferenceData::operator=(ReferenceData&&) noexcept = default;
ReferenceData::~ReferenceData() = default;

const std::vector<std::string>& ReferenceData::required_constants() {
  static const std::vector<std::string> ids(std::begin(required), std::end(required));
  return ids;
}

outcome::Result<ReferenceData> ReferenceData::parse(std::string_view text) {
  ReferenceData data;
  Problems problems;
  *data.bundle_ = json::parse(text, nullptr, false);
  if (!data.bundle_->is_object()) return outcome::failure({"data-unreadable", "/data", "", {}});
  const auto each = [&](const char* name, auto read) {
    std::size_t at = 0;
    for (const json& row : data.section(name))
      read(row, std::string("/data/") + name + "/" + std::to_string(at++));
  };
  each("sources", [&](const json& row, const std::string& field) {
    Source source = read_source(row, field, problems);
    data.sources_.emplace(source.id, source);
  });
  each("units", [&](const json& row, const std::string& field) {
    data.units_.add(read_unit(row, field, problems));
  });
  data.units_.close();  // a season opens its own copy for its measures
  each("constants", [&](const json& row, const std::string& field) {
    data.constants_.emplace(take_or<std::string>(read_string(row, "id", field), "", problems),
                            take_or(read_sourced(row, field), Sourced{}, problems));
  });
  each("cautions", [&](const json& row, const std::string& field) {
    const auto id = take_or<std::string>(read_string(row, "id", field), "", problems);
    data.cautions_[id] = {id, take_or(read_origin(row, field), Origin{}, problems)};
  });
  each("equipment", [&](const json& row, const std::string& field) {
    data.equipment_.push_back(read_equipment(row, field, problems));
  });
  for (const std::string& id : required_constants())
    if (data.constants_.count(id) == 0)
      problems.push_back({"data-missing", "/data/constants", id, {{"member", id}}});
  if (!problems.empty()) return outcome::failure(problems);
  return data;
}

const Sourced& ReferenceData::constant(std::string_view id) const {
  return constants_.find(id)->second;
}

const json& ReferenceData::section(const char* name) const {
  static const json empty = json::array();
  const auto found = bundle_->find(name);
  return found != bundle_->end() && found->is_array() ? *found : empty;
}

}  // namespace wheyfield::reference_data
