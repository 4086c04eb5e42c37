#include "quantity/number_text.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace wheyfield::quantity {
namespace {

using outcome::failure;
using outcome::Result;

// The text folded to ASCII: digits, '.', ',', '_' for a group mark, '/' and '-'.
std::optional<char32_t> next_code_point(std::string_view text, std::size_t& at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  const std::size_t length = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
  if (byte >= 0x80 && byte < 0xC2) return std::nullopt;
  if (at + length > text.size()) return std::nullopt;
  char32_t code = length == 1 ? byte : byte & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    const auto more = static_cast<unsigned char>(text[at + i]);
    if ((more & 0xC0) != 0x80) return std::nullopt;
    code = (code << 6) | (more & 0x3F);
  }
  at += length;
  return code;
}

std::optional<std::string> folded_code(char32_t c) {
  static constexpr std::array<char32_t, 6> zeros{U'0', 0x0660, 0x06F0, 0x0966, 0x09E6, 0xFF10};
  for (char32_t zero : zeros)
    if (c >= zero && c <= zero + 9) return std::string(1, static_cast<char>('0' + (c - zero)));
  switch (c) {
    case U'.':
    case 0x066B:
      return std::string(c == U'.' ? "." : "d");
    case U',':
      return ",";
    case U' ':
    case 0x00A0:
    case 0x202F:
    case 0x2009:
    case U'\'':
    case 0x2019:
    case 0x066C:
      return "_";
    case U'/':
    case 0x2044:
      return "/";
    case U'-':
    case 0x2212:
      return "-";
    case 0x00BC:
      return "_1/4_";
    case 0x00BD:
      return "_1/2_";
    case 0x00BE:
      return "_3/4_";
    default:
      return std::nullopt;
  }
}

std::optional<std::string> folded(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto code = next_code_point(text, at);
    const auto ascii = code ? folded_code(*code) : std::nullopt;
    if (!ascii) return std::nullopt;
    const bool vulgar = ascii->size() > 1;
    if (vulgar && !out.empty() && out.back() == '_') out.pop_back();
    out += *ascii;
  }
  if (!out.empty() && out[0] == '_') out.erase(0, 1);
  if (!out.empty() && out.back() == '_') out.pop_back();
  return out;
}

bool all_digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

double digits_value(std::string_view digits) {
  double value = 0.0;
  for (char c : digits) value = value * 10.0 + (c - '0');
  return value;
}

double decimal_value(std::string_view whole, std::string_view decimals) {
  double scale = 1.0;
  for (std::size_t i = 0; i < decimals.size(); ++i) scale *= 10.0;
  return (digits_value(whole) * scale + digits_value(decimals)) / scale;
}

// Whole part with group marks `mark`: 1-3 digits, then groups of exactly three.
std::optional<std::string> ungrouped(std::string_view text, char mark) {
  std::string digits;
  std::size_t start = 0;
  bool first = true;
  while (true) {
    const std::size_t end = text.find(mark, start);
    const std::string_view group = text.substr(start, end - start);
    const bool last = end == std::string_view::npos;
    if (!all_digits(group)) return std::nullopt;
    if (!first && group.size() != 3) return std::nullopt;
    const bool empty_thousands = group.find_first_not_of('0') == std::string_view::npos;
    if (first && !last && (group.size() > 3 || empty_thousands)) return std::nullopt;
    digits += group;
    if (last) return digits;
    start = end + 1;
    first = false;
  }
}

std::optional<double> with_marks(std::string_view text, char decimal, char group) {
  const std::size_t at = text.rfind(decimal);
  const std::string_view whole = at == std::string_view::npos ? text : text.substr(0, at);
  const std::string_view decimals = at == std::string_view::npos ? "" : text.substr(at + 1);
  if (at != std::string_view::npos && !all_digits(decimals)) return std::nullopt;
  const auto digits = ungrouped(whole, group);
  if (!digits) return std::nullopt;
  return decimal_value(*digits, decimals);
}

