#include "fermentation/quality.h"

#include <nlohmann/json.hpp>

namespace wheyfield::fermentation {
namespace {

using nlohmann::json;
using outcome::Problems;
using outcome::take_or;
using reference_data::read_string;

constexpr std::string_view verdicts[] = {"use", "extend", "discard"};

Verdict read_verdict(const json& row, const std::string& field, Problems& problems) {
  const auto word = take_or<std::string>(read_string(row, "verdict", field), "", problems);
  for (std::size_t i = 0; i < std::size(verdicts); ++i)
    if (word == verdicts[i]) return static_cast<Verdict>(i);
  problems.push_back({"data-range", field + "/verdict", word, {}});
  return Verdict::discard;
}

QualityRow read_quality(const json& row, const std::string& field, Problems& problems) {
  QualityRow read;
  read.stage = take_or<std::string>(read_string(row, "stage", field), "", problems);
  read.sign = take_or<std::string>(read_string(row, "sign", field), "", problems);
  read.verdict = read_verdict(row, field, problems);
  read.action = take_or<std::string>(read_string(row, "action", field), "", problems);
  read.origin =
      take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
  const json causes = row.is_object() ? row.value("causes", json()) : json();
  if (causes.is_array())
    for (const json& cause : causes)
      if (cause.is_string()) read.causes.push_back(cause.get<std::string>());
  if (read.causes.empty()) problems.push_back({"data-range", field + "/causes", "", {}});
  const json overrides = row.is_object() ? row.value("overrides", json()) : json();
  if (!overrides.is_boolean())
    problems.push_back({"data-missing", field, "overrides", {{"member", "overrides"}}});
  else
    read.overrides = overrides.get<bool>();
  return read;
}

}  // namespace

std::string_view verdict_word(Verdict verdict) {
  return verdicts[static_cast<std::size_t>(verdict)];
}

outcome::Result<QualityTable> QualityTable::parse(const reference_data::ReferenceData& data) {
  QualityTable table;
  Problems problems;
  std::size_t at = 0;
  for (const json& row : data.section("quality")) {
    const std::string field = "/data/quality/" + std::to_string(at++);
    QualityRow read = read_quality(row, field, problems);
    if (table.find(read.stage, read.sign) != nullptr)
      problems.push_back({"data-range", field + "/sign", read.sign, {}});
    table.rows_.push_back(std::move(read));
  }
  if (!problems.empty()) return outcome::failure(problems);
  return table;
}

const QualityRow* QualityTable::find(std::string_view stage, std::string_view sign) const {
  for (const QualityRow& row : rows_)
    if (row.stage == stage && row.sign == sign) return &row;
  return nullptr;
}

}  // namespace wheyfield::fermentation
