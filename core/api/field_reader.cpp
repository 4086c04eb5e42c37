#include "api/field_reader.h"

#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "quantity/number_text.h"

namespace wheyfield::api {

using calendar::Date;
using outcome::Result;

constexpr const char* pack_units = "L, kg, m, piece";

void FieldReader::add(const std::string& code, const char* name, const std::string& value,
                      std::map<std::string, std::string> details,
                      outcome::Severity severity) const {
  problems_.push_back({code, at(name), value, std::move(details), severity});
}

void FieldReader::refuse_outside(const reference_data::Sourced& limits, const std::string& code,
                                 const char* name, double value) const {
  const double read = quantity::rounded(value, 6);  // what conversion adds is no fault of hers
  if (read >= limits.low && read <= limits.high) return;
  add(code, name, *text(name),
      {{"low", fmt::to_string(limits.low)}, {"high", fmt::to_string(limits.high)}});
}

template <class T>
std::optional<T> FieldReader::taken(Result<T> result, const char* name) const {
  if (result) return *result;
  outcome::append(problems_, outcome::under(at(name), std::move(result.error())));
  return std::nullopt;
}

template <class Q>
std::optional<Q> FieldReader::above_zero(Result<Q> result, const char* name) const {
  const auto value = taken(std::move(result), name);
  if (value && !(value->si() > 0.0)) {
    add("not-above-zero", name, *text(name));
    return std::nullopt;
  }
  return value;
}

std::optional<std::string> FieldReader::text(const char* name) const {
  const auto found = object_.find(name);
  if (found == object_.end()) return std::nullopt;
  if (found->is_number()) return found->dump();
  if (!found->is_string()) return std::nullopt;
  const auto value = found->get<std::string>();
  return value.empty() ? std::nullopt : std::optional(value);
}

std::optional<Date> FieldReader::date(const char* name) const {
  const auto value = text(name);
  return value ? taken(calendar::parse_date(*value), name) : std::nullopt;
}

std::optional<calendar::Weekday> FieldReader::weekday(const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  const auto day = calendar::parse_weekday(*value);
  if (!day) add("weekday-unknown", name, *value);
  return day;
}

std::optional<std::pair<int, int>> FieldReader::month(const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  const auto day = calendar::parse_date(*value + "-01");
  if (!day) add("month-unreadable", name, *value);
  return day ? std::optional(std::pair{day->year(), day->month()}) : std::nullopt;
}

std::optional<double> FieldReader::number(const char* name) const {
  const auto value = text(name);
  return value ? taken(quantity::parse_number(*value), name) : std::nullopt;
}

std::optional<int> FieldReader::count(const char* name) const {
  const auto value = number(name);
  if (!value) return std::nullopt;
  if (*value >= 0.0 && *value <= 1e6 && *value == std::floor(*value))
    return static_cast<int>(*value);
  add("not-a-count", name, *text(name));
  return std::nullopt;
}

std::optional<int> FieldReader::days(const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  const auto parts = quantity::split_unit(*value);
  const auto number = quantity::parse_number(parts.number);
  const bool unit = parts.unit == "days" || parts.unit == "day";
  if (number && unit && *number >= 1.0 && *number <= 3650.0 && *number == std::floor(*number))
    return static_cast<int>(*number);
  add("days-unreadable", name, *value);
  return std::nullopt;
}

std::optional<int> FieldReader::one_in(const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  if (*value == "none") return 0;
  if (value->rfind("1 in ", 0) == 0) {
    const auto number = quantity::parse_number(value->substr(5));
    if (number && *number >= 1.0 && *number <= 100.0 && *number == std::floor(*number))
      return static_cast<int>(*number);
  }
  add("one-in-unreadable", name, *value);
  return std::nullopt;
}

std::optional<double> FieldReader::strength(const char* name) const {
  const auto value = text(name);
  return value ? taken(quantity::parse_strength(*value), name) : std::nullopt;
}

std::optional<quantity::Money> FieldReader::money(const char* name) const {
  const auto value = text(name);
  return value ? taken(quantity::parse_money(*value), name) : std::nullopt;
}

std::optional<quantity::Volume> FieldReader::volume(const char* name) const {
  const auto value = text(name);
  return value ? above_zero(units_.volume(*value), name) : std::nullopt;
}

std::optional<quantity::Area> FieldReader::area(const char* name) const {
  const auto value = text(name);
  return value ? above_zero(units_.area(*value), name) : std::nullopt;
}

std::optional<quantity::Area> FieldReader::plot(const char* name) const {
  const auto value = text(name);
  if (!value || value->find('x') == std::string::npos) return area(name);
  const auto size = size_by_size(name);
  if (size) return size->first * size->second;
  problems_.back().code = "size-unreadable";
  return std::nullopt;
}

std::optional<quantity::Length> FieldReader::length(const char* name) const {
  const auto value = text(name);
  return value ? taken(units_.length(*value), name) : std::nullopt;
}

std::optional<quantity::Length> FieldReader::mix_per_area(const char* name) const {
  const auto value = text(name);
  return value ? above_zero(units_.mix_per_area(*value), name) : std::nullopt;
}

std::optional<quantity::Mass> FieldReader::mass(const char* name) const {
  const auto value = text(name);
  return value ? above_zero(units_.mass(*value), name) : std::nullopt;
}

std::optional<PackSize> FieldReader::pack(const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  const auto parts = quantity::split_unit(*value);
  const auto number = quantity::parse_number(parts.number);
  if (number && *number < 0.0) {
    add("below-zero", name, *value);
    return std::nullopt;
  }
  if (number && (parts.unit == "piece" || parts.unit == "pieces"))
    return PackSize{*number, "piece"};
  auto read = units_.amount(*value);
  if (!read)
    for (auto& problem : read.error()) problem.details["known"] = pack_units;
  const auto amount = taken(std::move(read), name);
  if (!amount) return std::nullopt;
  const double si = amount->number * amount->unit->factor;
  switch (amount->unit->dimension) {
    case quantity::Dimension::volume:
      return PackSize{si * 1000.0, "L"};
    case quantity::Dimension::mass:
      return PackSize{si, "kg"};
    case quantity::Dimension::length:
      return PackSize{si, "m"};
    case quantity::Dimension::area:
      break;
  }
  add("unit-other-kind", name, *value, {{"unit", amount->unit->name}, {"known", pack_units}});
  return std::nullopt;
}

// "60 x 60 cm": the unit stands once, behind.
std::optional<std::pair<quantity::Length, quantity::Length>> FieldReader::size_by_size(
    const char* name) const {
  const auto value = text(name);
  if (!value) return std::nullopt;
  const std::size_t by = value->find('x');
  if (by != std::string::npos) {
    const std::string second = value->substr(by + 1);
    const std::string unit(quantity::split_unit(second).unit);
    const auto a = units_.length(value->substr(0, by) + unit);
    const auto b = units_.length(second);
    if (a && b && a->si() > 0.0 && b->si() > 0.0) return std::pair{*a, *b};
  }
  add("spacing-unreadable", name, *value);
  return std::nullopt;
}

bool FieldReader::flag(const char* name) const {
  const auto found = object_.find(name);
  return found != object_.end() && found->is_boolean() && found->get<bool>();
}

bool FieldReader::given(const char* name) const {
  const auto found = object_.find(name);
  if (found == object_.end() || found->is_null()) return false;
  const bool blank = found->is_string() && found->get<std::string>().empty();
  return !blank && !(found->is_array() && found->empty());
}

void FieldReader::want(const char* name) const {
  if (!given(name)) add(std::string("missing-") + name, name, "", {{"name", name}});
}

std::vector<std::string> FieldReader::texts(const char* name) const {
  const auto found = object_.find(name);
  if (found == object_.end() || !found->is_array()) return {};
  return found->get<std::vector<std::string>>();
}

template <class Read>
auto FieldReader::each(const char* name, Read read) const {
  std::vector<typename decltype(read(std::string()))::value_type> values;
  std::size_t i = 0;
  for (const std::string& one : texts(name)) {
    auto value = read(one);
    if (value)
      values.push_back(*value);
    else
      outcome::append(problems_,
                      outcome::under(at(name) + "/" + std::to_string(i), std::move(value.error())));
    ++i;
  }
  return values;
}

std::vector<Date> FieldReader::dates(const char* name) const {
  return each(name, [](const std::string& one) { return calendar::parse_date(one); });
}

std::vector<double> FieldReader::numbers(const char* name) const {
  return each(name, [](const std::string& one) { return quantity::parse_number(one); });
}

std::vector<quantity::Volume> FieldReader::volumes(const char* name) const {
  return each(name, [&](const std::string& one) -> Result<quantity::Volume> {
    auto volume = units_.volume(one);
    if (volume && !(volume->si() > 0.0)) return outcome::failure({"not-above-zero", "", one, {}});
    return volume;
  });
}

std::vector<quantity::Length> FieldReader::lengths(const char* name) const {
  return each(name, [&](const std::string& one) { return units_.length(one); });
}

}  // namespace wheyfield::api
