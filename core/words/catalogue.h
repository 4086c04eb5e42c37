// The sentence catalogue of one language, handed in as data: no sentence stands in code.
//
// A sentence has a key, a text with `{name}` places, and where a number decides its form, one text
// per plural category (Unicode CLDR names: one, other, ...). Numbers and dates inside a sentence
// are written as the reader writes them: her decimal mark, her month and weekday names (keys
// `month.1`.., `weekday.monday`..). A key that is missing shows as `[key]`, so that it is seen.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <variant>

#include <nlohmann/json_fwd.hpp>

#include "calendar/date.h"
#include "outcome/result.h"

namespace wheyfield::words {

// A number shown with exactly `places` decimals, or with trailing zeros dropped when `trim`.
struct Decimal {
  double value;
  int places = 1;
  bool trim = true;
};

// What can fill a `{place}`: text as it is, a count, a decimal number, a date ("Thu 4 Mar").
class Value {
 public:
  Value(std::string text) : held_(std::move(text)) {}
  Value(const char* text) : held_(std::string(text)) {}
  Value(long long count) : held_(count) {}
  Value(int count) : held_(static_cast<long long>(count)) {}
  Value(std::size_t count) : held_(static_cast<long long>(count)) {}
  Value(double number) : held_(Decimal{number, 3, true}) {}
  Value(Decimal number) : held_(number) {}
  Value(calendar::Date date) : held_(date) {}
  const std::variant<std::string, long long, Decimal, calendar::Date>& held() const {
    return held_;
  }

 private:
  std::variant<std::string, long long, Decimal, calendar::Date> held_;
};

using Values = std::map<std::string, Value>;

// A sentence as it leaves the core: what it is, with what, and as the reader reads it.
struct Text {
  std::string key;
  Values values;
  std::string text;
};

class Catalogue {
 public:
  Catalogue();
  Catalogue(Catalogue&&) noexcept;
  Catalogue& operator=(Catalogue&&) noexcept;
  ~Catalogue();

  // Shape: {"language","decimal","group","plural","sentences":{key: text | {category: text}}}.
  // Errors: words-unreadable.
  static outcome::Result<Catalogue> parse(std::string_view json);

  const std::string& language() const;
  bool has(std::string_view key) const;
  // The plural form is chosen by the value named "n" where the sentence has plural forms.
  std::string text(std::string_view key, const Values& values = {}) const;
  Text sentence(std::string_view key, Values values = {}) const;

  std::string number(Decimal number) const;
  std::string date(calendar::Date date) const;       // "Thu 4 Mar"
  std::string long_date(calendar::Date date) const;  // "Thursday 4 March 2027"
  // "4-9 Apr" style span of two dates; one date when both are equal.
  std::string span(calendar::Date first, calendar::Date last) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

nlohmann::ordered_json to_json(const Text& text);

}  // namespace wheyfield::words
