// Folders and files that may not be written, or not even read. Root may everything, so the work is
// done as another user.
#include <grp.h>
#include <sys/stat.h>
#include <unistd.h>

#include "faults/children.h"
#include "store/sqlite/sqlite_log.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::open_sqlite_log;

constexpr uid_t nobody = 65534;

bool become_nobody() {
  if (::getuid() != 0) return true;
  return ::setgroups(0, nullptr) == 0 && ::setgid(nobody) == 0 && ::setuid(nobody) == 0;
}

// How opening `path`, and appending when it opens, ends for somebody without rights of his own.
std::string as_nobody(const std::string& path) {
  return in_child([&]() -> std::string {
    if (!become_nobody()) return "still root";
    const auto log = open_sqlite_log(path);
    if (!log) return told(log);
    return told((*log)->append({entry_of("KOBO", 4)}));
  });
}

class ReadOnly : public ::testing::Test {
 protected:
  void SetUp() override {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, entries_of("KOBO", 1, 3));
    log->reset();
    bytes = bytes_of(path);
  }
  void TearDown() override {
    allow(0755, 0644);
    EXPECT_EQ(bytes_of(path), bytes);
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    EXPECT_EQ(read_all(**log), entries_of("KOBO", 1, 3));
    EXPECT_TRUE((*log)->verify());
  }
  void allow(mode_t folder_mode, mode_t file_mode) {
    ASSERT_EQ(::chmod(folder.path().c_str(), folder_mode), 0);
    ASSERT_EQ(::chmod(path.c_str(), file_mode), 0);
  }
  ScratchFolder folder;
  std::string path = folder.file("notes.db");
  std::string bytes;
};

TEST_F(ReadOnly, ANewStoreInAReadOnlyFolder) {
  allow(0555, 0644);
  EXPECT_EQ(as_nobody(folder.file("new.db")), "store-read-only");
  EXPECT_FALSE(std::filesystem::exists(folder.file("new.db")));
}

TEST_F(ReadOnly, AStoreInAReadOnlyFolder) {
  allow(0555, 0444);
  EXPECT_EQ(as_nobody(path), "store-read-only");
}

TEST_F(ReadOnly, AWritableFileInAReadOnlyFolder) {
  allow(0555, 0666);
  EXPECT_EQ(as_nobody(path), "store-read-only");
}

TEST_F(ReadOnly, AReadOnlyFileInAWritableFolder) {
  allow(0777, 0444);
  EXPECT_EQ(as_nobody(path), "store-read-only");
}

TEST_F(ReadOnly, AFileThatMayNotBeRead) {
  allow(0755, 0000);
  EXPECT_EQ(as_nobody(path), "store-unreadable why=not-allowed");
}

TEST_F(ReadOnly, AFolderThatMayNotBeEntered) {
  allow(0000, 0644);
  EXPECT_EQ(as_nobody(path), "store-unreadable why=not-allowed");
}

TEST_F(ReadOnly, AFolderThatIsNotThere) {
  for (const char* name : {"none/notes.db", "none/none/notes.db", "none/", "notes.db/notes.db"})
    EXPECT_EQ(told(open_sqlite_log(folder.file(name))), "store-unreadable why=no-such-folder")
        << name;
  EXPECT_FALSE(std::filesystem::exists(folder.file("none")));
}

TEST_F(ReadOnly, ANameThatIsNoFile) {
  for (const std::string& name : {std::string(), std::string("/dev/null"), std::string("a\0b", 3)})
    EXPECT_EQ(told(open_sqlite_log(name)), "store-unreadable why=not-a-file") << name;
}

// SQLite would keep a store of that name in memory only.
TEST_F(ReadOnly, ANameThatSqliteTakesForNoFileIsAFileAllTheSame) {
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  {
    const auto log = open_sqlite_log(":memory:");
    ASSERT_TRUE(log) << told(log);
    append_all(**log, {entry_of("KOBO", 1)});
  }
  const auto again = open_sqlite_log(":memory:");
  std::filesystem::current_path(here);
  ASSERT_TRUE(again) << told(again);
  EXPECT_EQ(read_all(**again), (Entries{entry_of("KOBO", 1)}));
}

}  // namespace
}  // namespace wheyfield::testing
