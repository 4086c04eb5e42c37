// The checksum of IEEE 802.3 (reflected, polynomial EDB88320, start and end inverted), as zlib and
// gzip use it.
#pragma once

#include <cstdint>
#include <string_view>

namespace wheyfield::journal {

std::uint32_t crc32_of(std::string_view bytes);

}  // namespace wheyfield::journal
