#include "journal/event_set.h"

#include <gtest/gtest.h>

namespace wheyfield::journal {
namespace {

using Added = EventSet::Added;

Event cap(const char* id, const char* size) {
  Event event;
  event.id = *parse_event_id(id);
  event.at = {5, 0};
  event.kind = "farm";
  event.body = {{"code", "9"}, {"cap", size}};
  return event;
}

Event without_body(const char* id) {
  Event event = cap(id, "");
  event.body = nullptr;
  return event;
}

TEST(EventSet, AnEventTakenTwiceIsThereOnce) {
  EventSet set;
  EXPECT_EQ(set.add(cap("A-1", "5 mL")), Added::fresh);
  EXPECT_EQ(set.add(cap("A-1", "5 mL")), Added::known);
  EXPECT_EQ(set.size(), 1U);
}

TEST(EventSet, TwoDevicesWithOneCodeLoseNothing) {
  EventSet set;
  set.add(cap("A-1", "5 mL"));
  EXPECT_EQ(set.add(cap("A-1", "7 mL")), Added::clashes);
  EXPECT_EQ(set.find({"A", 1}).size(), 2U);
  EXPECT_EQ(set.clashing().size(), 1U);
}

TEST(EventSet, ABlankedEventTakesTheBodyWhicheverComesFirst) {
  EventSet full_first;
  full_first.add(cap("A-1", "5 mL"));
  EXPECT_EQ(full_first.add(without_body("A-1")), Added::blanked);
  EventSet blank_first;
  blank_first.add(without_body("A-1"));
  EXPECT_EQ(blank_first.add(cap("A-1", "5 mL")), Added::known);
  for (const EventSet* set : {&full_first, &blank_first}) {
    ASSERT_EQ(set->size(), 1U);
    EXPECT_TRUE(set->find({"A", 1}).front()->blanked());
    EXPECT_TRUE(set->clashing().empty());
  }
}

// They have the same head here; of two devices with one code usually not even that.
TEST(EventSet, TwoEventsThatDifferOnlyInTheirBodiesAreBlankedTogether) {
  EventSet set;
  set.add(cap("A-1", "5 mL"));
  set.add(cap("A-1", "7 mL"));
  EXPECT_EQ(set.add(without_body("A-1")), Added::blanked);
  EXPECT_EQ(set.size(), 1U);
  EXPECT_TRUE(set.clashing().empty());
}

TEST(EventSet, ABlankedEventLeavesTheBodyOfAnotherWithItsId) {
  EventSet set;
  Event other = cap("A-1", "7 mL");
  other.at = {6, 0};
  set.add(other);
  EXPECT_EQ(set.add(without_body("A-1")), Added::clashes);
  EXPECT_EQ(set.add(cap("A-1", "5 mL")), Added::known);
  EXPECT_EQ(set.find({"A", 1}).size(), 2U);
}

TEST(EventSet, TheLastCounterIsOfThatDeviceAlone) {
  EventSet set;
  set.add(cap("A-2", "5 mL"));
  set.add(cap("A-11", "5 mL"));
  set.add(cap("AB-40", "5 mL"));
  EXPECT_EQ(set.last_counter("A"), 11);
  EXPECT_EQ(set.last_counter("AA"), 0);
  EXPECT_EQ(set.last_counter("B"), 0);
}

}  // namespace
}  // namespace wheyfield::journal
