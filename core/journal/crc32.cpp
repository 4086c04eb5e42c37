#include "journal/crc32.h"

#include <array>

namespace wheyfield::journal {
namespace {

constexpr std::array<std::uint32_t, 256> crc32_table() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t byte = 0; byte < 256; ++byte) {
    std::uint32_t rest = byte;
    for (int bit = 0; bit < 8; ++bit) rest = (rest & 1) != 0 ? rest >> 1 ^ 0xEDB88320u : rest >> 1;
    table[byte] = rest;
  }
  return table;
}

}  // namespace

std::uint32_t crc32_of(std::string_view bytes, std::uint32_t before) {
  static constexpr auto table = crc32_table();
  std::uint32_t rest = ~before;
  for (const char byte : bytes)
    rest = table[(rest ^ static_cast<unsigned char>(byte)) & 255] ^ rest >> 8;
  return ~rest;
}

}  // namespace wheyfield::journal
