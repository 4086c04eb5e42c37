// Files cut off, bits flipped, blocks overwritten: a problem is said, or what is given is unharmed.
#include <algorithm>
#include <set>

#include "store/sqlite/sqlite_log.h"
#include "support/draw.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::open_sqlite_log;

void flip_bits(std::string& bytes, Draw& draw, std::uint64_t count) {
  for (; count > 0; --count) {
    char& byte = bytes[draw.below(bytes.size())];
    byte = static_cast<char>(byte ^ (1 << draw.below(8)));
  }
}

void overwrite_block(std::string& bytes, Draw& draw, bool zeros) {
  const std::size_t start = draw.below(bytes.size());
  for (std::size_t at = start; at < std::min(start + 512, bytes.size()); ++at)
    bytes[at] = zeros ? '\0' : static_cast<char>(draw.below(256));
}

// One of: cut off anywhere, cut off at a page, one bit, a few bits, one bit of the header and the
// schema, a block of zeros, a block of anything.
void damage(std::string& bytes, Draw& draw) {
  switch (draw.below(7)) {
    case 0:
      bytes.resize(draw.below(bytes.size()));
      break;
    case 1:
      bytes.resize(draw.below(bytes.size() / 4096) * 4096);
      break;
    case 2:
      flip_bits(bytes, draw, 1);
      break;
    case 3:
      flip_bits(bytes, draw, 1 + draw.below(40));
      break;
    case 4: {
      std::string head = bytes.substr(0, 4096);
      flip_bits(head, draw, 1 + draw.below(4));
      bytes.replace(0, head.size(), head);
      break;
    }
    case 5:
      overwrite_block(bytes, draw, true);
      break;
    default:
      overwrite_block(bytes, draw, false);
  }
}

Entries of_many_lengths(std::int64_t count) {
  Draw draw(4);
  Entries entries;
  for (std::int64_t counter = 1; counter <= count; ++counter)
    entries.push_back(
        entry_of("KOBO", counter, std::string(draw.below(20) == 0 ? 6000 : draw.below(200), 'n')));
  return entries;
}

std::set<std::string> lines_of(const Entries& entries) {
  std::set<std::string> lines;
  for (const auto& entry : entries) lines.insert(entry.id.text() + " " + entry.line);
  return lines;
}

struct Outcomes {
  int cases = 0, not_opened = 0, not_read = 0, set_aside = 0, not_verified = 0, unharmed = 0;
};

class Damage : public ::testing::Test {
 protected:
  void SetUp() override {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, original);
    log->reset();
    whole = bytes_of(path);
  }

  // What reading gives must be unharmed; what all three pass must be complete.
  void look(Outcomes& outcomes) {
    ++outcomes.cases;
    const auto log = open_sqlite_log(path);
    if (!log) {
      ++outcomes.not_opened;
      EXPECT_TRUE(code_of(log) == "store-unreadable" || code_of(log) == "store-broken")
          << told(log);
      return;
    }
    const auto kept = (*log)->read();
    const auto verified = (*log)->verify();
    const std::string found = code_of(verified);
    EXPECT_TRUE(verified || found == "store-broken" || found == "store-note-damaged")
        << told(verified);
    if (!kept) {
      ++outcomes.not_read;
      EXPECT_EQ(code_of(kept), "store-broken") << told(kept);
      EXPECT_FALSE(verified);
      return;
    }
    for (const std::string& line : lines_of(kept->entries)) ASSERT_TRUE(known.count(line)) << line;
    if (!kept->damaged.empty()) ++outcomes.set_aside;
    EXPECT_FALSE(verified && !kept->damaged.empty());
    ++(verified ? outcomes.unharmed : outcomes.not_verified);
    ASSERT_TRUE(!verified || kept->entries.size() == original.size());
    (void)(*log)->append({entry_of("KOBO", 1000)});  // whatever it gives: no crash
  }

  ScratchFolder folder;
  std::string path = folder.file("notes.db");
  Entries original = of_many_lengths(300);
  std::set<std::string> known = lines_of(original);
  std::string whole;
};

TEST_F(Damage, IsSaidOrHarmsNothingAndNeverEndsTheProgram) {
  Draw draw(2027);
  Outcomes outcomes;
  for (int i = 0; i < cases(1000); ++i) {
    std::string bytes = whole;
    damage(bytes, draw);
    for (const char* ending : {"-wal", "-shm"}) std::filesystem::remove(path + ending);
    write_bytes(path, bytes);
    ASSERT_NO_FATAL_FAILURE(look(outcomes)) << "case " << i;
  }
  std::printf(
      "%d damaged files: %d not opened, %d not read, %d found by verify, %d of them with notes set "
      "aside, %d unharmed\n",
      outcomes.cases, outcomes.not_opened, outcomes.not_read, outcomes.not_verified,
      outcomes.set_aside, outcomes.unharmed);
  EXPECT_GT(outcomes.not_opened, 0);
  EXPECT_GT(outcomes.not_read, 0);
  EXPECT_GT(outcomes.set_aside, 0);
  EXPECT_GT(outcomes.not_verified, 0);
  EXPECT_GT(outcomes.unharmed, 0);
}

// The write-ahead file as a process that was killed leaves it. SQLite drops everything from the
// first damaged transaction on: whole batches from the start, none by half.
TEST(DamageOfWal, LeavesWholeBatchesFromTheStart) {
  constexpr std::int64_t batch = 7;
  const ScratchFolder folder;
  const std::string path = folder.file("notes.db");
  const auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  for (std::int64_t first = 1; first <= 30 * batch; first += batch)
    append_all(**log, entries_of("KOBO", first, first + batch - 1));
  const std::string copy = folder.file("copy.db"), main = bytes_of(path);
  const std::string wal = bytes_of(path + "-wal"), shm = bytes_of(path + "-shm");
  ASSERT_GT(wal.size(), 100000u);
  Draw draw(2028);
  int complete = 0;
  for (int i = 0; i < cases(400); ++i) {
    std::string bytes = wal, index = shm;
    damage(i % 5 == 0 ? index : bytes, draw);
    write_bytes(copy, main);
    write_bytes(copy + "-wal", bytes);
    write_bytes(copy + "-shm", index);
    auto opened = open_sqlite_log(copy);
    ASSERT_TRUE(opened) << i << " " << told(opened);
    const Entries entries = read_all(**opened);
    const auto count = static_cast<std::int64_t>(entries.size());
    ASSERT_EQ(count % batch, 0) << i;
    ASSERT_TRUE(entries == entries_of("KOBO", 1, count)) << i;
    ASSERT_TRUE((*opened)->verify()) << i;
    ASSERT_TRUE(i % 5 != 0 || count == 30 * batch) << i;
    complete += count == 30 * batch ? 1 : 0;
  }
  std::printf("write-ahead file or its index damaged: %d of %d complete\n", complete, cases(400));
  EXPECT_LT(complete, cases(400));
}

}  // namespace
}  // namespace wheyfield::testing
