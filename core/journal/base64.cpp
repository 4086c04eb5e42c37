#include "journal/base64.h"

#include <cstdint>

namespace wheyfield::journal {
namespace {

constexpr std::string_view base64_letters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

// 0 to 63, or -1.
int base64_value(char c) {
  if (c >= 'A' && c <= 'Z') return c - 'A';
  if (c >= 'a' && c <= 'z') return c - 'a' + 26;
  if (c >= '0' && c <= '9') return c - '0' + 52;
  return c == '+' ? 62 : c == '/' ? 63 : -1;
}

}  // namespace

std::string to_base64(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t b = 0; b < 3; ++b)
      group = group << 8 | (i + b < bytes.size() ? static_cast<unsigned char>(bytes[i + b]) : 0u);
    for (std::size_t c = 0; c < 4; ++c)
      text += i + c > bytes.size() ? '=' : base64_letters[group >> (18 - 6 * c) & 63];
  }
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  while (!text.empty() && text.back() == '=' && text.size() % 4 != 2) text.remove_suffix(1);
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t bits = 0;
  int held = 0;
  for (const char c : text) {
    const int value = base64_value(c);
    if (value < 0) return std::nullopt;
    bits = bits << 6 | static_cast<std::uint32_t>(value);
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes += static_cast<char>(bits >> held & 255);
  }
  if ((bits & ((1u << held) - 1)) != 0) return std::nullopt;
  return bytes;
}

}  // namespace wheyfield::journal
