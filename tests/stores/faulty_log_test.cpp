#include "store/faulty/faulty_log.h"

#include "store/memory/memory_log.h"
#include "store/sqlite/sqlite_log.h"
#include "support/log_entries.h"
#include "support/scratch_folder.h"

namespace wheyfield::testing {
namespace {

using store::Fault;
using store::FaultKind;
using store::with_fault;

Fault fault_at(FaultKind kind, std::size_t nth, std::size_t keep = 0) {
  Fault fault;
  fault.kind = kind;
  fault.nth = nth;
  fault.keep = keep;
  return fault;
}

TEST(FaultyLog, OnlyTheChosenWriteFailsAndNothingOfItArrives) {
  const auto log =
      with_fault(store::open_memory_log(store::make_memory_shelf()), fault_at(FaultKind::fails, 2));
  EXPECT_EQ(append_all(*log, entries_of("KOBO", 1, 3)), 3u);
  EXPECT_EQ(code_of(log->append(entries_of("KOBO", 4, 6))), "store-broken");
  EXPECT_EQ(read_all(*log), entries_of("KOBO", 1, 3));
  EXPECT_EQ(append_all(*log, entries_of("KOBO", 4, 6)), 3u);
  EXPECT_EQ(read_all(*log), entries_of("KOBO", 1, 6));
}

TEST(FaultyLog, TheProblemIsTheOneThatWasAskedFor) {
  Fault fault = fault_at(FaultKind::fails, 1);
  fault.problem = {"store-full", "", "notes.db", {}};
  const auto log = with_fault(store::open_memory_log(store::make_memory_shelf()), fault);
  EXPECT_EQ(code_of(log->blank({blanked("KOBO", 1)})), "store-full");
}

TEST(FaultyLog, ATornWriteSentAgainLeavesWhatAWholeOneLeaves) {
  const Entries five = entries_of("KOBO", 1, 5);
  for (std::size_t keep = 0; keep <= 6; ++keep) {
    const ScratchFolder folder;
    auto opened = store::open_sqlite_log(folder.file("notes.db"));
    ASSERT_TRUE(opened) << told(opened);
    const auto log = with_fault(std::move(*opened), fault_at(FaultKind::tears, 1, keep));
    EXPECT_EQ(code_of(log->append(five)), "store-broken");
    EXPECT_EQ(read_all(*log).size(), std::min<std::size_t>(keep, 5));
    EXPECT_EQ(append_all(*log, five), 5 - std::min<std::size_t>(keep, 5));
    EXPECT_EQ(read_all(*log), five);
    EXPECT_TRUE(log->verify());
  }
}

TEST(FaultyLog, ATornBlankSentAgainLeavesWhatAWholeOneLeaves) {
  const auto log = with_fault(store::open_memory_log(store::make_memory_shelf()),
                              fault_at(FaultKind::tears, 2, 1));
  append_all(*log, entries_of("KOBO", 1, 2));
  const Entries blanks{blanked("KOBO", 1), blanked("KOBO", 2)};
  EXPECT_FALSE(log->blank(blanks));
  EXPECT_EQ(read_all(*log), (Entries{blanks[0], entries_of("KOBO", 2, 2)[0]}));
  EXPECT_TRUE(log->blank(blanks));
  EXPECT_EQ(read_all(*log), blanks);
}

TEST(FaultyLog, AWriteThatWaitsLetsAnotherConnectionGoFirst) {
  const auto shelf = store::make_memory_shelf();
  const auto other = store::open_memory_log(shelf);
  Fault fault = fault_at(FaultKind::waits, 1);
  fault.meanwhile = [&] { append_all(*other, {entry_of("TANO", 1), entry_of("KOBO", 1)}); };
  const auto log = with_fault(store::open_memory_log(shelf), fault);
  EXPECT_EQ(append_all(*log, {entry_of("KOBO", 1), entry_of("KOBO", 2)}), 1u);
  EXPECT_EQ(read_all(*log),
            (Entries{entry_of("TANO", 1), entry_of("KOBO", 1), entry_of("KOBO", 2)}));
}

}  // namespace
}  // namespace wheyfield::testing