std::size_t count(std::string_view text, char c) {
  std::size_t n = 0;
  for (char x : text) n += x == c;
  return n;
}

enum class Reading { good, unreadable, ambiguous };
struct Unsigned {
  Reading reading;
  double value;
};

Unsigned good_or_bad(std::optional<double> value) {
  return value ? Unsigned{Reading::good, *value} : Unsigned{Reading::unreadable, 0};
}

// `text` holds digits and marks only. `d` is a decimal mark that is never a group mark.
Unsigned read_decimal(const std::string& text) {
  const std::size_t points = count(text, '.'), commas = count(text, ','), sure = count(text, 'd');
  const char group = count(text, '_') ? '_' : '\0';
  if (sure)
    return good_or_bad(sure == 1 && !points && !commas ? with_marks(text, 'd', group ? '_' : '\1')
                                                       : std::nullopt);
  if (points && commas) {
    const bool point_last = text.rfind('.') > text.rfind(',');
    if (group || (point_last ? points : commas) != 1) return {Reading::unreadable, 0};
    return good_or_bad(point_last ? with_marks(text, '.', ',') : with_marks(text, ',', '.'));
  }
  if (points + commas > 1) {
    const char mark = points ? '.' : ',';
    return good_or_bad(group ? std::nullopt : with_marks(text, '\1', mark));
  }
  if (points + commas == 1) {
    const char mark = points ? '.' : ',';
    const std::size_t at = text.find(mark);
    const bool three = text.size() - at - 1 == 3;
    const bool thousands = at <= 3 && text.find_first_not_of('0') < at;
    if (three && !group && thousands) return {Reading::ambiguous, 0};
    return good_or_bad(with_marks(text, mark, group ? '_' : '\1'));
  }
  return good_or_bad(with_marks(text, '\1', group ? '_' : '\1'));
}

// "1_1/2" or "1/2". A mixed number has a proper fraction of one or two digits above: "1_000/2"
// could be five hundred.
Unsigned read_fraction(std::string_view text, std::size_t slash) {
  const std::string_view bottom = text.substr(slash + 1);
  std::string_view top = text.substr(0, slash);
  double whole = 0.0;
  if (const std::size_t gap = top.rfind('_'); gap != std::string_view::npos) {
    const std::string_view front = top.substr(0, gap);
    top = top.substr(gap + 1);
    const bool proper = all_digits(top) && top.size() <= 2 && top[0] != '0' && all_digits(bottom) &&
                        digits_value(top) < digits_value(bottom);
    if (!all_digits(front) || !proper) return {Reading::unreadable, 0};
    whole = digits_value(front);
  }
  if (!all_digits(top) || !all_digits(bottom) || digits_value(bottom) == 0.0)
    return {Reading::unreadable, 0};
  return {Reading::good, whole + digits_value(top) / digits_value(bottom)};
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

Result<double> parse_number(std::string_view raw) {
  const std::string_view text = trimmed(raw);
  auto ascii = folded(text);
  const bool negative = ascii && !ascii->empty() && (*ascii)[0] == '-';
  if (negative) ascii->erase(0, 1);
  Unsigned read{Reading::unreadable, 0};
  if (ascii && !ascii->empty() && ascii->size() <= 24) {
    const std::size_t slash = ascii->find('/');
    read = slash == std::string::npos ? read_decimal(*ascii) : read_fraction(*ascii, slash);
  }
  if (read.reading == Reading::good) return negative ? -read.value : read.value;
  const char* code = read.reading == Reading::ambiguous ? "number-ambiguous" : "number-unreadable";
  return failure({code, "", std::string(raw), {}});
}

NumberAndUnit split_unit(std::string_view raw) {
  const std::string_view text = trimmed(raw);
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto code = next_code_point(text, at);
    if (!code || !folded_code(*code)) break;
    end = at;
  }
  return {trimmed(text.substr(0, end)), trimmed(text.substr(end))};
}

}  // namespace wheyfield::quantity
