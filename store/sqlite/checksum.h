// CRC-32 (IEEE 802.3), which finds every single flipped bit and nearly every other damage. It is no
// protection against somebody who changes a line on purpose.
#pragma once

#include <cstdint>
#include <string_view>

namespace wheyfield::store {

// Of all `bytes`; with `before`, as if they stood behind those it was worked out for.
std::uint32_t crc32(std::string_view bytes, std::uint32_t before = 0);

}  // namespace wheyfield::store
