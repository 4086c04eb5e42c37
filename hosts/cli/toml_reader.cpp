#include "cli/toml_reader.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include <toml.hpp>

#include "cli/text_file.h"
#include "cli/toml_guard.h"
#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using Toml = toml::basic_value<toml::discard_comments, std::map, std::vector>;
using nlohmann::json;

template <class T>
std::string as_text(const T& value) {
  std::ostringstream out;
  out << value;
  return out.str();
}

// JSON has no word for these.
json from_floating(double value) {
  if (std::isfinite(value)) return value;
  return std::isnan(value) ? "nan" : value > 0 ? "inf" : "-inf";
}

const toml::detail::region* written(const Toml& value) {
  return dynamic_cast<const toml::detail::region*>(toml::detail::get_region(value));
}

// The library reads a whole number of more than 18 digits as 0: such a number stays text.
json from_integer(const Toml& value) {
  const auto* region = written(value);
  if (region != nullptr && region->str().size() > 18) return region->str();
  return value.as_integer();
}

// Line starts, so that a place costs a binary search. (The library counts lines from the top of the
// file for every value: quadratic.)
class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text), starts_{0} {
    for (std::size_t at = text.find('\n'); at != text.npos; at = text.find('\n', at + 1))
      starts_.push_back(at + 1);
  }
  std::pair<int, int> at(std::size_t offset) const {
    const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
    const std::size_t start = *(after - 1);
    return {static_cast<int>(after - starts_.begin()),
            static_cast<int>(width(text_.substr(start, offset - start))) + 1};
  }

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

class Converter {
 public:
  Converter(std::string_view text, const std::string& file) : lines_(text) {
    document_.from_file = true;
    file_ = document_.places.add_file(file);
  }

  Document take(const Toml& root) && {
    document_.json = converted(root, "");
    return std::move(document_);
  }

 private:
  json converted(const Toml& value, const std::string& pointer) {
    note(value, pointer);
    switch (value.type()) {
      case toml::value_t::table:
        return from_table(value, pointer);
      case toml::value_t::array:
        return from_array(value, pointer);
      case toml::value_t::string:
        return value.as_string().str;
      case toml::value_t::boolean:
        return value.as_boolean();
      case toml::value_t::integer:
        return from_integer(value);
      case toml::value_t::floating:
        return from_floating(value.as_floating());
      case toml::value_t::local_date:
        return as_text(value.as_local_date());
      case toml::value_t::local_time:
        return as_text(value.as_local_time());
      case toml::value_t::local_datetime:
        return as_text(value.as_local_datetime());
      case toml::value_t::offset_datetime:
        return as_text(value.as_offset_datetime());
      default:
        return nullptr;
    }
  }

  json from_table(const Toml& value, const std::string& pointer) {
    json out = json::object();
    for (const auto& [key, inner] : value.as_table())
      out[key] = converted(inner, pointer + "/" + escaped_segment(key));
    return out;
  }

  json from_array(const Toml& value, const std::string& pointer) {
    json out = json::array();
    for (const Toml& inner : value.as_array())
      out.push_back(converted(inner, pointer + "/" + std::to_string(out.size())));
    return out;
  }

  void note(const Toml& value, const std::string& pointer) {
    const auto* region = written(value);
    if (pointer.empty() || region == nullptr || region->begin() == region->end()) return;
    const auto offset = static_cast<std::size_t>(region->first() - region->begin());
    const auto [line, column] = lines_.at(offset);
    document_.places.put(pointer, file_, line, column);
  }

  Lines lines_;
  Document document_;
  int file_ = 0;
};

// The line that the library quotes in its message ("\n 4 | x = ..."); it is right where the
// exception's own location says 1 (a date that does not exist). 0 when none is quoted.
int quoted_line(const std::string& message) {
  for (std::size_t at = message.find('\n'); at != std::string::npos; at = message.find('\n', at)) {
    const std::size_t digit = message.find_first_not_of(" \n", at);
    const std::size_t end = message.find_first_not_of("0123456789", digit);
    if (digit == std::string::npos || end == std::string::npos) return 0;
    if (end > digit && message.compare(end, 2, " |") == 0)
      return std::stoi(message.substr(digit, std::min<std::size_t>(end - digit, 8)));
    at = digit;
  }
  return 0;
}

// The library's own words are for programmers; what it tells apart is kept.
InputProblem refusal(const std::string& message, int line, const std::string& text,
                     const std::string& file) {
  const auto says = [&](const char* words) { return message.find(words) != std::string::npos; };
  const char* code = "toml-syntax";
  if (says("parse_date") || says("parse_time")) code = "toml-date";
  if (says("already exists") || says("already defined") || says("multiply defined"))
    code = "toml-key-twice";
  return {code, {file, line, 0}, "", shortened(line_of(text, line), 60)};
}

}  // namespace

Reading<Document> parse_toml(const std::string& text, const std::string& file) {
  const std::size_t deep = too_deep_at(text);
  if (deep != std::string::npos)
    return input_failure({"toml-nested",
                          place_of(text, deep, file),
                          "",
                          "",
                          {{"most", static_cast<long long>(deepest_nesting)}}});
  try {
    std::istringstream in(text);
    const auto root = toml::parse<toml::discard_comments, std::map, std::vector>(in, file);
    return Converter(text, file).take(root);
  } catch (const toml::exception& error) {
    const int said = static_cast<int>(error.location().line());
    const int quoted = said <= 1 ? quoted_line(error.what()) : 0;
    const int line = quoted > 0 ? quoted : said;
    return input_failure(refusal(error.what(), line, text, file));
  } catch (const std::exception& error) {
    return input_failure(refusal(error.what(), 0, text, file));
  }
}

Reading<Document> read_toml_file(const std::string& path) {
  return read_text_file(path).and_then(
      [&](const std::string& text) { return parse_toml(text, path); });
}

}  // namespace wheyfield::cli
