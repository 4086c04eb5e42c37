// A number that came from outside, with its birth certificate.
#pragma once

#include <set>
#include <string>
#include <tuple>

#include <nlohmann/json_fwd.hpp>

#include "outcome/result.h"

namespace wheyfield::reference_data {

// Where a row comes from. `kind` is one of published, common-practice, memory, computed,
// assumption.
struct Origin {
  std::string kind;
  std::string source;  // id in the source table
  std::string page;    // page or table as printed, may be empty
};

// A value with the range that its sources span: low <= value <= high, in `unit`.
struct Sourced {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string unit;
  Origin origin;
};

// Reads {value, low, high | exact, unit, kind, source, page}. A missing number is an error, never a
// default. Errors: data-missing, data-range (low <= value <= high fails).
outcome::Result<Sourced> read_sourced(const nlohmann::json& row, const std::string& field);

// Reads kind, source and page of a table row. Errors: data-missing.
outcome::Result<Origin> read_origin(const nlohmann::json& row, const std::string& field);

// Readers of plain members; the error data-missing names the field.
outcome::Result<std::string> read_string(const nlohmann::json& row, const char* member,
                                         const std::string& field);
outcome::Result<double> read_number(const nlohmann::json& row, const char* member,
                                    const std::string& field);

// Which rows an answer rests on; filled while it is worked out, in a fixed order.
class UsedSources {
 public:
  void note(const Origin& origin, const std::string& used_for);
  void add(const UsedSources& other) { rows_.insert(other.rows_.begin(), other.rows_.end()); }
  using Row = std::tuple<std::string, std::string, std::string, std::string>;
  // (source id, kind, page, used for), sorted, no repeats.
  const std::set<Row>& rows() const { return rows_; }

 private:
  std::set<Row> rows_;
};

}  // namespace wheyfield::reference_data
