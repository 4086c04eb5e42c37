#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

bool continues(std::string_view text, std::size_t at) {
  return at < text.size() && (byte_at(text, at) & 0xC0U) == 0x80U;
}

// Length of the well-formed sequence starting at `at`, 0 when there is none (RFC 3629, section 4).
std::size_t sequence(std::string_view text, std::size_t at) {
  const unsigned lead = byte_at(text, at);
  if (lead < 0x80U) return 1;
  if (lead < 0xC2U || lead > 0xF4U || !continues(text, at + 1)) return 0;
  if (lead < 0xE0U) return 2;
  const unsigned second = byte_at(text, at + 1);
  if ((lead == 0xE0U && second < 0xA0U) || (lead == 0xEDU && second > 0x9FU)) return 0;
  if (!continues(text, at + 2)) return 0;
  if (lead < 0xF0U) return 3;
  if ((lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second > 0x8FU)) return 0;
  return continues(text, at + 3) ? 4 : 0;
}

}  // namespace

std::size_t first_bad_byte(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::size_t width(std::string_view text) {
  std::size_t characters = 0;
  for (const char c : text)
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++characters;
  return characters;
}

std::string printable(std::string_view text) {
  std::string out(text);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const unsigned byte = byte_at(out, i);
    if (byte < 0x20U || byte == 0x7FU) out[i] = '?';
    // U+0080..U+009F, the second set of controls, is C2 80..9F.
    if (byte == 0xC2U && i + 1 < out.size() && byte_at(out, i + 1) < 0xA0U) out.replace(i, 2, "?");
  }
  return out;
}

std::string shortened(std::string_view text, std::size_t most) {
  if (width(text) <= most) return std::string(text);
  std::size_t end = 0;
  for (std::size_t taken = 0; taken < most - 1; ++taken) do
      ++end;
    while (continues(text, end));
  return std::string(text.substr(0, end)) + "…";
}

}  // namespace wheyfield::cli
