#include "stores/event_log_suite.h"

#include <set>
#include <thread>

#include "store/faulty/faulty_log.h"
#include "store/memory/memory_log.h"
#include "store/sqlite/sqlite_log.h"
#include "support/draw.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using journal::EventLog;

TEST_P(EventLogSuite, ANewStoreIsEmptyAndSound) {
  EXPECT_EQ(read_all(*log), Entries{});
  EXPECT_TRUE(log->verify());
}

TEST_P(EventLogSuite, GivesEntriesInTheOrderOfArrival) {
  const Entries first{entry_of("TANO", 7), entry_of("KOBO", 2)};
  const Entries then{entry_of("KOBO", 1), entry_of("AMBA", 3)};
  EXPECT_EQ(append_all(*log, first), 2u);
  EXPECT_EQ(append_all(*log, then), 2u);
  EXPECT_EQ(read_all(*log), together(first, then));
}

TEST_P(EventLogSuite, WhatIsThereAlreadyIsPassedOver) {
  const Entries three = entries_of("KOBO", 1, 3);
  EXPECT_EQ(append_all(*log, three), 3u);
  EXPECT_EQ(append_all(*log, three), 0u);
  EXPECT_EQ(append_all(*log, {entry_of("KOBO", 4), three[1], entry_of("KOBO", 4)}), 1u);
  EXPECT_EQ(read_all(*log), together(three, {entry_of("KOBO", 4)}));
}

TEST_P(EventLogSuite, AnAppendOfNothingIsNoProblem) {
  EXPECT_EQ(append_all(*log, {}), 0u);
  EXPECT_EQ(read_all(*log), Entries{});
}

TEST_P(EventLogSuite, AnotherLineWithTheSameIdIsKeptBeside) {
  const Entries two{entry_of("KOBO", 1, "41 kg"), entry_of("KOBO", 1, "14 kg")};
  EXPECT_EQ(append_all(*log, two), 2u);
  EXPECT_EQ(append_all(*log, {two[1], two[0]}), 0u);
  EXPECT_EQ(read_all(*log), two);
  EXPECT_TRUE(log->verify());
}

TEST_P(EventLogSuite, ANumberThatIsTakenIsRefusedAndNothingOfThatBatchIsThere) {
  append_all(*log, {entry_of("KOBO", 2, "41 kg")});
  const auto refused = log->append_numbered({entry_of("KOBO", 1), entry_of("KOBO", 2, "14 kg")});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().front().code, "store-id-taken");
  EXPECT_EQ(refused.error().front().value, "KOBO-2");
  EXPECT_EQ(read_all(*log), Entries{entry_of("KOBO", 2, "41 kg")});
  EXPECT_EQ(log->append_numbered({entry_of("KOBO", 2, "41 kg"), entry_of("KOBO", 3)}), 1u);
}

TEST_P(EventLogSuite, OpeningAgainFindsEverything) {
  const Entries entries = entries_of("KOBO", 1, 50);
  append_all(*log, entries);
  log.reset();
  log = place->open();
  EXPECT_EQ(read_all(*log), entries);
  EXPECT_EQ(append_all(*log, entries_of("KOBO", 41, 60)), 10u);
  EXPECT_TRUE(log->verify());
}

TEST_P(EventLogSuite, TwoConnectionsSeeWhatTheOtherAppends) {
  const auto other = place->open();
  append_all(*log, {entry_of("KOBO", 1)});
  append_all(*other, {entry_of("TANO", 1)});
  append_all(*log, {entry_of("KOBO", 2), entry_of("TANO", 1)});
  const Entries all{entry_of("KOBO", 1), entry_of("TANO", 1), entry_of("KOBO", 2)};
  EXPECT_EQ(read_all(*log), all);
  EXPECT_EQ(read_all(*other), all);
}

TEST_P(EventLogSuite, TwoConnectionsAppendingAtOnceLoseNothing) {
  const auto other = place->open();
  const auto append_batches = [](EventLog& to, const std::string& device) {
    for (std::int64_t first = 1; first <= 200; first += 5)
      append_all(to, together(entries_of(device, first, first + 4), entries_of("BOTH", 1, 3)));
  };
  std::thread beside([&] { append_batches(*other, "TANO"); });
  append_batches(*log, "KOBO");
  beside.join();
  const Entries all = read_all(*log);
  std::set<std::string> ids;
  for (const auto& entry : all) ids.insert(entry.id.text());
  EXPECT_EQ(all.size(), 403u);
  EXPECT_EQ(ids.size(), 403u);
  EXPECT_TRUE(log->verify());
}

