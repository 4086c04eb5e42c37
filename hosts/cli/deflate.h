// zlib (RFC 1950), for team files. The phone uses the browser's own (CompressionStream "deflate");
// each reads what the other wrote.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace wheyfield::cli {

// As small as zlib can.
std::string deflate(std::string_view text);

struct Inflated {
  std::string text;
  bool too_large = false;  // there was more than `most`: `text` is then empty
};

// The whole text, of at most `most` bytes; no more than that is ever unpacked. Nothing when the
// bytes are no zlib stream, end early or go on after its end.
std::optional<Inflated> inflate(std::string_view bytes, std::size_t most);

}  // namespace wheyfield::cli
