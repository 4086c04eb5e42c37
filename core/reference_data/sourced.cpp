#include "reference_data/sourced.h"

#include <nlohmann/json.hpp>

namespace wheyfield::reference_data {

using outcome::failure;
using outcome::Result;

Result<std::string> read_string(const nlohmann::json& row, const char* member,
                                const std::string& field) {
  if (!row.is_object() || !row.contains(member) || !row[member].is_string())
    return failure({"data-missing", field + "/" + member, "", {{"member", member}}});
  return row[member].get<std::string>();
}

Result<double> read_number(const nlohmann::json& row, const char* member,
                           const std::string& field) {
  if (!row.is_object() || !row.contains(member) || !row[member].is_number())
    return failure({"data-missing", field + "/" + member, "", {{"member", member}}});
  return row[member].get<double>();
}

Result<Origin> read_origin(const nlohmann::json& row, const std::string& field) {
  outcome::Problems problems;
  Origin origin;
  origin.kind = take_or<std::string>(read_string(row, "kind", field), "", problems);
  origin.source = take_or<std::string>(read_string(row, "source", field), "", problems);
  if (!problems.empty()) return failure(problems);
  origin.page = row.value("page", std::string());
  return origin;
}

Result<Sourced> read_sourced(const nlohmann::json& row, const std::string& field) {
  outcome::Problems problems;
  Sourced sourced;
  sourced.value = take_or(read_number(row, "value", field), 0.0, problems);
  const bool exact = row.is_object() && row.contains("exact") && row["exact"] == true;
  sourced.low = exact ? sourced.value : take_or(read_number(row, "low", field), 0.0, problems);
  sourced.high = exact ? sourced.value : take_or(read_number(row, "high", field), 0.0, problems);
  sourced.unit = take_or<std::string>(read_string(row, "unit", field), "", problems);
  sourced.origin = take_or(read_origin(row, field), Origin{}, problems);
  if (!problems.empty()) return failure(problems);
  if (!(sourced.low <= sourced.value && sourced.value <= sourced.high))
    return failure({"data-range", field, row.dump(), {}});
  return sourced;
}

void UsedSources::note(const Origin& origin, const std::string& used_for) {
  rows_.emplace(origin.source, origin.kind, origin.page, used_for);
}

}  // namespace wheyfield::reference_data