TEST_P(EventLogSuite, HoldsTenThousandEntries) {
  Entries all;
  for (std::int64_t first = 1; first <= 10000; first += 500) {
    const Entries batch = entries_of("KOBO", first, first + 499);
    EXPECT_EQ(append_all(*log, batch), 500u);
    all = together(std::move(all), batch);
  }
  EXPECT_TRUE(read_all(*log) == all);
  EXPECT_TRUE(log->verify());
}

// One, two, three and four bytes, right to left, joined emoji, combining marks, both composed and
// not, the end of each length (RFC 3629), and what JSON escapes.
TEST_P(EventLogSuite, KeepsEveryKindOfUtf8ByteForByte) {
  Entries entries;
  for (const std::string& note : std::vector<std::string>{"plain",
                                                          "\x7f",
                                                          "\u00e9",
                                                          "e\u0301",
                                                          "\u0645\u0631\u062d\u0628\u0627",
                                                          "\u1208\u121d",
                                                          "\u4e2d\u6587",
                                                          "\U0001F33D",
                                                          "\U0001F469\u200D\U0001F33E",
                                                          "\u07ff\u0800\uffff",
                                                          "\U0010FFFF",
                                                          "\ufeff",
                                                          "\u2028",
                                                          std::string("nul\0inside", 10),
                                                          "\"\\/\n\t\x01",
                                                          "''",
                                                          "'; DROP TABLE events; --",
                                                          "%s%n",
                                                          "  two  blanks  ",
                                                          std::string(200000, 'x')})
    entries.push_back(entry_of("KOBO", static_cast<std::int64_t>(entries.size()) + 1, note));
  entries.push_back(entry_of("KOBO", 9007199254740992));  // 2^53, the largest counter
  EXPECT_EQ(append_all(*log, entries), entries.size());
  log = place->open();
  EXPECT_EQ(read_all(*log), entries);
  EXPECT_TRUE(log->verify());
}

TEST_P(EventLogSuite, LinesThatDifferInCaseOrCompositionAreTwoLines) {
  const Entries entries{entry_of("KOBO", 1, "\u00e9"), entry_of("KOBO", 1, "e\u0301"),
                        entry_of("KOBO", 1, "E\u0301"), entry_of("KOBO", 1, "e\u0301 ")};
  EXPECT_EQ(append_all(*log, entries), 4u);
  EXPECT_EQ(read_all(*log), entries);
}

TEST_P(EventLogSuite, BlankStandsWhereTheLineStood) {
  append_all(*log, entries_of("KOBO", 1, 5));
  ASSERT_TRUE(log->blank({blanked("KOBO", 2), blanked("KOBO", 4), blanked("KOBO", 99)}));
  Entries expected = entries_of("KOBO", 1, 5);
  expected[1] = blanked("KOBO", 2);
  expected[3] = blanked("KOBO", 4);
  EXPECT_EQ(read_all(*log), expected);
  log = place->open();
  EXPECT_EQ(read_all(*log), expected);
  EXPECT_TRUE(log->verify());
}

// Two devices with one code: the note of the other one stays.
TEST_P(EventLogSuite, OfLinesWithOneIdThoseThatAreNamedStay) {
  append_all(*log, {entry_of("KOBO", 1, "a"), entry_of("TANO", 1), entry_of("KOBO", 1, "b")});
  ASSERT_TRUE(log->blank({blanked("KOBO", 1), entry_of("KOBO", 1, "b")}));
  EXPECT_EQ(read_all(*log),
            (Entries{blanked("KOBO", 1), entry_of("TANO", 1), entry_of("KOBO", 1, "b")}));
}

