#include "api/row_text.h"

#include <algorithm>
#include <cmath>

#include "api/session.h"

namespace wheyfield::api {
namespace {

bool needs_no_escape(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char letter) {
    return letter >= ' ' && letter < '\x7f' && letter != '"' && letter != '\\';
  });
}

void append_text(std::string& out, std::string_view text) {
  if (needs_no_escape(text))
    out.append("\"").append(text).append("\"");
  else
    out += written(Json(text));
}

// Whole numbers up to here are written without an exponent.
constexpr double plain_limit = 1e15;

bool is_plain_whole(double value) {
  return value == std::floor(value) && std::fabs(value) < plain_limit && !std::signbit(value);
}

void append_number(std::string& out, double value) {
  if (is_plain_whole(value))
    out.append(std::to_string(static_cast<std::int64_t>(value))).append(".0");
  else
    out += written(Json(value));
}

}  // namespace

void RowText::key(const char* name) {
  out_.append(first_ ? "\"" : ",\"").append(name).append("\":");
  first_ = false;
}

RowText& RowText::text(const char* name, std::string_view value) {
  key(name);
  append_text(out_, value);
  return *this;
}

RowText& RowText::text_or_null(const char* name, const std::optional<std::string>& value) {
  if (value) return text(name, *value);
  key(name);
  out_ += "null";
  return *this;
}

RowText& RowText::number(const char* name, double value) {
  key(name);
  append_number(out_, value);
  return *this;
}

RowText& RowText::number_or_null(const char* name, const std::optional<double>& value) {
  if (value) return number(name, *value);
  key(name);
  out_ += "null";
  return *this;
}

RowText& RowText::whole(const char* name, std::int64_t value) {
  key(name);
  out_ += std::to_string(value);
  return *this;
}

RowText& RowText::flag(const char* name, bool value) {
  key(name);
  out_ += value ? "true" : "false";
  return *this;
}

RowText& RowText::texts(const char* name, const std::vector<std::string>& values) {
  key(name);
  out_ += '[';
  for (const std::string& value : values) {
    if (&value != &values.front()) out_ += ',';
    append_text(out_, value);
  }
  out_ += ']';
  return *this;
}

}  // namespace wheyfield::api
