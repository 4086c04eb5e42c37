// Team files as they travel, packed by zlib: whatever happens to one, nothing wrong is taken in.
#include <gtest/gtest.h>

#include "support/group_notes.h"
#include "support/random_notes.h"
#include "support/take_in.h"

namespace wheyfield {
namespace {

using testing::lines_of;
using testing::pointers_to;
using testing::take_in;

std::string verdict_on(std::string_view file) {
  const auto events = take_in(file);
  return events ? std::to_string(events->size()) + " notes" : events.error().front().code;
}

TEST(TeamFileDamage, ADayComesBackWhole) {
  const auto events = testing::GroupNotes(1).day();
  const auto back = take_in(testing::team_file(pointers_to(events)));
  ASSERT_TRUE(back);
  EXPECT_EQ(lines_of(*back), lines_of(events));
}

TEST(TeamFileDamage, EveryFlippedBitOfADayIsRefusedOrHarmless) {
  const auto events = testing::GroupNotes(1).day();
  const auto lines = lines_of(events);
  const std::string file = testing::team_file(pointers_to(events));
  for (std::size_t at = 0; at < file.size(); at += testing::sanitized ? 4 : 1) {
    for (int bit = 0; bit < 8; ++bit) {
      std::string flipped = file;
      flipped[at] = static_cast<char>(flipped[at] ^ (1 << bit));
      const auto taken = take_in(flipped);
      ASSERT_TRUE(!taken || lines_of(*taken) == lines) << "byte " << at << ", bit " << bit;
    }
  }
}

TEST(TeamFileDamage, EveryTruncationOfADayIsRefused) {
  const auto events = testing::GroupNotes(1).day();
  const std::string file = testing::team_file(pointers_to(events));
  for (std::size_t length = 0; length + 1 < file.size(); ++length)
    ASSERT_FALSE(take_in(std::string_view(file).substr(0, length))) << length;
}

// 40 MB of blanks are 40 kB of zlib: refused while unpacking.
TEST(TeamFileDamage, AFileThatUnpacksToMoreThanTheMostIsRefused) {
  const std::string text(journal::most_unpacked + (std::size_t{8} << 20), ' ');
  EXPECT_EQ(verdict_on(journal::compose({}, {1, cli::deflate(text), 0})), "team-file-too-large");
}

TEST(TeamFileDamage, BytesThatAreNoZlibAreRefused) {
  EXPECT_EQ(verdict_on(journal::compose({}, {1, "PK\x03\x04", 0})), "team-file-changed");
  EXPECT_EQ(verdict_on(journal::compose({}, {0, "", 0})), "team-file-changed");
}

}  // namespace
}  // namespace wheyfield
