#include "cli/toml_guard.h"

#include <algorithm>
#include <string>

namespace wheyfield::cli {
namespace {

// The offset just after the string that opens at `at` with a quote character. A string that is not
// closed ends with its line, or with the text when it spans lines.
std::size_t after_string(std::string_view text, std::size_t at) {
  const char quote = text[at];
  const bool multi = text.substr(at, 3) == std::string(3, quote);
  const std::size_t marks = multi ? 3 : 1;
  for (std::size_t i = at + marks; i < text.size(); ++i) {
    if (text[i] == '\\' && quote == '"') {
      ++i;
      continue;
    }
    if (!multi && text[i] == '\n') return i;
    if (text[i] != quote) continue;
    if (!multi) return i + 1;
    if (text.substr(i, 3) == text.substr(at, 3)) return i + 3;
  }
  return text.size();
}

}  // namespace

std::size_t too_deep_at(std::string_view toml) {
  int depth = 0;
  int dots = 0;
  for (std::size_t at = 0; at < toml.size();) {
    const char c = toml[at];
    if (c == '"' || c == '\'') {
      at = after_string(toml, at);
      continue;
    }
    if (c == '#') {
      at = std::min(toml.find('\n', at), toml.size());
      continue;
    }
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') depth = std::max(0, depth - 1);
    if (c == '.') ++dots;
    if (c == '\n' || c == '=' || c == ',') dots = 0;
    if (depth > deepest_nesting || dots > deepest_nesting) return at;
    ++at;
  }
  return std::string_view::npos;
}

}  // namespace wheyfield::cli
