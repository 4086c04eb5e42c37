// No room left: by a limit on the size of files at many points, and on a small file system where
// the machine lets us mount one.
#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <unistd.h>

#include <optional>

#include "faults/children.h"
#include "store/sqlite/sqlite_log.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::open_sqlite_log;

constexpr std::int64_t before = 100;  // entries that are there before the disk is full
constexpr std::int64_t batch = 20;
constexpr std::int64_t last = before + 100 * batch;

void limit_files_to(std::optional<rlim_t> bytes) {
  ::signal(SIGXFSZ, SIG_IGN);
  rlimit limit{};
  ::getrlimit(RLIMIT_FSIZE, &limit);
  limit.rlim_cur = bytes ? *bytes : limit.rlim_max;
  ::setrlimit(RLIMIT_FSIZE, &limit);
}

// The entries from `from` on, batch by batch, until one does not fit. Gives the first that is not
// there, 0 when something else went wrong (in `fault`).
std::int64_t append_until_full(journal::EventLog& log, std::int64_t from, std::string& fault) {
  for (; from < last; from += batch) {
    const auto added = log.append(entries_of("KOBO", from, from + batch - 1));
    if (added) continue;
    fault = code_of(added) == "store-full" ? "" : "append: " + told(added);
    return from;
  }
  fault = "never full";
  return from;
}

// Holds entries 1 .. next - 1 and nothing else, and is sound.
std::string fault_in(journal::EventLog& log, std::int64_t next) {
  const auto kept = log.read();
  if (!kept) return "read: " + told(kept);
  if (!kept->damaged.empty() || !(kept->entries == entries_of("KOBO", 1, next - 1)))
    return std::to_string(kept->entries.size()) + " entries, not " + std::to_string(next - 1);
  const auto verified = log.verify();
  return verified ? "" : "verify: " + told(verified);
}

// Fills the store; then `more_room` and the same connection goes on.
std::string full_and_on(const std::string& path, const std::function<void()>& more_room) {
  auto log = open_sqlite_log(path);
  if (!log) return code_of(log) == "store-full" ? "not opened" : "open: " + told(log);
  std::string fault;
  const std::int64_t next = append_until_full(**log, before + 1, fault);
  if (fault.empty()) fault = fault_in(**log, next);
  if (!fault.empty()) return fault;
  more_room();
  const auto added = (*log)->append(entries_of("KOBO", next - batch, next + batch - 1));
  if (!added) return "after there is room again: " + told(added);
  return fault_in(**log, next + batch);
}

class DiskFull : public ::testing::Test {
 protected:
  void make_one() {
    std::filesystem::remove(path);
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, entries_of("KOBO", 1, before));
  }
  // What is left on the disk for the next program: everything of before, and sound.
  void expect_sound() {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    const Entries entries = read_all(**log);
    ASSERT_GE(entries.size(), static_cast<std::size_t>(before));
    ASSERT_EQ(fault_in(**log, static_cast<std::int64_t>(entries.size()) + 1), "");
  }
  ScratchFolder folder;
  std::string path = folder.file("notes.db");
};

// From nothing at all to ten times the file, in steps that are no whole pages (4096 bytes).
TEST_F(DiskFull, IsSaidAndNothingOfBeforeIsHarmedWhereverTheLimitLies) {
  int not_opened = 0, filled = 0;
  for (rlim_t limit = 0; limit < 400000; limit += limit < 60000 ? 1711 : 9733) {
    make_one();
    const std::string fault = in_child([&] {
      limit_files_to(limit);
      return full_and_on(path, [] { limit_files_to(std::nullopt); });
    });
    EXPECT_TRUE(fault.empty() || fault == "not opened") << limit << ": " << fault;
    ++(fault.empty() ? filled : not_opened);
    ASSERT_NO_FATAL_FAILURE(expect_sound()) << limit;
  }
  std::printf("%d limits: full at opening %d, full while appending %d\n", not_opened + filled,
              not_opened, filled);
  EXPECT_GT(not_opened, 0);
  EXPECT_GT(filled, 30);
}

TEST_F(DiskFull, ANewStoreThatFindsNoRoomLeavesNothingBehind) {
  for (rlim_t limit = 0; limit < 16000; limit += 1000)
    EXPECT_EQ(in_child([&] {
                limit_files_to(limit);
                return code_of(open_sqlite_log(path));
              }),
              "store-full")
        << limit;
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST_F(DiskFull, ABlankWithoutRoomIsEndedLater) {
  int full = 0;
  for (rlim_t limit = 33000; limit < 120000; limit += 6173) {
    make_one();
    const std::string code = in_child([&] {
      limit_files_to(limit);
      auto log = open_sqlite_log(path);
      if (!log) return told(log);
      const std::string code = code_of((*log)->blank({blanked("KOBO", 50)}));
      log = open_sqlite_log(path);  // it can be read all the same
      return log ? code + (read_all(**log).size() == before ? "" : " not all read") : told(log);
    });
    EXPECT_TRUE(code.empty() || code == "store-full") << limit << " " << code;
    full += code.empty() ? 0 : 1;
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    const Entries entries = read_all(**log);
    ASSERT_EQ(entries.size(), static_cast<std::size_t>(before));
    EXPECT_TRUE((*log)->verify());
    if (!(entries[49] == blanked("KOBO", 50))) continue;
    EXPECT_EQ(bytes_of(path).find("seen at 50\""), std::string::npos) << limit;
    EXPECT_EQ(bytes_of(path + "-wal").find("seen at 50\""), std::string::npos) << limit;
  }
  EXPECT_GT(full, 0);
}

// Larger than what SQLite holds in memory (2 MB), so that it writes before the batch is whole.
TEST_F(DiskFull, ABatchLargerThanTheMemoryForItIsThereNotAtAll) {
  make_one();
  const std::string fault = in_child([&]() -> std::string {
    Entries large;
    for (std::int64_t counter = before + 1; counter <= before + 300; ++counter)
      large.push_back(entry_of("KOBO", counter, std::string(50000, 'x')));
    limit_files_to(6000000);
    auto log = open_sqlite_log(path);
    if (!log) return told(log);
    if (code_of((*log)->append(large)) != "store-full") return "not full";
    if (const std::string harm = fault_in(**log, before + 1); !harm.empty()) return harm;
    limit_files_to(std::nullopt);
    const auto added = (*log)->append(large);
    return added && *added == 300 && (*log)->verify() ? "" : "again: " + told(added);
  });
  EXPECT_EQ(fault, "");
}

// Leaves a file of `bytes` in the folder, so that only the rest of the file system is free.
void take_room(const std::string& path, std::size_t bytes) {
  write_bytes(path, std::string(bytes, 'x'));
}

TEST_F(DiskFull, OnARealFileSystemWithoutRoomToo) {
  for (std::size_t taken = 100000; taken < 440000; taken += 20000) {
    const std::string fault = in_child([&]() -> std::string {
      if (::unshare(CLONE_NEWNS) != 0 ||
          ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0 ||
          ::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=512k") != 0)
        return "no mount";
      make_one();
      take_room(folder.file("other"), taken);
      return full_and_on(path, [&] { std::filesystem::remove(folder.file("other")); });
    });
    if (fault == "no mount") GTEST_SKIP() << "only root may mount";
    EXPECT_TRUE(fault.empty() || fault == "not opened") << taken << ": " << fault;
  }
}

}  // namespace
}  // namespace wheyfield::testing
