// Two trainers with a file of notes each, as they type.
#include <gtest/gtest.h>

#include <sqlite3.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <thread>

#include "cli/commands.h"
#include "cli/notes_csv.h"
#include "embedded.h"
#include "support/typed.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

class JournalCommands : public ::testing::Test {
 protected:
  JournalCommands() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(::testing::TempDir()) / (std::string("wheyfield_notes_") + test->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~JournalCommands() override { fs::remove_all(folder_); }

  long long clock_ = 1805349600;  // 18 March 2027, 6:00 UTC

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  static std::string read(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
    return path(name);
  }

  // As the trainer whose device has this code; her file of notes is named after it.
  testing::Typed as(const std::string& device, std::vector<std::string> given) {
    given.insert(given.end(), {"--device", device, "--journal", path(device)});
    return testing::typed(std::move(given), {"2027-03-18", 180, clock_ += 60, ""});
  }
  Json list(const std::string& device) {
    return Json::parse(as(device, {"journal", "list", "--json"}).out)["notes"];
  }
  void read_ph(const std::string& device, const std::string& ph) {
    const testing::Typed seen =
        as(device, {"journal", "add", "reading", "batch=B1", "half=morning", "ph=" + ph});
    ASSERT_EQ(seen.code, 0) << seen.err;
  }

 private:
  fs::path folder_;
};

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST_F(JournalCommands, EveryVerbHasHelpThatBeginsWithExamples) {
  for (const char* verb : {"add", "take", "send", "list", "questions", "answer", "strike", "forget",
                           "lost", "export", "verify"}) {
    const testing::Typed help = as("AMA", {"journal", verb, "--help"});
    EXPECT_EQ(help.out.rfind("Examples:", 0), 0U) << verb;
    EXPECT_FALSE(holds(help.out, "[cli.")) << help.out;
  }
}

TEST_F(JournalCommands, ANoteIsSaidBackAndKept) {
  const testing::Typed seen =
      as("AMA", {"journal", "add", "paid-in", "member=5", "what=milk", "amount=2 L"});
  EXPECT_EQ(seen.code, 0) << seen.err;
  EXPECT_EQ(seen.out, "AMA-1 written down: paid in, amount 2 L, member 5, what milk\n");
  EXPECT_EQ(list("AMA").size(), 1U);
}

TEST_F(JournalCommands, WhatCannotBeReadIsRefusedAndNotKept) {
  const testing::Typed seen =
      as("AMA", {"journal", "add", "handed-out", "farm=3", "product=serum", "amount=2"});
  EXPECT_EQ(seen.code, 1);
  EXPECT_TRUE(holds(seen.err, "amount")) << seen.err;
  EXPECT_TRUE(list("AMA").empty());
  EXPECT_EQ(as("AMA", {"journal", "add", "visit", "farm"}).code, 2);
}

TEST_F(JournalCommands, TwoTrainersBringTheirNotesTogetherAndAreAsked) {
  read_ph("AMA", "4.0");
  read_ph("BINI", "4.5");
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  ASSERT_EQ(as("BINI", {"journal", "send", path("b.txt")}).code, 0);
  const testing::Typed preview = as("AMA", {"journal", "take", path("b.txt")});
  EXPECT_EQ(preview.code, 4);
  EXPECT_TRUE(holds(preview.out, "1 new note, 1 new questions, 0 problems.")) << preview.out;
  EXPECT_EQ(list("AMA").size(), 1U) << "without --yes nothing is stored";
  EXPECT_EQ(as("AMA", {"journal", "take", path("b.txt"), "--yes"}).code, 0);
  EXPECT_EQ(as("BINI", {"journal", "take", path("a.txt"), "--yes"}).code, 0);
  EXPECT_EQ(list("AMA"), list("BINI"));
  const testing::Typed questions = as("AMA", {"journal", "questions"});
  EXPECT_EQ(questions.code, 4);
  const testing::Typed answer =
      as("AMA", {"journal", "answer", "readings-differ/B1/morning/2027-03-18", "BINI-1"});
  EXPECT_EQ(answer.code, 0) << answer.err;
  EXPECT_EQ(as("AMA", {"journal", "questions"}).code, 0);
}

TEST_F(JournalCommands, AFileTakenInTwiceChangesNothing) {
  read_ph("AMA", "4.0");
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  as("BINI", {"journal", "take", path("a.txt"), "--yes"});
  const Json before = list("BINI");
  const testing::Typed again = as("BINI", {"journal", "take", path("a.txt"), "--yes"});
  EXPECT_TRUE(holds(again.out, "0 new notes")) << again.out;
  EXPECT_EQ(list("BINI"), before);
}

TEST_F(JournalCommands, ADamagedCutOffOrForeignFileTakesInNothingAndSaysWhy) {
  read_ph("AMA", "4.0");
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  std::string text = read(path("a.txt"));
  const std::string whole = text;
  const std::size_t block = text.find("eN") + 8;  // within the packed notes
  text[block] = text[block] == 'A' ? 'B' : 'A';
  write("flipped.txt", text);
  write("cut.txt", whole.substr(0, whole.size() - 60));
  write("foreign.txt", "Dear all, the meeting is on Thursday.\n");
  for (const char* name : {"flipped.txt", "cut.txt", "foreign.txt"}) {
    const testing::Typed seen = as("BINI", {"journal", "take", path(name), "--yes"});
    EXPECT_EQ(seen.code, 3) << name;
    EXPECT_TRUE(holds(seen.err, name)) << seen.err;
  }
  EXPECT_TRUE(list("BINI").empty());
}

TEST_F(JournalCommands, NamesStayOutOfAFileUnlessItIsForFellowTrainers) {
  as("AMA", {"journal", "add", "member", "member=5", "farm=5"});
  as("AMA", {"journal", "add", "name", "member=5", "name=Sefi"});
  as("AMA", {"journal", "send", path("codes.txt")});
  as("AMA", {"journal", "send", path("names.txt"), "--names"});
  as("BINI", {"journal", "take", path("codes.txt"), "--yes"});
  EXPECT_EQ(list("BINI").size(), 1U);
  as("BINI", {"journal", "take", path("names.txt"), "--yes"});
  EXPECT_EQ(list("BINI").size(), 2U);
}

TEST_F(JournalCommands, ForgettingLeavesNoTraceInAnyFileOfNotes) {
  as("AMA", {"journal", "add", "member", "member=5", "farm=5"});
  as("AMA", {"journal", "add", "name", "member=5", "name=Sefi-of-the-mill"});
  as("AMA", {"journal", "send", path("names.txt"), "--names"});
  as("BINI", {"journal", "take", path("names.txt"), "--yes"});
  ASSERT_TRUE(holds(read(path("BINI")), "Sefi-of-the-mill"));
  EXPECT_EQ(as("AMA", {"journal", "forget", "5"}).code, 4) << "only with --yes";
  EXPECT_EQ(as("AMA", {"journal", "forget", "5", "--yes"}).code, 0);
  as("AMA", {"journal", "send", path("after.txt")});
  as("BINI", {"journal", "take", path("after.txt"), "--yes"});
  for (const char* device : {"AMA", "BINI"})
    for (const auto& file : fs::directory_iterator(fs::path(path(device)).parent_path())) {
      const std::string name = file.path().filename().string();
      if (name.rfind(device, 0) != 0) continue;
      EXPECT_FALSE(holds(read(file.path().string()), "Sefi-of-the-mill")) << name;
    }
}

TEST_F(JournalCommands, AnOldFileDoesNotBringBackWhatWasForgotten) {
  as("AMA", {"journal", "add", "name", "member=5", "name=Sefi-of-the-mill"});
  as("AMA", {"journal", "send", path("old.txt"), "--names"});
  as("AMA", {"journal", "forget", "5", "--yes"});
  as("AMA", {"journal", "take", path("old.txt"), "--yes"});
  EXPECT_FALSE(holds(read(path("AMA")), "Sefi-of-the-mill"));
  EXPECT_FALSE(holds(list("AMA").dump(), "Sefi-of-the-mill"));
}

TEST_F(JournalCommands, ADryRunSaysWhatItWouldWriteAndWritesNothing) {
  const testing::Typed seen = as("AMA", {"journal", "add", "visit", "farm=1", "by=2", "--dry-run"});
  EXPECT_TRUE(holds(seen.out, "would be written down")) << seen.out << seen.err;
  EXPECT_TRUE(list("AMA").empty());
}

TEST_F(JournalCommands, TheHistoryOfOneThingShowsWhoChangedIt) {
  as("AMA", {"journal", "add", "farm", "code=9", "cap=5 mL"});
  as("AMA", {"journal", "add", "farm", "code=8", "cap=5 mL"});
  as("AMA", {"journal", "add", "farm", "code=9", "cap=7 mL"});
  const testing::Typed seen =
      as("AMA", {"journal", "list", "--kind", "farm", "--about", "9", "--json"});
  const Json notes = Json::parse(seen.out)["notes"];
  ASSERT_EQ(notes.size(), 2U);
  EXPECT_EQ(notes[0]["says"], "cap 5 mL, code 9");
}

TEST_F(JournalCommands, TheSeasonPlanAndADoseComeFromTheNotesAlone) {
  ASSERT_EQ(as("AMA", {"journal", "take", "examples/practice.toml", "--yes"}).code, 0);
  const testing::Typed plan = as("AMA", {"season", "plan", "--json", "--date", "2027-02-20"});
  EXPECT_EQ(Json::parse(plan.out)["uses"].size(),
            Json::parse(as("AMA", {"season", "plan", "examples/practice.toml", "--json", "--date",
                                   "2027-02-20"})
                            .out)["uses"]
                .size());
  const testing::Typed dose = as("AMA", {"dose", "mix", "--farm", "5", "--json"});
  EXPECT_EQ(Json::parse(dose.out)["caps"], 2.0);
}

TEST_F(JournalCommands, TheMeetingPageComesFromTheNotesAlone) {
  as("AMA", {"journal", "take", "examples/practice.toml", "--yes"});
  as("AMA",
     {"journal", "add", "paid-in", "member=5", "what=milk", "amount=2 L", "--day", "2027-03-18"});
  const testing::Typed page = as("AMA", {"group", "meeting", "2027-03-18"});
  EXPECT_EQ(page.code, 0) << page.err;
  EXPECT_TRUE(holds(page.out, "Thursday 18 March 2027")) << page.out;
  EXPECT_TRUE(holds(page.out, "milk")) << page.out;
  EXPECT_EQ(as("AMA", {"group", "members"}).code, 0);
  EXPECT_EQ(as("BINI", {"group", "meeting"}).code, 3) << "nothing was written down there";
}

TEST_F(JournalCommands, TheSeasonGoesOutAsAFileAndComesBackWithoutAChange) {
  as("AMA", {"journal", "take", "examples/practice.toml", "--yes"});
  const testing::Typed out =
      as("AMA", {"journal", "export", path("season.toml"), "--as", "season"});
  ASSERT_EQ(out.code, 0) << out.err;
  const testing::Typed back = as("AMA", {"journal", "take", path("season.toml"), "--json"});
  const Json answer = Json::parse(back.out);
  EXPECT_TRUE(answer["events"].empty()) << answer["changes"];
}

TEST_F(JournalCommands, WeightsGoToASpreadsheetAndBack) {
  as("AMA", {"journal", "add", "weight", "plot=7-with", "farm=7", "mass=12 kg"});
  as("AMA",
     {"journal", "add", "weight", "plot=8-with", "farm=8", "none_because==goats; \"all\" eaten"});
  ASSERT_EQ(
      as("AMA", {"journal", "export", path("w.csv"), "--kind", "weight", "--as", "spreadsheet"})
          .code,
      0);
  std::string text = read(path("w.csv"));
  EXPECT_EQ(text.rfind("\xEF\xBB\xBFid;on;plot;", 0), 0U) << text;
  EXPECT_TRUE(holds(text, "\"'=goats; \"\"all\"\" eaten\"")) << text;
  const testing::Typed same = as("AMA", {"journal", "take", path("w.csv"), "--kind", "weight"});
  EXPECT_TRUE(holds(same.out, "New: 0. Changed: 0. As it was: 2.")) << same.out << same.err;
  text.replace(text.find("12 kg"), 5, "12.5 kg");
  write("w.csv", text);
  const testing::Typed changed =
      as("AMA", {"journal", "take", path("w.csv"), "--kind", "weight", "--yes"});
  EXPECT_TRUE(holds(changed.out, "New: 0. Changed: 1. As it was: 1.")) << changed.out;
  EXPECT_EQ(as("AMA", {"journal", "questions"}).code, 0) << "a correction is no second weight";
}

TEST_F(JournalCommands, AFileThatIsNoFileOfNotesIsLeftAsItIs) {
  write("AMA", "my shopping list\n");
  const testing::Typed seen = as("AMA", {"journal", "add", "visit", "farm=1", "by=2"});
  EXPECT_EQ(seen.code, 3);
  EXPECT_EQ(read(path("AMA")), "my shopping list\n");
}

TEST_F(JournalCommands, ReadingWithoutAFileOfNotesMakesNone) {
  EXPECT_EQ(as("AMA", {"journal", "list"}).code, 3);
  EXPECT_FALSE(fs::exists(path("AMA")));
}

// Two windows of one computer, each noting fifty farms at the same time.
TEST_F(JournalCommands, TwoCommandsAtOnceGiveEachNoteANumberOfItsOwn) {
  as("KOBO", {"journal", "add", "farm", "code=1"});
  const std::string journal = path("KOBO");
  const auto note_fifty = [&journal](int first, int& noted) {
    const auto words = words::Catalogue::parse(embedded::words_json("en"));
    for (int code = first; code < first + 50; ++code) {
      const auto parsed = parse_arguments({"journal", "add", "farm", "code=" + std::to_string(code),
                                           "--device", "KOBO", "--journal", journal},
                                          *words);
      std::istringstream in;
      std::ostringstream out, err;
      Streams streams{in, out, err, false, 80};
      Host host(std::get<Arguments>(parsed), *words, {"2027-03-18", 180, 1805350000, ""}, streams);
      noted += run_command(host) == exit_codes::fine ? 1 : 0;
    }
  };
  int here = 0, beside = 0;
  std::thread other([&] { note_fifty(200, beside); });
  note_fifty(100, here);
  other.join();
  EXPECT_EQ(here, 50);
  EXPECT_EQ(beside, 50);
  std::set<std::string> ids, farms;
  for (const Json& note : list("KOBO")) {
    ids.insert(note["id"]);
    farms.insert(note["about"]);
  }
  EXPECT_EQ(farms.size(), 101u);
  EXPECT_EQ(ids.size(), 101u);
}

TEST_F(JournalCommands, AClockSetBackTo2015StillCorrectsWhatItCorrects) {
  as("AMA", {"journal", "add", "farm", "code=3", "cap=5 mL"});
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  ASSERT_EQ(as("BINI", {"journal", "take", path("a.txt"), "--yes"}).code, 0);
  clock_ = 1425200000;  // 1 March 2015
  const testing::Typed corrected =
      as("BINI", {"journal", "add", "farm", "code=3", "cap=7 mL", "--replaces", "AMA-1"});
  ASSERT_EQ(corrected.code, 0) << corrected.err;
  as("BINI", {"journal", "send", path("b.txt")});
  clock_ = 1805360000;
  ASSERT_EQ(as("AMA", {"journal", "take", path("b.txt"), "--yes"}).code, 0);
  EXPECT_EQ(list("AMA"), list("BINI"));
  const Json notes = list("AMA");
  EXPECT_EQ(notes[0]["counts"], false);
  EXPECT_EQ(notes[1]["counts"], true);
}

TEST_F(JournalCommands, TwoDevicesWithOneNameKeepBothNotesAndAsk) {
  as("AMA", {"journal", "add", "visit", "farm=3", "by=7"});
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  const std::string first = path("AMA");
  fs::rename(first, path("kept"));
  as("AMA", {"journal", "add", "visit", "farm=4", "by=8"});
  ASSERT_EQ(as("AMA", {"journal", "take", path("a.txt"), "--yes"}).code, 0);
  EXPECT_EQ(list("AMA").size(), 2U);
  const testing::Typed questions = as("AMA", {"journal", "questions"});
  EXPECT_EQ(questions.code, 4);
  EXPECT_TRUE(holds(questions.out, "one-code-two-devices/AMA-1")) << questions.out;
}

TEST_F(JournalCommands, ADamagedNoteIsSetAsideNamedAndMendedByAColleaguesFile) {
  as("AMA", {"journal", "add", "visit", "farm=3", "by=7"});
  as("AMA", {"journal", "add", "visit", "farm=4", "by=7"});
  ASSERT_EQ(as("AMA", {"journal", "send", path("a.txt")}).code, 0);
  sqlite3* file = nullptr;
  ASSERT_EQ(sqlite3_open(path("AMA").c_str(), &file), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(file, "UPDATE events SET line=replace(line,'farm','form') WHERE counter=2",
                         nullptr, nullptr, nullptr),
            SQLITE_OK);
  sqlite3_close(file);
  const testing::Typed more = as("AMA", {"journal", "add", "visit", "farm=5", "by=7"});
  EXPECT_EQ(more.code, 0) << more.err;
  EXPECT_TRUE(holds(more.err, "1 note in the file of notes is damaged")) << more.err;
  EXPECT_TRUE(holds(more.out, "AMA-3")) << more.out;
  const testing::Typed verified = as("AMA", {"journal", "verify"});
  EXPECT_EQ(verified.code, exit_codes::unreadable);
  EXPECT_TRUE(holds(verified.err, "AMA-2")) << verified.err;
  ASSERT_EQ(as("AMA", {"journal", "take", path("a.txt"), "--yes"}).code, 0);
  EXPECT_EQ(as("AMA", {"journal", "verify"}).code, 0);
  EXPECT_EQ(list("AMA").size(), 3U);
}

TEST_F(JournalCommands, ASlipIsSaidBackBesideTheNote) {
  as("AMA", {"journal", "add", "farm", "code=12"});
  const testing::Typed seen = as("AMA", {"journal", "add", "visit", "farm=21", "by=7"});
  EXPECT_EQ(seen.code, 0);
  EXPECT_TRUE(holds(seen.out, "AMA-2 written down")) << seen.out;
  EXPECT_TRUE(holds(seen.err, "No note speaks of a farm 21 yet.")) << seen.err;
}

TEST_F(JournalCommands, RemarksAreShownBeforeAFileIsGivenAway) {
  as("AMA", {"journal", "add", "visit", "farm=3", "by=7", "note=Sefi's can leaks"});
  const testing::Typed sent = as("AMA", {"journal", "send", path("a.txt")});
  EXPECT_TRUE(holds(sent.err, "Sefi's can leaks")) << sent.err;
}

}  // namespace
}  // namespace wheyfield::cli
