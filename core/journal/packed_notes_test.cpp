#include "journal/packed_notes.h"

#include <gtest/gtest.h>

#include <support/random_notes.h>

namespace wheyfield::journal {
namespace {

using testing::lines_of;
using testing::pointers_to;
using testing::RandomNotes;

std::vector<Event> events_of_lines(const std::vector<std::string>& lines) {
  std::vector<Event> events;
  for (const std::string& line : lines) {
    auto event = parse_event(std::string_view(line));
    if (event) events.push_back(std::move(*event));
  }
  EXPECT_EQ(events.size(), lines.size());
  return events;
}

bool acceptable(const Event& event) {
  return parse_event(std::string_view(line_of(event))).has_value();
}

std::vector<std::string> there_and_back(const std::vector<Event>& events) {
  const std::string text = pack(pointers_to(events));
  const auto back = unpack(text);
  if (!back) return {back.error().front().code + " " + back.error().front().field, text};
  return lines_of(*back);
}

std::string refusal(std::string_view text) {
  const auto events = unpack(text);
  return events ? "taken" : events.error().front().code + " " + events.error().front().field;
}

// The worked example of docs/formats/journal.md.
const std::vector<std::string> example_lines{
    R"({"id":"KOBO-7","at":[1804413600,0],"on":"2027-03-07","utc":180,"kind":"attendance","v":1,"body":{"came":"yes","member":"9"}})",
    R"({"id":"KOBO-8","at":[1804413612,0],"on":"2027-03-07","utc":180,"kind":"attendance","v":1,"body":{"came":"no","member":"12"}})",
    R"({"id":"TANO-3","at":[1804417200,1],"on":"2027-03-06","utc":180,"kind":"paid-in","v":1,"replaces":["TANO-2"],"body":{"amount":"2,5 L","member":"9","what":"milk"}})"};
const std::string example_packed =
    R"({"at":"1804413600 12 3588","count":"0 0 1","counter":"7 1 3",)"
    R"("devices":[["KOBO",2],["TANO",1]],"on":"0 0 -1","shape":"0 0 1","shapes":[)"
    R"({"body":{"came":["yes","no"],"member":["9","12"]},"kind":"attendance","v":1},)"
    R"({"body":{"amount":["2,5 L"],"member":["9"],"what":["milk"]},"kind":"paid-in",)"
    R"("replaces":[["TANO-2"]],"v":1}],"utc":"180 180 180"})";

std::string example_with(const std::string& part, const std::string& instead) {
  std::string text = example_packed;
  const std::size_t at = text.find(part);
  EXPECT_NE(at, text.npos) << part;
  return text.replace(at, part.size(), instead);
}

TEST(PackedNotes, TheWorkedExampleIsPackedAsTheFormatPageShows) {
  const auto events = events_of_lines(example_lines);
  EXPECT_EQ(pack(pointers_to(events)), example_packed);
  EXPECT_EQ(there_and_back(events), lines_of(events));
}

TEST(PackedNotes, NothingPackedIsNothingUnpacked) {
  EXPECT_EQ(there_and_back({}), std::vector<std::string>{});
}

TEST(PackedNotes, AnyEventsComeBackByteForByte) {
  for (std::uint64_t seed = 1; seed <= testing::cases(400u); ++seed) {
    const auto events = RandomNotes(seed).events(static_cast<int>(seed % 40));
    for (const Event& event : events) ASSERT_TRUE(acceptable(event)) << line_of(event);
    ASSERT_EQ(there_and_back(events), lines_of(events)) << "seed " << seed;
  }
}

TEST(PackedNotes, TheOrderOfArrivalDoesNotShowInThePackedText) {
  auto events = RandomNotes(7).events(50);
  const std::string text = pack(pointers_to(events));
  std::reverse(events.begin(), events.end());
  EXPECT_EQ(pack(pointers_to(events)), text);
}

TEST(PackedNotes, TwoEventsWithOneIdBothComeBack) {
  auto lines = example_lines;
  lines[1] =
      R"({"id":"KOBO-7","at":[5,0],"on":"2027-03-07","utc":0,"kind":"farm","v":3,"body":null})";
  const auto events = events_of_lines(lines);
  EXPECT_EQ(there_and_back(events), lines_of(events));
}

TEST(PackedNotes, EveryPlantedFaultIsRefusedWhereItStands) {
  const std::vector<std::array<std::string, 3>> faults{
      {"1804413600 12", "1804413600  12", "notes-number /at"},
      {"1804413600 12", "1804413600 012", "notes-number /at"},
      {"1804413600 12", "1804413600 1x", "notes-number /at"},
      {"1804413600 12", "-1 12", "notes-number /at"},
      {"1804413600 12", "99999999999999999 12", "notes-number /at"},
      {"7 1 3", "7 1", "notes-uneven /counter"},
      {"7 1 3", "7 1 3 1", "notes-uneven /counter"},
      {"7 1 3", "7 -8 3", "notes-number /counter"},
      {"7 1 3", "0 1 3", "notes-event /id"},
      {"\"KOBO\",2", "\"KOBO\",1", "notes-uneven /counter"},
      {"\"KOBO\",2", "\"KOBO\",-2", "notes-member /devices/0"},
      {"\"KOBO\",2", "\"kobo\",2", "notes-event /id"},
      {"\"TANO\",1", "\"TANO\",1000000000000000", "notes-uneven /counter"},
      {"0 0 -1", "0 0 99999999", "notes-number /on"},
      {"0 0 -1", "0 0 99999", "notes-event /on"},
      {"0 0 1\",\"shapes", "0 0 2\",\"shapes", "notes-number /shape"},
      {"0 0 1\",\"shapes", "0 0 -1\",\"shapes", "notes-number /shape"},
      {"0 0 1\",\"shapes", "0 1 1\",\"shapes", "notes-uneven /shapes"},
      {"\"yes\",\"no\"", "\"yes\",\"no\",\"no\"", "notes-uneven /shapes"},
      {"\"2,5 L\"", "2.5", "notes-event /body/amount"},
      {"[\"2,5 L\"]", "\"2,5 L\"", "notes-member /shapes/1"},
      {"\"TANO-2\"", "", "notes-event /replaces"},
      {"\"attendance\"", "\"Attendance\"", "notes-event /kind"},
      {"180 180 180", "180 180 10001", "notes-number /utc"},
      {"180 180 180", "180 180 900", "notes-event /utc"},
      {"\"count\"", "\"kount\"", "notes-member /count"},
      {"\"0 0 1\"", "[0,0,1]", "notes-member /count"},
      {"\"utc\":", "\"more\":1,\"utc\":", "notes-member "},
      {"180\"}", "180\"", "notes-unreadable "}};
  for (const auto& [part, instead, expected] : faults)
    EXPECT_EQ(refusal(example_with(part, instead)), expected) << part << " -> " << instead;
}

TEST(PackedNotes, EveryTruncatedTextIsRefused) {
  for (std::size_t length = 0; length < example_packed.size(); ++length)
    EXPECT_EQ(refusal(std::string_view(example_packed).substr(0, length)), "notes-unreadable ");
}

TEST(PackedNotes, FlippedBytesGiveAProblemOrEventsThatAnEventReaderAccepts) {
  testing::Draw draw(11);
  const auto events = RandomNotes(3).events(30);
  const std::string text = pack(pointers_to(events));
  for (int i = 0; i < testing::cases(2000); ++i) {
    std::string flipped = text;
    for (int flips = draw.between(1, 3); flips > 0; --flips)
      flipped[draw.below(flipped.size())] = static_cast<char>(draw.below(256));
    const auto back = unpack(flipped);
    if (!back) continue;
    for (const Event& event : *back) ASSERT_TRUE(acceptable(event)) << line_of(event);
  }
}

TEST(PackedNotes, BracketsInBracketsAreRefusedBeforeTheyAreRead) {
  EXPECT_EQ(refusal(std::string(1'000'000, '[')), "notes-unreadable ");
}

TEST(PackedNotes, ATextAboveTheMostIsRefused) {
  EXPECT_EQ(refusal(std::string(most_unpacked + 1, ' ')), "notes-too-large ");
}

// Names are written once for all events: only so many, so that a small text stays small events.
TEST(PackedNotes, LongNamesForManyEventsAreRefused) {
  const std::string name(longest_names + 1, 'n');
  EXPECT_EQ(refusal(example_with("\"came\"", "\"" + name + "\"")), "notes-member /shapes/0");
  auto lines = example_lines;
  lines.push_back(
      R"({"id":"KOBO-9","at":[5,0],"on":"2027-03-07","utc":0,"kind":"x","v":1,"body":{")" + name +
      R"(":1}})");
  const auto events = events_of_lines(lines);
  EXPECT_EQ(there_and_back(events), lines_of(events));
}

}  // namespace
}  // namespace wheyfield::journal
