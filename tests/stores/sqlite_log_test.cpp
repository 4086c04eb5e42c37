#include "store/sqlite/sqlite_log.h"

#include <sqlite3.h>

#include <map>
#include <thread>

#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::open_sqlite_log;

std::string why(const outcome::Result<std::unique_ptr<journal::EventLog>>& opened) {
  return opened ? "opened" : opened.error().front().details.at("why");
}

// Runs SQL on the file past the store, as another program would.
void tamper(const std::string& path, const std::string& sql) {
  sqlite3* database = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &database), SQLITE_OK);
  EXPECT_EQ(sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK)
      << sqlite3_errmsg(database);
  sqlite3_close(database);
}

class SqliteFile : public ::testing::Test {
 protected:
  void make_one() {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, entries_of("KOBO", 1, 3));
  }
  ScratchFolder folder;
  std::string path = folder.file("notes.db");
};

TEST_F(SqliteFile, ClosedItIsOneFileAndNothingElse) {
  make_one();
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& file : std::filesystem::directory_iterator(folder.path()))
    ++files;
  EXPECT_EQ(files, 1u);
}

TEST_F(SqliteFile, CarriesTheSettingsOfTheFormatPage) {
  make_one();
  const std::string header = bytes_of(path).substr(0, 100);
  EXPECT_EQ(header.substr(68, 4), "WHEY");                        // application id
  EXPECT_EQ(header.substr(60, 4), std::string("\0\0\0\x01", 4));  // user version
  EXPECT_EQ(header.substr(18, 2), "\x02\x02");                    // write-ahead log
}

TEST_F(SqliteFile, AFolderIsRefused) {
  EXPECT_EQ(code_of(open_sqlite_log(folder.path())), "store-unreadable");
  EXPECT_EQ(why(open_sqlite_log(folder.path())), "a-folder");
}

TEST_F(SqliteFile, AFolderThatIsNotThereIsSaidAndNotMade) {
  EXPECT_EQ(why(open_sqlite_log(folder.file("none/notes.db"))), "no-such-folder");
  EXPECT_FALSE(std::filesystem::exists(folder.file("none")));
}

TEST_F(SqliteFile, AFileThatIsNoDatabaseIsRefusedAndLeftAsItIs) {
  for (const std::string& bytes :
       {std::string("notes\n"), std::string(5000, 'x'), std::string("SQLite format 3\0", 16)}) {
    write_bytes(path, bytes);
    EXPECT_EQ(code_of(open_sqlite_log(path)), "store-unreadable");
    EXPECT_EQ(why(open_sqlite_log(path)), "not-a-notes-file");
    EXPECT_EQ(bytes_of(path), bytes);
  }
}

TEST_F(SqliteFile, AnEmptyFileIsNotTakenForANewOne) {
  write_bytes(path, "");
  EXPECT_EQ(why(open_sqlite_log(path)), "empty");
  EXPECT_EQ(bytes_of(path), "");
}

TEST_F(SqliteFile, TheDatabaseOfAnotherProgramIsRefusedAndLeftAsItIs) {
  tamper(path, "CREATE TABLE events(seq INTEGER PRIMARY KEY); PRAGMA user_version=1");
  const std::string before = bytes_of(path);
  EXPECT_EQ(code_of(open_sqlite_log(path)), "store-unreadable");
  EXPECT_EQ(why(open_sqlite_log(path)), "not-a-notes-file");
  EXPECT_EQ(bytes_of(path), before);
}

TEST_F(SqliteFile, ANewerVersionIsRefused) {
  make_one();
  tamper(path, "PRAGMA user_version=2");
  EXPECT_EQ(why(open_sqlite_log(path)), "newer-version");
  tamper(path, "PRAGMA user_version=0");
  EXPECT_EQ(why(open_sqlite_log(path)), "unknown-version");
  tamper(path, "PRAGMA user_version=1");
  EXPECT_EQ(why(open_sqlite_log(path)), "opened");
}

