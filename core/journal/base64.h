// Bytes as text that every chat program passes on: base64 of RFC 4648, section 4.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace wheyfield::journal {

// With padding, without line ends.
std::string to_base64(std::string_view bytes);

// Nothing for a text that to_base64 does not write: other characters, missing padding, bits left
// over that are not zero.
std::optional<std::string> from_base64(std::string_view text);

}  // namespace wheyfield::journal
