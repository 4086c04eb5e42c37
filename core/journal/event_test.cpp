#include "journal/event.h"

#include <string>

#include <gtest/gtest.h>

namespace wheyfield::journal {
namespace {

const std::string reading =
    R"({"id":"KOBO-12","at":[1804413600,3],"on":"2027-03-07","utc":180,"kind":"reading","v":1,)"
    R"("replaces":["KOBO-11"],"body":{"batch":"B07","half":"morning","ph":"4,0"}})";

std::string code_of(const std::string& line) {
  const auto event = parse_event(line);
  return event ? "read" : event.error().front().code;
}

// The reading above with one part of its text changed.
std::string changed(const std::string& from, const std::string& to) {
  std::string line = reading;
  return line.replace(line.find(from), from.size(), to);
}

TEST(Event, ALineIsReadAndWrittenAgainWithoutChangingAByte) {
  const auto event = parse_event(reading);
  ASSERT_TRUE(event);
  EXPECT_EQ(event->id.device, "KOBO");
  EXPECT_EQ(event->id.counter, 12);
  EXPECT_EQ(event->at.seconds, 1804413600);
  EXPECT_EQ(event->at.count, 3);
  EXPECT_EQ(event->on, calendar::Date::from_civil(2027, 3, 7));
  EXPECT_EQ(event->replaces.front().text(), "KOBO-11");
  EXPECT_EQ(line_of(*event), reading);
}

TEST(Event, BlanksAndTheOrderOfMembersDoNotMatter) {
  const auto event = parse_event(
      R"({ "body": {"ph":"4,0", "half":"morning","batch":"B07"}, "v":1, "kind":"reading",
           "replaces":["KOBO-11"], "utc":180, "on":"2027-03-07", "at":[1804413600,3],"id":"KOBO-12"})");
  ASSERT_TRUE(event);
  EXPECT_EQ(line_of(*event), reading);
}

TEST(Event, ABlankedBodyIsReadAsSuch) {
  const auto event = parse_event(changed(R"({"batch":"B07","half":"morning","ph":"4,0"})", "null"));
  ASSERT_TRUE(event);
  EXPECT_TRUE(event->blanked());
}

TEST(Event, AnUnknownKindIsCarriedAsItCame) {
  const std::string line =
      R"({"id":"A-1","at":[5,0],"on":"2031-01-02","utc":-300,"kind":"moon-phase","v":7,)"
      R"("body":{"a":[1,-9007199254740992,{"b":null}],"z":"\u0001 ሰላም"}})";
  const auto event = parse_event(line);
  ASSERT_TRUE(event);
  EXPECT_EQ(line_of(*event), line);
}

TEST(Event, WhatCannotBeAnEventIsRefused) {
  EXPECT_EQ(code_of(""), "json-unreadable");
  EXPECT_EQ(code_of("[1]"), "event-not-object");
  EXPECT_EQ(code_of(changed(R"("v":1,)", "")), "event-member-missing");
  EXPECT_EQ(code_of(changed(R"("v":1,)", R"("v":1,"w":1,)")), "event-member-unknown");
  EXPECT_EQ(code_of(changed("KOBO-12", "kobo-12")), "event-id-unreadable");
  EXPECT_EQ(code_of(changed("KOBO-12", "KOBO-012")), "event-id-unreadable");
  EXPECT_EQ(code_of(changed("KOBO-12", "KOBO-9007199254740993")), "event-id-unreadable");
  EXPECT_EQ(code_of(changed("KOBO-12", "NINELETTE-1")), "event-id-unreadable");
  EXPECT_EQ(code_of(changed("[1804413600,3]", "[1804413600]")), "event-stamp-unreadable");
  EXPECT_EQ(code_of(changed("[1804413600,3]", "[1.5,3]")), "event-stamp-unreadable");
  EXPECT_EQ(code_of(changed("2027-03-07", "2027-02-29")), "date-impossible");
  EXPECT_EQ(code_of(changed("utc\":180", "utc\":900")), "event-offset-out-of-range");
  EXPECT_EQ(code_of(changed("\"reading\"", "\"Reading\"")), "event-kind-unreadable");
  EXPECT_EQ(code_of(changed("\"v\":1", "\"v\":0")), "event-version-unreadable");
  EXPECT_EQ(code_of(changed("[\"KOBO-11\"]", "[]")), "event-id-unreadable");
  EXPECT_EQ(code_of(changed("{\"batch\"", "[\"batch\"")), "json-unreadable");
  EXPECT_EQ(code_of(changed(R"({"batch":"B07","half":"morning","ph":"4,0"})", "3")),
            "event-body-not-object");
  EXPECT_EQ(code_of(changed("\"4,0\"", "4.0")), "event-number-not-whole");
  EXPECT_EQ(code_of(changed("\"4,0\"", "9007199254740993")), "event-number-not-whole");
}

TEST(Event, AFractionSaysWhereItStands) {
  const auto event = parse_event(changed("\"4,0\"", "4.5"));
  ASSERT_FALSE(event);
  EXPECT_EQ(event.error().front().field, "/body/ph");
  EXPECT_EQ(event.error().front().value, "4.5");
}

TEST(Event, ABodyNestedWithoutEndIsRefused) {
  const std::string deep = std::string(40, '[') + std::string(40, ']');
  EXPECT_EQ(code_of(changed("\"4,0\"", deep)), "event-too-deep");
}

TEST(Event, OrderIsByStampThenDeviceThenCounter) {
  const auto event = [](const char* id, std::int64_t seconds, std::int32_t count) {
    Event e;
    e.id = *parse_event_id(id);
    e.at = {seconds, count};
    return e;
  };
  EXPECT_TRUE(comes_before(event("B-9", 4, 9), event("A-1", 5, 0)));
  EXPECT_TRUE(comes_before(event("B-9", 5, 0), event("A-1", 5, 1)));
  EXPECT_TRUE(comes_before(event("A-9", 5, 0), event("B-1", 5, 0)));
  EXPECT_TRUE(comes_before(event("A-9", 5, 0), event("A-10", 5, 0)));
  EXPECT_FALSE(comes_before(event("A-9", 5, 0), event("A-9", 5, 0)));
}

}  // namespace
}  // namespace wheyfield::journal
