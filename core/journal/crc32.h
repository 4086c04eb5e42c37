// The checksum of IEEE 802.3 (reflected, polynomial EDB88320, start and end inverted), as zlib and
// gzip use it. It finds every single flipped bit and nearly every other damage; it is no protection
// against somebody who changes a line on purpose.
#pragma once

#include <cstdint>
#include <string_view>

namespace wheyfield::journal {

// Of all `bytes`; with `before`, as if they stood behind those it was worked out for.
std::uint32_t crc32_of(std::string_view bytes, std::uint32_t before = 0);

}  // namespace wheyfield::journal
