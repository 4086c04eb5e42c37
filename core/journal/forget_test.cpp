// Forgetting one person on three phones.
#include <gtest/gtest.h>

#include <support/journal.h>

#include "journal/fold.h"

namespace wheyfield::journal {
namespace {

using testing::Device;

class Forget : public ::testing::Test {
 protected:
  Forget() {
    a.note("member", {{"member", "5"}, {"farm", "5"}});
    a.note("name", {{"member", "5"}, {"name", "Sefi"}, {"village", "Mill"}});
    a.note("member", {{"member", "6"}, {"farm", "6"}});
    a.note("name", {{"member", "6"}, {"name", "Luma"}});
    a.note("plot", {{"plot", "5-with"}, {"farm", "5"}});
    a.note("weight", {{"plot", "5-with"}, {"farm", "5"}, {"mass", "14 kg"}});
    b.take(a);
    c.take(a);
  }
  // With her farm, which has her number.
  static void forget(Device& device, const char* member) {
    device.note("forget", {{"member", member}, {"farms", {member}}});
  }
  static void obey(Device& device) {
    for (const Event& head : device.facts().to_blank) device.set().add(head);
  }
  static std::string everything(Device& device) {
    std::string lines;
    for (const Event* event : device.set().in_order()) lines += line_of(*event) + "\n";
    return lines;
  }
  static bool knows(Device& device, const char* text) {
    return everything(device).find(text) != std::string::npos;
  }

  Device a{"A"};
  Device b{"B"};
  Device c{"C"};
};

TEST_F(Forget, TheNameIsGoneFromAllPhonesAfterAnExchange) {
  c.note("name", {{"member", "5"}, {"phone", "0700"}});
  forget(a, "5");
  obey(a);
  EXPECT_FALSE(knows(a, "Sefi"));
  for (Device* other : {&b, &c}) {
    other->take(a);
    obey(*other);
    EXPECT_FALSE(knows(*other, "Sefi"));
    EXPECT_FALSE(knows(*other, "0700"));
    EXPECT_TRUE(knows(*other, "Luma"));
  }
}

TEST_F(Forget, ACopyThatArrivesLateIsBlankedAtOnce) {
  forget(a, "5");
  obey(a);
  a.take(b);  // b did not hear of it
  EXPECT_FALSE(knows(a, "Sefi"));
}

TEST_F(Forget, ANameWrittenElsewhereMeanwhileIsBlankedToo) {
  forget(a, "5");
  b.later(3600);
  b.note("name", {{"member", "5"}, {"name", "Sefira"}});
  a.take(b);
  obey(a);
  EXPECT_FALSE(knows(a, "Sefira"));
}

TEST_F(Forget, OnlyTheFactsOfTheFarmsThatAreNamedGo) {
  b.note("forget", {{"member", "5"}, {"farms", nlohmann::json::array()}});
  obey(b);
  EXPECT_TRUE(knows(b, "14 kg"));
  EXPECT_FALSE(knows(b, "Sefi"));

  forget(c, "5");
  obey(c);
  EXPECT_FALSE(knows(c, "14 kg"));
}

// Two devices with one code: only the note about her is blanked.
TEST_F(Forget, AnotherNoteWithTheSameNumberStays) {
  Device twin("A");
  twin.note("paid-in", {{"member", "6"}, {"what", "dues"}, {"money", "1"}});
  twin.note("paid-in", {{"member", "6"}, {"what", "dues"}, {"money", "500"}});
  a.take(twin);
  forget(a, "5");
  obey(a);
  EXPECT_FALSE(knows(a, "Sefi"));
  EXPECT_TRUE(knows(a, "500"));
}

// Facts are the same before and after the bodies are taken.
TEST_F(Forget, TheFactsDoNotTellWhetherTheBodiesAreGoneYet) {
  const EventId wrong = a.note("weight", {{"plot", "9"}, {"farm", "9"}, {"mass", "9 kg"}}).id;
  a.note("weight", {{"plot", "9"}, {"farm", "5"}, {"mass", "9 kg"}}, "2027-03-07", {wrong});
  forget(a, "5");
  const std::string before = text_of(a.facts());
  ASSERT_FALSE(a.facts().to_blank.empty());
  obey(a);
  EXPECT_TRUE(a.facts().to_blank.empty());
  EXPECT_EQ(text_of(a.facts()), before);
}

TEST_F(Forget, ANewerVersionOfANameIsForgottenAsWell) {
  Event newer = a.note("name", {{"member", "5"}, {"name", "Sefina"}});
  a.set().add(head_of(newer));
  newer.id.counter = 90;
  newer.version = 8;
  newer.body = {{"member", "5"}, {"name", "Sefina"}};
  a.set().add(newer);
  forget(a, "5");
  obey(a);
  EXPECT_FALSE(knows(a, "Sefina"));
}

// For other phones may have obeyed it by then.
TEST_F(Forget, ItCannotBeStruck) {
  a.strike({a.note("forget", {{"member", "5"}}).id});
  obey(a);
  EXPECT_FALSE(knows(a, "Sefi"));
}

}  // namespace
}  // namespace wheyfield::journal
