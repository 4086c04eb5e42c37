#include "cli/deflate.h"

#include <zlib.h>

#include <algorithm>
#include <array>

namespace wheyfield::cli {
namespace {

constexpr std::size_t inflate_step = 16384;

Bytef* zlib_bytes(std::string_view bytes) {
  return reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
}

// Ends the stream whatever happens.
struct InflateStream {
  z_stream z{};
  bool ready = inflateInit(&z) == Z_OK;

  InflateStream() = default;
  InflateStream(const InflateStream&) = delete;
  InflateStream& operator=(const InflateStream&) = delete;
  ~InflateStream() {
    if (ready) inflateEnd(&z);
  }
};

}  // namespace

std::string deflate(std::string_view text) {
  uLongf size = compressBound(static_cast<uLong>(text.size()));
  std::string bytes(size, '\0');
  compress2(reinterpret_cast<Bytef*>(bytes.data()), &size, zlib_bytes(text),
            static_cast<uLong>(text.size()), Z_BEST_COMPRESSION);
  bytes.resize(size);
  return bytes;
}

std::optional<Inflated> inflate(std::string_view bytes, std::size_t most) {
  InflateStream stream;
  if (!stream.ready) return std::nullopt;
  if (bytes.size() > compressBound(static_cast<uLong>(most))) return Inflated{"", true};
  stream.z.next_in = zlib_bytes(bytes);
  stream.z.avail_in = static_cast<uInt>(bytes.size());
  Inflated inflated;
  std::array<char, inflate_step> step;
  int status = Z_OK;
  while (status == Z_OK) {
    stream.z.next_out = reinterpret_cast<Bytef*>(step.data());
    stream.z.avail_out = static_cast<uInt>(step.size());
    status = ::inflate(&stream.z, Z_NO_FLUSH);
    inflated.text.append(step.data(), step.size() - stream.z.avail_out);
    if (inflated.text.size() > most) return Inflated{"", true};
  }
  if (status != Z_STREAM_END || stream.z.avail_in != 0) return std::nullopt;
  return inflated;
}

}  // namespace wheyfield::cli
