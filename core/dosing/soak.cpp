#include "dosing/soak.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "dosing/dilution.h"
#include "dosing/measured.h"

namespace wheyfield::dosing {

using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::take_or;
using reference_data::Sourced;

Result<SoakTable> SoakTable::parse(const reference_data::ReferenceData& data) {
  SoakTable table;
  Problems problems;
  for (const json& row : data.section("soak")) {
    const std::string field = "/data/soak/" + std::to_string(table.rows_.size());
    const auto text = [&](const char* member) {
      return take_or<std::string>(reference_data::read_string(row, member, field), "", problems);
    };
    const auto number = [&](const char* member) {
      const json cell = row.is_object() ? row.value(member, json()) : json();
      return take_or(reference_data::read_sourced(cell, field + "/" + member), Sourced{}, problems);
    };
    table.rows_.push_back({text("crop"), text("group"), number("hours"), number("water")});
  }
  if (table.rows_.empty())
    problems.push_back({"data-missing", "/data/soak", "", {{"member", "soak"}}});
  if (!problems.empty()) return failure(problems);
  return table;
}

const SoakRow* SoakTable::find(const std::string& crop) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(),
                                  [&](const SoakRow& row) { return row.crop == crop; });
  return found == rows_.end() ? nullptr : &*found;
}

Result<Soak> SoakTable::soak(const SoakRequest& request, double most_hours) const {
  Problems bad;
  const bool seed = request.start == crop::Start::direct || request.start == crop::Start::nursery;
  const SoakRow* row = find(request.crop);
  if (!seed)
    bad.push_back({"soak-not-seed", "/start", std::string(crop::start_word(request.start)), {}});
  else if (row == nullptr)
    bad.push_back({"soak-crop-unknown", "/crop", request.crop, {}});
  if (request.seed == crop::Seed::dressed) bad.push_back({"seed-dressed", "/seed", "dressed", {}});
  outcome::append(bad, not_above_zero({{"/mass", quantity::in_kilograms(request.mass)}}));
  if (!bad.empty()) return failure(bad);
  Soak soak;
  soak.hours = std::min(most_hours, row->hours.value);
  soak.crop_is_limit = row->hours.value < most_hours;
  soak.or_none = row->hours.low <= 0.0;
  soak.splits = row->group == "large-legume";
  soak.water = quantity::litres(quantity::in_kilograms(request.mass) * row->water.value);
  soak.serum = serum_for(soak.water, request.parts, Reading::added_to);
  soak.row = *row;
  return soak;
}

SoakTimes soak_times(double hours, SoakClock clock) {
  if (hours <= clock.morning_up_to) return {true, clock.morning_in, clock.morning_in + hours};
  return {false, std::fmod(clock.evening_out + 48.0 - hours, 24.0), clock.evening_out};
}

}  // namespace wheyfield::dosing