TEST_F(SqliteFile, ALineThatWasChangedIsSetAsideAndStopsNothing) {
  for (const auto& [sql, id] : std::map<const char*, const char*>{
           {"UPDATE events SET line=replace(line,'at 2','at 3') WHERE counter=2", "KOBO-2"},
           {"UPDATE events SET counter=7 WHERE counter=2", "KOBO-7"},
           {"UPDATE events SET device='KOBA' WHERE counter=2", "KOBA-2"}}) {
    make_one();
    tamper(path, sql);
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    const auto kept = (*log)->read();
    ASSERT_TRUE(kept) << told(kept);
    EXPECT_EQ(kept->entries, together(entries_of("KOBO", 1, 1), entries_of("KOBO", 3, 3))) << sql;
    ASSERT_EQ(kept->damaged.size(), 1U) << sql;
    EXPECT_EQ(kept->damaged.front().text(), id);
    const auto verified = (*log)->verify();
    EXPECT_EQ(code_of(verified), "store-note-damaged") << sql;
    EXPECT_EQ(verified.error().front().value, id);
    log->reset();
    std::filesystem::remove(path);
  }
}

TEST_F(SqliteFile, ASoundCopyTakesThePlaceOfADamagedLineButNoNewNoteDoes) {
  make_one();
  tamper(path, "UPDATE events SET line=replace(line,'at 2','at 3') WHERE counter=2");
  auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  EXPECT_EQ(code_of((*log)->append_numbered({entry_of("KOBO", 2, "41 kg")})), "store-id-taken");
  EXPECT_EQ(append_all(**log, entries_of("KOBO", 1, 3)), 1U);
  EXPECT_EQ(read_all(**log), entries_of("KOBO", 1, 3));
  EXPECT_TRUE((*log)->verify());
}

TEST_F(SqliteFile, VerifyFindsALineThatIsNoEventOrOfAnotherId) {
  for (const journal::LogEntry& wrong :
       {journal::LogEntry{{"KOBO", 4}, "no event"},
        journal::LogEntry{{"KOBO", 4}, entry_of("KOBO", 5).line}}) {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, {entry_of("KOBO", 1), wrong});
    const auto verified = (*log)->verify();
    EXPECT_EQ(code_of(verified), "store-note-damaged");
    EXPECT_EQ(verified.error().front().value, "KOBO-4");
    log->reset();
    std::filesystem::remove(path);
  }
}

TEST_F(SqliteFile, ARowLostFromTheTableIsFoundByVerify) {
  make_one();
  tamper(path,
         "PRAGMA writable_schema=ON; UPDATE sqlite_schema SET rootpage=(SELECT rootpage FROM"
         " sqlite_schema WHERE name='owed') WHERE name='events'");
  auto log = open_sqlite_log(path);
  EXPECT_EQ(log ? code_of((*log)->verify()) : code_of(log), "store-broken");
}

// A trigger that another program put in refuses one entry in the middle of a batch.
TEST_F(SqliteFile, AnAppendThatFailsInTheMiddleLeavesNothingAndTheNextOneWorks) {
  make_one();
  tamper(path,
         "CREATE TRIGGER no BEFORE INSERT ON events WHEN new.counter=5"
         " BEGIN SELECT RAISE(FAIL, 'no'); END");
  auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  EXPECT_EQ(told((*log)->append(entries_of("KOBO", 4, 6))), "store-broken why=no");
  EXPECT_EQ(read_all(**log), entries_of("KOBO", 1, 3));
  EXPECT_EQ(append_all(**log, {entry_of("KOBO", 7)}), 1u);
  EXPECT_EQ(read_all(*open_sqlite_log(path).value()),
            together(entries_of("KOBO", 1, 3), {entry_of("KOBO", 7)}));
}

TEST_F(SqliteFile, ABlankThatFailsInTheMiddleLeavesEveryLineAsItWas) {
  make_one();
  tamper(path,
         "CREATE TRIGGER no BEFORE UPDATE ON events WHEN new.counter=2"
         " BEGIN SELECT RAISE(FAIL, 'no'); END");
  auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  EXPECT_EQ(told((*log)->blank({blanked("KOBO", 1), blanked("KOBO", 2)})), "store-broken why=no");
  EXPECT_EQ(read_all(**log), entries_of("KOBO", 1, 3));
  ASSERT_TRUE((*log)->blank({blanked("KOBO", 1)}));
  EXPECT_EQ(read_all(*open_sqlite_log(path).value()),
            together({blanked("KOBO", 1)}, entries_of("KOBO", 2, 3)));
}

