#include "store/sqlite/checksum.h"

#include <array>

namespace wheyfield::store {
namespace {

constexpr std::uint32_t reversed_polynomial = 0xEDB88320;

constexpr std::array<std::uint32_t, 256> crc_of_bytes() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t byte = 0; byte < 256; ++byte) {
    std::uint32_t crc = byte;
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1) != 0 ? reversed_polynomial : 0);
    table[byte] = crc;
  }
  return table;
}

constexpr std::array<std::uint32_t, 256> table = crc_of_bytes();

}  // namespace

std::uint32_t crc32(std::string_view bytes, std::uint32_t before) {
  std::uint32_t crc = ~before;
  for (const char byte : bytes)
    crc = table[(crc ^ static_cast<unsigned char>(byte)) & 0xff] ^ (crc >> 8);
  return ~crc;
}

}  // namespace wheyfield::store
