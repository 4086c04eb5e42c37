// How large a team file gets: the numbers that docs/formats/journal.md names, printed by every run.
#include <gtest/gtest.h>

#include <iostream>

#include "cli/deflate.h"
#include "journal/crc32.h"
#include "journal/packed_notes.h"
#include "journal/team_file.h"
#include "support/group_notes.h"
#include "support/random_notes.h"

namespace wheyfield {
namespace {

using testing::lines_of;
using testing::pointers_to;

struct Sizes {
  std::size_t lines = 0;   // one event a line
  std::size_t packed = 0;  // zlib
  std::size_t block = 0;   // base64, borders and line ends
};

Sizes sizes_of(const std::vector<journal::Event>& events) {
  Sizes sizes;
  for (const std::string& line : lines_of(events)) sizes.lines += line.size() + 1;
  const std::string text = journal::pack(pointers_to(events));
  const std::string bytes = cli::deflate(text);
  sizes.packed = bytes.size();
  sizes.block = journal::compose({}, {events.size(), bytes, journal::crc32_of(text)}).size();
  std::cout << "[  sizes   ] " << events.size() << " notes: " << sizes.lines << " bytes as lines, "
            << sizes.packed << " packed, " << sizes.block << " as the block of a team file\n";
  return sizes;
}

// Several seeds: the size must not hang on a lucky draw.
TEST(TeamFileSizes, ADayOfOneGroupTakesAtMostTwoKilobytes) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const auto events = testing::GroupNotes(seed).day();
    ASSERT_EQ(events.size(), 78u);
    EXPECT_LE(sizes_of(events).block, 2048u);
  }
}

TEST(TeamFileSizes, ASeasonOfFourGroupsTakesAtMostThirtyKilobytes) {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const auto events = testing::GroupNotes(seed).season();
    ASSERT_EQ(events.size(), 1384u);
    EXPECT_LE(sizes_of(events).block, 30720u);
  }
}

TEST(TeamFileSizes, TheMeasuredNotesAreOnesThatAnEventReaderAccepts) {
  const auto events = testing::GroupNotes(1).season();
  for (const journal::Event& event : events)
    ASSERT_TRUE(journal::parse_event(std::string_view(journal::line_of(event))));
  const auto back = journal::unpack(journal::pack(pointers_to(events)));
  ASSERT_TRUE(back);
  EXPECT_EQ(lines_of(*back), lines_of(events));
}

}  // namespace
}  // namespace wheyfield
