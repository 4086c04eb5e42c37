// libFuzzer: any bytes as a team file, as packed bytes and as packed notes. What is taken in must
// be events that pack and unpack to themselves.
#include <cstdint>
#include <cstdlib>
#include <iostream>

#include "support/random_notes.h"
#include "support/take_in.h"

namespace {

using wheyfield::journal::Event;

void must(bool holds, const char* what) {
  if (holds) return;
  std::cerr << "fuzz_team_file: " << what << "\n";
  std::abort();
}

void unpacked(std::string_view text) {
  const auto events = wheyfield::journal::unpack(text);
  if (!events) {
    must(!events.error().empty() && !events.error().front().code.empty(), "refused without a code");
    return;
  }
  for (const Event& event : *events)
    must(wheyfield::journal::parse_event(std::string_view(line_of(event))).has_value(),
         "an event that parse_event refuses");
  const auto again = wheyfield::journal::unpack(pack(wheyfield::testing::pointers_to(*events)));
  must(again.has_value(), "what was packed is refused");
  must(wheyfield::testing::lines_of(*again) == wheyfield::testing::lines_of(*events),
       "events changed by packing them");
}

// Past the checksum, which random bytes do not meet.
void inflated(std::string_view bytes) {
  constexpr std::size_t most = 1 << 20;
  const auto text = wheyfield::cli::inflate(bytes, most);
  if (!text) return;
  must(text->text.size() <= most, "more than the most was unpacked");
  unpacked(text->text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto events = wheyfield::testing::take_in(bytes);
  if (events) {
    const auto pointers = wheyfield::testing::pointers_to(*events);
    const auto again = wheyfield::testing::take_in(wheyfield::testing::team_file(pointers));
    must(again && again->size() == events->size(), "a team file of what was taken in is refused");
  }
  if (const auto part = wheyfield::journal::split(bytes)) inflated(part->bytes);
  inflated(bytes);
  unpacked(bytes);
  return 0;
}