TEST_P(EventLogSuite, BlankTakesAllLinesOfThatId) {
  append_all(*log, {entry_of("KOBO", 1, "a"), entry_of("TANO", 1), entry_of("KOBO", 1, "b"),
                    entry_of("KOBO", 1, "c")});
  ASSERT_TRUE(log->blank({blanked("KOBO", 1)}));
  ASSERT_TRUE(log->blank({blanked("KOBO", 1)}));
  EXPECT_EQ(read_all(*log), (Entries{blanked("KOBO", 1), entry_of("TANO", 1)}));
  EXPECT_EQ(append_all(*log, {blanked("KOBO", 1)}), 0u);
}

TEST_P(EventLogSuite, BlankingWhatIsNotThereChangesNothing) {
  append_all(*log, entries_of("KOBO", 1, 3));
  ASSERT_TRUE(log->blank({blanked("TANO", 1)}));
  ASSERT_TRUE(log->blank({}));
  EXPECT_EQ(read_all(*log), entries_of("KOBO", 1, 3));
}

// "Mara" followed by the counter is the name to be forgotten. Rows of very different length, so
// that SQLite moves rows between pages: what it leaves behind there is what is looked for.
TEST_P(EventLogSuite, AfterBlankNoByteOfTheOldBodyIsLeft) {
  constexpr std::int64_t count = 400;
  Draw draw(20270307);
  const auto name = [](std::int64_t counter) { return "Mara" + std::to_string(10000 + counter); };
  Entries entries;
  for (std::int64_t counter = 1; counter <= count; ++counter) {
    const auto padding = std::vector<std::size_t>{5, 60, 300, 900, 3000, 9000}[draw.below(6)];
    entries.push_back(entry_of("KOBO", counter, name(counter) + std::string(padding, 'x')));
  }
  append_all(*log, entries);
  std::vector<std::int64_t> left;
  for (std::int64_t counter = 1; counter <= count; ++counter) left.push_back(counter);
  std::set<std::string> forgotten;
  while (!left.empty()) {
    Entries blanks;
    for (int i = 0; i < 20; ++i) {
      const auto at = static_cast<std::ptrdiff_t>(draw.below(left.size()));
      const std::int64_t counter = left[static_cast<std::size_t>(at)];
      left.erase(left.begin() + at);
      blanks.push_back(blanked("KOBO", counter));
      forgotten.insert(name(counter));
    }
    ASSERT_TRUE(log->blank(blanks));
    for (const std::string& file : place->files()) {
      const std::string bytes = bytes_of(file);
      for (std::size_t at = bytes.find("Mara"); at != std::string::npos;
           at = bytes.find("Mara", at + 1))
        ASSERT_FALSE(forgotten.count(bytes.substr(at, 9))) << file << " at " << at;
    }
  }
  EXPECT_EQ(read_all(*log).size(), static_cast<std::size_t>(count));
}

class MemoryPlace : public StorePlace {
 public:
  std::unique_ptr<EventLog> open() override { return store::open_memory_log(shelf_); }

 private:
  std::shared_ptr<store::MemoryShelf> shelf_ = store::make_memory_shelf();
};

class SqlitePlace : public StorePlace {
 public:
  std::unique_ptr<EventLog> open() override {
    auto log = store::open_sqlite_log(folder_.file("notes.db"));
    EXPECT_TRUE(log) << told(log);
    return std::move(log.value());
  }
  std::vector<std::string> files() const override {
    std::vector<std::string> files;
    for (const auto& file : std::filesystem::directory_iterator(folder_.path()))
      files.push_back(file.path().string());
    EXPECT_GE(files.size(), 1u);
    return files;
  }

 private:
  ScratchFolder folder_;
};

// A wrapper whose fault never comes must be the store itself.
template <class Place>
class FaultyPlace : public Place {
 public:
  std::unique_ptr<EventLog> open() override {
    store::Fault never;
    never.nth = 1000000;
    return store::with_fault(Place::open(), never);
  }
};

template <class Place>
StoreUnderTest store_in(const char* name) {
  return {name, [] { return std::make_unique<Place>(); }};
}

INSTANTIATE_TEST_SUITE_P(Stores, EventLogSuite,
                         ::testing::Values(store_in<MemoryPlace>("memory"),
                                           store_in<SqlitePlace>("sqlite"),
                                           store_in<FaultyPlace<SqlitePlace>>("faulty")),
                         [](const auto& info) { return info.param.name; });

}  // namespace
}  // namespace wheyfield::testing
