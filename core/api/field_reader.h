// Reads the texts of one JSON object into typed values, collecting every problem with its pointer.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "calendar/date.h"
#include "outcome/result.h"
#include "quantity/money.h"
#include "quantity/units.h"
#include "reference_data/sourced.h"

namespace wheyfield::api {

// An amount in a shop's unit: litres, kilograms, metres or pieces.
struct PackSize {
  double amount = 0.0;
  std::string unit;  // "L", "kg", "m", "piece"
};

// Shape must have been checked before (`check_shape`); a blank field is absent. Every reader gives
// nothing for a blank field, and nothing plus a problem for text that cannot be read or is outside
// the limits named at the reader.
class FieldReader {
 public:
  FieldReader(const nlohmann::json& object, std::string pointer, const quantity::UnitTable& units,
              outcome::Problems& problems)
      : object_(object), pointer_(std::move(pointer)), units_(units), problems_(problems) {}

  std::string at(const char* name) const { return pointer_ + "/" + name; }
  bool given(const char* name) const;  // not blank
  void want(const char* name) const;   // the error missing-<name> when it is blank
  std::optional<std::string> text(const char* name) const;
  std::optional<calendar::Date> date(const char* name) const;
  std::optional<calendar::Weekday> weekday(const char* name) const;
  std::optional<std::pair<int, int>> month(const char* name) const;  // "2027-02"
  std::optional<double> number(const char* name) const;
  std::optional<int> count(const char* name) const;   // whole, 0..1e6
  std::optional<int> days(const char* name) const;    // "60 days", 1..3650
  std::optional<int> one_in(const char* name) const;  // "1 in 6" -> 6, "none" -> 0
  std::optional<double> strength(const char* name) const;
  std::optional<quantity::Money> money(const char* name) const;
  std::optional<quantity::Volume> volume(const char* name) const;  // > 0
  std::optional<quantity::Area> area(const char* name) const;      // > 0
  std::optional<quantity::Area> plot(const char* name) const;      // or "10 x 5 m"
  std::optional<quantity::Mass> mass(const char* name) const;      // > 0
  std::optional<quantity::Length> length(const char* name) const;
  std::optional<quantity::Length> mix_per_area(const char* name) const;  // > 0
  std::optional<PackSize> pack(const char* name) const;                  // >= 0
  std::optional<std::pair<quantity::Length, quantity::Length>> size_by_size(const char* name) const;
  bool flag(const char* name) const;
  std::vector<calendar::Date> dates(const char* name) const;
  // Lists; a text that cannot be read is left out, its problem names its place in the list.
  std::vector<std::string> texts(const char* name) const;
  std::vector<double> numbers(const char* name) const;
  std::vector<quantity::Volume> volumes(const char* name) const;  // > 0
  std::vector<quantity::Length> lengths(const char* name) const;

  void add(const std::string& code, const char* name, const std::string& value,
           std::map<std::string, std::string> details = {},
           outcome::Severity severity = outcome::Severity::error) const;
  // Adds the error `code` when `value`, in the unit of `limits`, is not in low..high (its details).
  void refuse_outside(const reference_data::Sourced& limits, const std::string& code,
                      const char* name, double value) const;

 private:
  template <class T>
  std::optional<T> taken(outcome::Result<T> result, const char* name) const;
  template <class Read>
  auto each(const char* name, Read read) const;
  template <class Q>
  std::optional<Q> above_zero(outcome::Result<Q> result, const char* name) const;

  const nlohmann::json& object_;
  std::string pointer_;
  const quantity::UnitTable& units_;
  outcome::Problems& problems_;
};

}  // namespace wheyfield::api
