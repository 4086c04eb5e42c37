#include "journal/team_file.h"

#include <gtest/gtest.h>

#include <support/random_notes.h>
#include "journal/crc32.h"
#include "journal/packed_notes.h"

namespace wheyfield::journal {
namespace {

using testing::lines_of;
using testing::pointers_to;

// The bytes stand unpacked in these files: the core knows no zlib, and damage must be found by the
// format's own means.
std::string team_file_of(const std::vector<Event>& events) {
  const std::string text = pack(pointers_to(events));
  return compose({"Notes of the Reedwater group", "2 days", ""},
                 {events.size(), text, crc32_of(text)});
}

std::vector<Event> some_notes(int count) { return testing::RandomNotes(5).events(count); }

outcome::Result<std::vector<Event>> take_in(std::string_view file) {
  const auto part = split(file);
  if (!part) return outcome::failure(part.error());
  return check(*part, part->bytes);
}

std::string outcome_of(std::string_view file) {
  const auto events = take_in(file);
  return events ? std::to_string(events->size()) + " notes" : events.error().front().code;
}

std::string replaced(std::string text, const std::string& part, const std::string& instead) {
  for (std::size_t at = text.find(part); at != text.npos; at = text.find(part, at + instead.size()))
    text.replace(at, part.size(), instead);
  return text;
}

TEST(TeamFile, HasTheLinesForPeopleAndOneBlockAsTheFormatPageShows) {
  EXPECT_EQ(compose({"for people", "more\nlines"}, {2, std::string(60, 'x'), 0x0000beefu}),
            "for people\nmore\nlines\n-----BEGIN WHEYFIELD NOTES-----\n1 2 80 0000beef\n"
            "eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4eHh4\neHh4\n"
            "-----END WHEYFIELD NOTES-----\n");
}

TEST(TeamFile, GivesItsNotesBack) {
  const auto events = some_notes(40);
  const auto back = take_in(team_file_of(events));
  ASSERT_TRUE(back);
  EXPECT_EQ(lines_of(*back), lines_of(events));
}

TEST(TeamFile, SurvivesWhatChatProgramsDoToText) {
  const std::string file = team_file_of(some_notes(20));
  EXPECT_EQ(outcome_of(replaced(file, "\n", "\r\n")), "20 notes");
  EXPECT_EQ(outcome_of("\xEF\xBB\xBF" + file), "20 notes");
  EXPECT_EQ(outcome_of("\xEF\xBB\xBF" + file.substr(file.find("-----BEGIN"))), "20 notes");
  EXPECT_EQ(outcome_of(replaced(file, "\n", " \t \n\t ")), "20 notes");
  EXPECT_EQ(outcome_of(replaced(file, "\n", "\n\n")), "20 notes");
  EXPECT_EQ(outcome_of("Please take this in!\n\n" + file + "\nSee you on Thursday"), "20 notes");
  EXPECT_EQ(outcome_of(file.substr(0, file.size() - 1)), "20 notes");
}

TEST(TeamFile, SaysWhyItTakesNothingIn) {
  const std::string file = team_file_of(some_notes(20));
  const std::string header = "NOTES-----\n1 20 ";
  EXPECT_EQ(outcome_of(""), "team-file-no-block");
  EXPECT_EQ(outcome_of("PK\x03\x04 something else"), "team-file-no-block");
  EXPECT_EQ(outcome_of(replaced(file, "\n", "\n> ")), "team-file-quoted");
  EXPECT_EQ(outcome_of(file + file), "team-file-two-blocks");
  EXPECT_EQ(outcome_of(file.substr(0, file.size() / 2)), "team-file-cut-off");
  EXPECT_EQ(outcome_of(file.substr(file.size() / 2)), "team-file-cut-off");
  EXPECT_EQ(outcome_of(replaced(file, header, "NOTES-----\n2 20 ")), "team-file-format-newer");
  EXPECT_EQ(outcome_of(replaced(file, header, "NOTES-----\n0 20 ")), "team-file-changed");
  EXPECT_EQ(outcome_of(replaced(file, header, "NOTES-----\n1 21 ")), "team-file-changed");
  EXPECT_EQ(outcome_of(replaced(file, header, "NOTES-----\n1  20 ")), "team-file-changed");
  const std::size_t line = file.find('\n', file.find(header) + header.size()) + 1;
  EXPECT_EQ(outcome_of(file.substr(0, line) + file.substr(line + 77)), "team-file-cut-off");
  EXPECT_EQ(outcome_of(file.substr(0, line) + "AAAA" + file.substr(line)), "team-file-changed");
}

TEST(TeamFile, ALineForPeopleCannotPassForABorder) {
  const std::string text = pack({});
  const std::string file =
      compose({"-----BEGIN WHEYFIELD NOTES-----", " x \n-----END WHEYFIELD NOTES-----\r\n"},
              {0, text, crc32_of(text)});
  EXPECT_EQ(outcome_of(file), "0 notes");
}

// A file that gets damaged: it must be refused, or still hold exactly the notes it was made of.
class TeamFileToDamage {
 public:
  enum class Fate { refused, whole, wrong };

  explicit TeamFileToDamage(int notes)
      : file(team_file_of(some_notes(notes))), lines_(lines_of(some_notes(notes))) {}

  Fate fate_of(std::string_view damaged) const {
    const auto events = take_in(damaged);
    if (!events) return Fate::refused;
    return lines_of(*events) == lines_ ? Fate::whole : Fate::wrong;
  }

  const std::string file;

 private:
  const std::vector<std::string> lines_;
};

using Fate = TeamFileToDamage::Fate;

TEST(TeamFile, EveryFlippedBitIsRefusedOrHarmless) {
  const TeamFileToDamage notes(10);
  const std::size_t step = testing::sanitized ? 4 : 1;
  std::size_t refused = 0;
  for (std::size_t at = 0; at < notes.file.size(); at += step) {
    for (int bit = 0; bit < 8; ++bit) {
      std::string flipped = notes.file;
      flipped[at] = static_cast<char>(flipped[at] ^ (1 << bit));
      const Fate fate = notes.fate_of(flipped);
      ASSERT_NE(fate, Fate::wrong) << "byte " << at << ", bit " << bit;
      refused += fate == Fate::refused ? 1u : 0u;
    }
  }
  EXPECT_GT(refused, 7 * notes.file.size() / step);
}

TEST(TeamFile, EveryByteMadeAnotherIsRefusedOrHarmless) {
  const TeamFileToDamage notes(10);
  testing::Draw draw(8);
  for (int i = 0; i < testing::cases(4000); ++i) {
    std::string changed = notes.file;
    changed[draw.below(changed.size())] = static_cast<char>(draw.below(256));
    ASSERT_NE(notes.fate_of(changed), Fate::wrong) << changed;
  }
}

TEST(TeamFile, EveryTruncationIsRefusedButForTheLastLineEnd) {
  const TeamFileToDamage notes(10);
  for (std::size_t length = 0; length + 1 < notes.file.size(); ++length)
    ASSERT_EQ(notes.fate_of(std::string_view(notes.file).substr(0, length)), Fate::refused)
        << length;
  EXPECT_EQ(notes.fate_of(std::string_view(notes.file).substr(0, notes.file.size() - 1)),
            Fate::whole);
}

}  // namespace
}  // namespace wheyfield::journal
