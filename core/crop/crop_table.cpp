#include "crop/crop_table.h"

#include <nlohmann/json.hpp>

namespace wheyfield::crop {
namespace {

using nlohmann::json;
using outcome::Problems;
using reference_data::read_number;
using reference_data::read_origin;
using reference_data::read_string;

int whole(const json& row, const char* member, const std::string& field, Problems& problems) {
  return static_cast<int>(take_or(read_number(row, member, field), 0.0, problems));
}

StageRow read_stages(const json& row, const std::string& field, Problems& problems) {
  StageRow stages;
  stages.region = row.is_object() ? row.value("region", std::string()) : "";
  stages.initial = whole(row, "initial", field, problems);
  stages.development = whole(row, "development", field, problems);
  stages.mid = whole(row, "mid", field, problems);
  stages.late = whole(row, "late", field, problems);
  stages.origin = take_or(read_origin(row, field), reference_data::Origin{}, problems);
  return stages;
}

calendar::DayRange read_days(const json& row, const std::string& field, Problems& problems) {
  return {whole(row, "early", field, problems), whole(row, "likely", field, problems),
          whole(row, "late", field, problems)};
}

// What only some crops have.
void read_extras(const json& row, const std::string& field, Crop& crop, Problems& problems) {
  crop.established = row.value("established", false);
  crop.stand_in = row.value("stand_in", std::string());
  if (row.contains("starts")) {
    crop.starts = row["starts"].value("ways", std::vector<std::string>());
    crop.starts_origin = take_or(reference_data::read_origin(row["starts"], field + "/starts"),
                                 reference_data::Origin{}, problems);
  }
  crop.notes = row.value("notes", std::vector<std::string>());
  if (row.contains("shifts_only"))
    crop.shifts_only = take_or(read_origin(row["shifts_only"], field + "/shifts_only"),
                               reference_data::Origin{}, problems);
  if (row.contains("base"))
    crop.base = take_or(reference_data::read_sourced(row["base"], field + "/base"),
                        reference_data::Sourced{}, problems);
  if (!row.contains("after_fourth")) return;
  const json fifth = row["after_fourth"].value("fifth", json());
  const json harvest = row["after_fourth"].value("harvest", json());
  const std::string at = field + "/after_fourth";
  crop.after_fourth = AfterFourth{
      read_days(fifth, at + "/fifth", problems), read_days(harvest, at + "/harvest", problems),
      take_or(read_origin(fifth, at + "/fifth"), reference_data::Origin{}, problems),
      take_or(read_origin(harvest, at + "/harvest"), reference_data::Origin{}, problems)};
}

Crop read_crop(const json& row, const std::string& field, Problems& problems) {
  Crop crop;
  crop.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  crop.harvested = take_or<std::string>(read_string(row, "harvested", field), "", problems);
  crop.fourth = take_or<std::string>(read_string(row, "fourth", field), "", problems);
  if (!row.is_object()) return crop;
  crop.has_fifth = row.value("has_fifth", false);
  crop.eaten_raw = row.value("eaten_raw", false);
  const json emergence = row.value("emergence", json());
  const std::string at = field + "/emergence";
  crop.emergence = read_days(emergence, at, problems);
  crop.emergence_origin = take_or(read_origin(emergence, at), reference_data::Origin{}, problems);
  std::size_t i = 0;
  for (const json& stages : row.value("stages", json::array()))
    crop.stages.push_back(read_stages(stages, field + "/stages/" + std::to_string(i++), problems));
  if (!row.contains("stages"))
    problems.push_back({"data-missing", field + "/stages", crop.id, {{"member", "stages"}}});
  read_extras(row, field, crop, problems);
  return crop;
}

UseRule read_rule(const json& row, const std::string& field, Problems& problems) {
  UseRule rule;
  rule.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  rule.when = take_or<std::string>(read_string(row, "when", field), "", problems);
  rule.anchor = take_or<std::string>(read_string(row, "anchor", field), "", problems);
  rule.early = take_or(read_number(row, "early", field), 0.0, problems);
  rule.likely = take_or(read_number(row, "likely", field), 0.0, problems);
  rule.late = take_or(read_number(row, "late", field), 0.0, problems);
  rule.factor = take_or<std::string>(read_string(row, "basis", field), "", problems) == "factor";
  rule.origin = take_or(read_origin(row, field), reference_data::Origin{}, problems);
  if (!row.is_object() || !row.contains("degree_days")) return rule;
  const json& sums = row["degree_days"];
  const std::string at = field + "/degree_days";
  rule.degree_days =
      UseRule::DegreeDays{take_or(read_number(sums, "early", at), 0.0, problems),
                          take_or(read_number(sums, "likely", at), 0.0, problems),
                          take_or(read_number(sums, "late", at), 0.0, problems),
                          take_or(read_origin(sums, at), reference_data::Origin{}, problems)};
  return rule;
}

}  // namespace

outcome::Result<CropTable> CropTable::parse(const reference_data::ReferenceData& data) {
  CropTable table;
  Problems problems;
  std::size_t at = 0;
  for (const json& row : data.section("crops")) {
    Crop crop = read_crop(row, "/data/crops/" + std::to_string(at++), problems);
    (crop.stages.empty() ? table.rowless_ : table.crops_).push_back(std::move(crop));
  }
  for (const json& row : data.section("uses"))
    table.rules_.push_back(
        read_rule(row, "/data/uses/" + std::to_string(table.rules_.size()), problems));
  at = 0;
  for (const json& row : data.section("thermal"))
    table.thermal_.push_back(take_or(read_thermal_row(row, "/data/thermal/" + std::to_string(at++)),
                                     ThermalRow{}, problems));
  if (!problems.empty()) return outcome::failure(problems);
  return table;
}

const Crop* CropTable::find(const std::string& id) const {
  for (const Crop& crop : crops_)
    if (crop.id == id) return &crop;
  return nullptr;
}

const Crop* CropTable::find_any(const std::string& id) const {
  for (const Crop& crop : rowless_)
    if (crop.id == id) return &crop;
  return find(id);
}

std::vector<std::string> CropTable::ids() const {
  std::vector<std::string> ids;
  for (const Crop& crop : crops_) ids.push_back(crop.id);
  return ids;
}

}  // namespace wheyfield::crop