// SQLite's secure deletion leaves copies behind when it moves rows between pages, about once in
// some thousand lines. Here one is left on purpose.
TEST_F(SqliteFile, BlankAlsoClearsWhatSqliteLeftBehindElsewhere) {
  make_one();
  tamper(path, "PRAGMA secure_delete=OFF; DELETE FROM events WHERE counter=2");
  ASSERT_NE(bytes_of(path).find("seen at 2"), std::string::npos);
  const auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  ASSERT_TRUE((*log)->blank({blanked("KOBO", 3)}));
  EXPECT_EQ(bytes_of(path).find("seen at 2"), std::string::npos);
  EXPECT_EQ(bytes_of(path + "-wal").find("seen at 2"), std::string::npos);
}

// The process ended between replacing the lines and writing the file anew: the next open does it.
TEST_F(SqliteFile, ABlankCutShortIsEndedByTheNextOpen) {
  make_one();
  tamper(path,
         "PRAGMA secure_delete=OFF; DELETE FROM events WHERE counter=2;"
         "INSERT INTO owed VALUES('clean')");
  ASSERT_NE(bytes_of(path).find("seen at 2"), std::string::npos);
  const auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  EXPECT_EQ(bytes_of(path).find("seen at 2"), std::string::npos);
  EXPECT_EQ(bytes_of(path + "-wal").find("seen at 2"), std::string::npos);
}

TEST_F(SqliteFile, SeveralThatMakeItAtOnceMakeOne) {
  for (int round = 0; round < 20; ++round) {
    std::vector<std::thread> makers;
    for (std::int64_t counter = 1; counter <= 4; ++counter)
      makers.emplace_back([this, counter] {
        auto log = open_sqlite_log(path);
        ASSERT_TRUE(log) << told(log);
        append_all(**log, {entry_of("KOBO", counter)});
      });
    for (std::thread& maker : makers) maker.join();
    EXPECT_EQ(read_all(*open_sqlite_log(path).value()).size(), 4u);
    std::filesystem::remove(path);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
  }
}

TEST_F(SqliteFile, BlankingWhileAnotherAppendsLosesNothing) {
  make_one();
  std::thread beside([this] {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    for (std::int64_t counter = 1; counter <= 60; ++counter)
      append_all(**log, {entry_of("TANO", counter)});
  });
  auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  for (std::int64_t counter = 1; counter <= 3; ++counter) {
    const auto done = (*log)->blank({blanked("KOBO", counter)});
    EXPECT_TRUE(done) << told(done);
  }
  beside.join();
  EXPECT_EQ(read_all(**log).size(), 63u);
  EXPECT_TRUE((*log)->verify());
}

// Both write the file anew and empty the same -wal file: neither is told "busy", and neither takes
// the other's notes for cleaned away.
TEST_F(SqliteFile, TwoThatBlankAtOnceBothEndAndLeaveNoTrace) {
  constexpr std::int64_t notes = 40;
  {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    append_all(**log, entries_of("KOBO", 1, notes));
    append_all(**log, entries_of("TANO", 1, notes));
  }
  const auto blank_all = [this](const std::string& device) {
    auto log = open_sqlite_log(path);
    ASSERT_TRUE(log) << told(log);
    for (std::int64_t counter = 1; counter <= notes; ++counter) {
      const auto done = (*log)->blank({blanked(device, counter)});
      EXPECT_TRUE(done) << told(done);
    }
  };
  std::thread beside(blank_all, "TANO");
  blank_all("KOBO");
  beside.join();
  EXPECT_EQ(bytes_of(path).find("seen at"), std::string::npos);
  tamper(path,
         "CREATE TEMP TABLE none_left(work TEXT CHECK(work IS NULL));"
         "INSERT INTO none_left SELECT work FROM owed");
}

TEST_F(SqliteFile, AStoreThatIsHeldByAnotherProgramIsBusyNotBroken) {
  make_one();
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
  auto log = open_sqlite_log(path);
  ASSERT_TRUE(log) << told(log);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  EXPECT_EQ(code_of((*log)->append({entry_of("KOBO", 4)})), "store-busy");
  EXPECT_EQ(read_all(**log), entries_of("KOBO", 1, 3));
  sqlite3_exec(other, "COMMIT", nullptr, nullptr, nullptr);
  sqlite3_close(other);
  EXPECT_EQ(append_all(**log, {entry_of("KOBO", 4)}), 1u);
}

}  // namespace
}  // namespace wheyfield::testing
