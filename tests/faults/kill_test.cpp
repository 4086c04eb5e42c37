// kill -9 while events are written. What a killed process leaves is what the operating system was
// handed; what a power cut leaves is not tested here.
#include <unistd.h>

#include "faults/children.h"
#include "store/sqlite/sqlite_log.h"
#include "support/draw.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::open_sqlite_log;

// The batches one after the other, always the same: mostly of a few entries, some of hundreds.
class Batches {
 public:
  explicit Batches(std::uint64_t seed) : draw_(seed) {}
  // The number of entries up to and with batch `nth`, counted from 0.
  std::int64_t end_of(std::int64_t nth) {
    while (static_cast<std::int64_t>(ends_.size()) <= nth) {
      const std::int64_t before = ends_.empty() ? 0 : ends_.back();
      ends_.push_back(before +
                      (draw_.below(12) == 0 ? draw_.between(100, 300) : draw_.between(1, 20)));
    }
    return ends_[static_cast<std::size_t>(nth)];
  }
  Entries batch(std::int64_t nth) {
    return entries_of("KOBO", (nth == 0 ? 0 : end_of(nth - 1)) + 1, end_of(nth));
  }

 private:
  Draw draw_;
  std::vector<std::int64_t> ends_;
};

struct Tally {
  std::int64_t kills = 0, acknowledged = 0, found = 0, lost = 0, whole_but_untold = 0;
};

// One store, killed again and again; each time what was left is written on.
class Victim {
 public:
  Victim(std::uint64_t seed, ScratchFolder::Place place, Draw& draw)
      : folder_(place), batches_(seed), draw_(draw) {}

  void kill_once(Tally& tally) {
    const std::int64_t from = done_;
    std::unique_ptr<journal::EventLog> log;  // of the child
    Worker worker([&](std::int64_t turn) {
      if (turn == 0) log = std::move(open_sqlite_log(path_).value());
      return log->append(batches_.batch(from + turn)).has_value();
    });
    worker.wait_for(draw_.below(3));
    const std::int64_t told = worker.kill_after(draw_.below(800));
    ASSERT_TRUE(worker.was_killed());
    ++tally.kills;
    tally.acknowledged += told;
    look(from + told, tally);
    tally.found += done_ - from;
    if (done_ > from + told) ++tally.whole_but_untold;
  }

 private:
  // All batches before `told` must be there, and the one after them whole or not at all.
  void look(std::int64_t told, Tally& tally) {
    auto log = open_sqlite_log(path_);
    ASSERT_TRUE(log) << testing::told(log);
    const auto verified = (*log)->verify();
    ASSERT_TRUE(verified) << testing::told(verified);
    const Entries entries = read_all(**log);
    const auto count = static_cast<std::int64_t>(entries.size());
    const std::int64_t promised = told == 0 ? 0 : batches_.end_of(told - 1);
    if (count < promised) ++tally.lost;
    ASSERT_TRUE(count == promised || count == batches_.end_of(told))
        << count << " found, " << promised << " acknowledged";
    ASSERT_TRUE(entries == entries_of("KOBO", 1, count));
    done_ = told + (count == promised ? 0 : 1);
  }

  ScratchFolder folder_;
  std::string path_ = folder_.file("notes.db");
  Batches batches_;
  Draw& draw_;
  std::int64_t done_ = 0;  // batches that are there
};

TEST(Kill, NothingAcknowledgedIsLostAndNoBatchIsThereByHalf) {
  Draw draw(9);
  Tally tally;
  const int stores = cases(200);
  for (int store = 0; store < stores; ++store) {
    // A disk takes its time, so that more kills come while it writes.
    const auto place = store % 10 == 0 ? ScratchFolder::Place::disk : ScratchFolder::Place::memory;
    Victim victim(static_cast<std::uint64_t>(store), place, draw);
    for (int kill = 0; kill < 5; ++kill) ASSERT_NO_FATAL_FAILURE(victim.kill_once(tally));
  }
  std::printf(
      "%lld kills; batches: %lld acknowledged, %lld found (%lld whole but not yet"
      " acknowledged), %lld lost\n",
      static_cast<long long>(tally.kills), static_cast<long long>(tally.acknowledged),
      static_cast<long long>(tally.found), static_cast<long long>(tally.whole_but_untold),
      static_cast<long long>(tally.lost));
  EXPECT_EQ(tally.kills, stores * 5);
  EXPECT_EQ(tally.found, tally.acknowledged + tally.whole_but_untold);
  EXPECT_GT(tally.acknowledged, tally.kills / 2);  // or the kills came too early to mean anything
}

constexpr std::int64_t names = 60;

// No body of a name below `forgotten` in any of the files.
void expect_no_trace(const ScratchFolder& folder, std::int64_t forgotten) {
  for (const auto& file : std::filesystem::directory_iterator(folder.path())) {
    const std::string bytes = bytes_of(file.path().string());
    for (std::int64_t counter = 1; counter <= forgotten; ++counter)
      ASSERT_EQ(bytes.find("seen at " + std::to_string(counter) + "\""), std::string::npos)
          << file << " " << counter;
  }
}

TEST(Kill, WhatWasForgottenIsGoneAfterTheNextOpenWheneverTheKillCame) {
  Draw draw(10);
  std::int64_t owed = 0;
  for (int round = 0; round < cases(100); ++round) {
    const ScratchFolder folder;
    const std::string path = folder.file("notes.db");
    append_all(*open_sqlite_log(path).value(), entries_of("KOBO", 1, names));
    std::unique_ptr<journal::EventLog> log;
    Worker worker([&](std::int64_t turn) {
      if (turn == 0) log = std::move(open_sqlite_log(path).value());
      if (turn == names / 2) ::pause();  // all done: waits for the kill
      return log->blank({blanked("KOBO", 2 * turn + 1), blanked("KOBO", 2 * turn + 2)}).has_value();
    });
    worker.wait_for(draw.below(4));
    const std::int64_t told = worker.kill_after(draw.below(3000));
    ASSERT_TRUE(worker.was_killed());
    const auto again = open_sqlite_log(path);
    ASSERT_TRUE(again) << testing::told(again);
    const Entries entries = read_all(**again);
    std::int64_t blank = 0;
    while (blank < names && entries[static_cast<std::size_t>(blank)] == blanked("KOBO", blank + 1))
      ++blank;
    ASSERT_TRUE(blank == 2 * told || blank == 2 * told + 2) << blank << " of " << told;
    if (blank > 2 * told) ++owed;
    ASSERT_NO_FATAL_FAILURE(expect_no_trace(folder, blank));
    ASSERT_TRUE((*again)->verify());
  }
  std::printf("%lld kills came after the lines were replaced and before it was told\n",
              static_cast<long long>(owed));
  EXPECT_GT(owed, 0);
}

}  // namespace
}  // namespace wheyfield::testing
