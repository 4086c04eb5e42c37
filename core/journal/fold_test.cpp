// The folding rules, one by one; conflicts between devices stand in conflicts_test.cpp.
#include "journal/fold.h"

#include <gtest/gtest.h>

#include <support/journal.h>

namespace wheyfield::journal {
namespace {

using nlohmann::json;
using testing::Device;
using testing::morning_s;
using testing::questions;

TEST(Fold, NothingWrittenIsNothingKnown) {
  const EventSet none;
  const Facts facts = fold(none, {0.3});
  EXPECT_TRUE(facts.items.empty());
  EXPECT_TRUE(facts.questions.empty());
}

TEST(Fold, SayingTheCapLeavesThePlaceAsItIs) {
  Device a("A");
  a.note("farm", {{"code", "9"}, {"place", "lower"}, {"cap", "5 mL"}});
  a.note("farm", {{"code", "9"}, {"cap", "7 mL"}});
  const Facts facts = a.facts();
  EXPECT_EQ(facts.find("farm", "9")->body,
            (json{{"code", "9"}, {"place", "lower"}, {"cap", "7 mL"}}));
  EXPECT_EQ(facts.find("farm", "9")->said.size(), 2U);
}

TEST(Fold, AMemberSaidAsNullIsTakenAway) {
  Device a("A");
  a.note("farm", {{"code", "9"}, {"cap", "5 mL"}});
  a.note("farm", {{"code", "9"}, {"cap", nullptr}});
  EXPECT_EQ(a.facts().find("farm", "9")->body, (json{{"code", "9"}}));
}

TEST(Fold, ThingsStandInTheOrderInWhichTheyWereFirstSpokenOf) {
  Device a("A");
  for (const char* code : {"12", "3", "12", "7"}) a.note("farm", {{"code", code}});
  const Facts facts = a.facts();
  ASSERT_EQ(facts.of("farm").size(), 3U);
  EXPECT_EQ(facts.of("farm")[0].identity, "12");
  EXPECT_EQ(facts.of("farm")[2].identity, "7");
}

TEST(Fold, TwoFieldsOfOneCropAreToldApart) {
  Device a("A");
  a.note("field", {{"farm", "3"}, {"crop", "bean"}, {"area", "0.5 acre"}});
  a.note("field", {{"farm", "3"}, {"crop", "bean"}, {"nth", "2"}, {"area", "0.25 acre"}});
  const Facts facts = a.facts();
  EXPECT_EQ(facts.of("field").size(), 2U);
  EXPECT_NE(facts.find("field", "3/bean/2"), nullptr);
}

TEST(Fold, TheFirstFieldOfACropIsTheSameWithItsNumberAndWithout) {
  Device a("A");
  a.note("field", {{"farm", "3"}, {"crop", "bean"}, {"area", "0.5 acre"}});
  a.note("field", {{"farm", "3"}, {"crop", "bean"}, {"nth", "1"}, {"seed", "own"}});
  EXPECT_EQ(a.facts().of("field").size(), 1U);
}

TEST(Fold, ASlashInAnIdentityMakesNoOtherThing) {
  Device a("A");
  a.note("price", {{"item", "a/b"}, {"pack", "c"}});
  a.note("price", {{"item", "a"}, {"pack", "b/c"}});
  EXPECT_EQ(a.facts().of("price").size(), 2U);
}

TEST(Fold, ACorrectionStandsInsteadOfTheFirstNote) {
  Device a("A");
  const EventId wrong =
      a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "20 L"}}).id;
  a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}}, "2027-03-07", {wrong});
  const Facts facts = a.facts();
  ASSERT_EQ(facts.of("paid-in").front().said.size(), 1U);
  EXPECT_EQ(facts.of("paid-in").front().said.front()->body["amount"], "2 L");
  EXPECT_EQ(facts.not_counting.size(), 1U);
}

TEST(Fold, ACorrectionOfAnotherKindCorrectsNothing) {
  Device a("A");
  const EventId visit = a.note("visit", {{"farm", "5"}, {"by", "2"}}).id;
  a.note("field-day", {{"place", "lower"}}, "2027-03-07", {visit});
  EXPECT_EQ(a.facts().of("visit").size(), 1U);
}

TEST(Fold, AStrikeTakesANoteAwayAndStrikingTheStrikeBringsItBack) {
  Device a("A");
  const EventId visit = a.note("visit", {{"farm", "5"}, {"by", "2"}}).id;
  const EventId strike = a.strike({visit}).id;
  EXPECT_TRUE(a.facts().of("visit").empty());
  a.strike({strike});
  EXPECT_EQ(a.facts().of("visit").size(), 1U);
}

TEST(Fold, AStruckChangeGivesTheValueBefore) {
  Device a("A");
  a.note("farm", {{"code", "9"}, {"cap", "5 mL"}});
  const EventId change = a.note("farm", {{"code", "9"}, {"cap", "50 mL"}}).id;
  a.strike({change});
  EXPECT_EQ(a.facts().find("farm", "9")->body["cap"], "5 mL");
}

// A's phone stands in 2031; B's strike must still work.
TEST(Fold, ANoteFromAPhoneSetAheadCanBeStruckAndCorrectedByOthers) {
  Device a("A", morning_s + 4LL * 365 * 86400);
  a.note("farm", {{"code", "9"}, {"cap", "50 mL"}});
  const EventId visit = a.note("visit", {{"farm", "5"}, {"by", "2"}}).id;
  Device b("B");
  b.take(a);
  b.strike({visit});
  const EventId wrong = a.set().find({"A", 1}).front()->id;
  b.note("farm", {{"code", "9"}, {"cap", "5 mL"}}, "2027-03-07", {wrong});
  EXPECT_EQ(b.facts().find("farm", "9")->body["cap"], "5 mL");
  EXPECT_TRUE(b.facts().of("visit").empty());
  EXPECT_LT(b.note("visit", {{"farm", "6"}, {"by", "2"}}).at.seconds, morning_s + 60);
}

TEST(Fold, AnEventWithoutItsIdentityIsSetAsideAndKept) {
  Device a("A");
  a.note("farm", {{"place", "lower"}});
  a.note("farm", {{"code", 9}});
  a.note("strike", {{"events", "A-1"}});
  a.note("device-lost", {{"device", "L"}});
  EXPECT_EQ(a.facts().unreadable.size(), 4U);
  EXPECT_TRUE(a.facts().of("farm").empty());
}

TEST(Fold, KindsAndVersionsNotKnownAreKeptAside) {
  Device a("A");
  a.note("moon-phase", {{"full", true}});
  Event newer = a.note("farm", {{"code", "9"}});
  newer.id.counter = 99;
  newer.version = 2;
  a.set().add(newer);
  EXPECT_EQ(a.facts().newer.size(), 2U);
  EXPECT_EQ(a.facts().of("farm").front().said.size(), 1U);
}

// A kind whose second version says the cap in millilitres by name.
TEST(Fold, AnOlderEventEntersThroughItsUpcast) {
  const Kinds kinds({{"farm", Rule::latest, {{"code"}}, false, "code", "", {[](json& body) {
                        body["cap_ml"] = body["cap"];
                        body.erase("cap");
                      }}}});
  Device a("A");
  a.note("farm", {{"code", "9"}, {"cap", "5"}});
  Event now = a.note("farm", {{"code", "10"}, {"cap_ml", "7"}});
  now.id.counter = 50;
  now.version = 2;
  a.set().add(now);
  const Facts facts = fold(a.set(), {0.3}, kinds);
  EXPECT_EQ(facts.find("farm", "9")->body, (json{{"code", "9"}, {"cap_ml", "5"}}));
  EXPECT_EQ(facts.find("farm", "10")->body["cap_ml"], "7");
  EXPECT_EQ(a.set().find({"A", 1}).front()->version, 1);
}

TEST(Fold, TheNotesOfALostPhoneAfterItsLossAreHeldAsideUntilAnswered) {
  Device lost("L");
  lost.note("visit", {{"farm", "5"}, {"by", "2"}});
  Device a("A");
  a.take(lost);
  a.note("device-lost", {{"device", "L"}, {"last", 1}});
  const EventId late = lost.note("visit", {{"farm", "6"}, {"by", "2"}}).id;
  a.take(lost);
  EXPECT_EQ(questions(a.facts()), (std::vector<std::string>{"after-loss/L"}));
  EXPECT_EQ(a.facts().of("visit").size(), 1U);
  a.choose("after-loss/L", {late}, {});
  EXPECT_EQ(questions(a.facts()), (std::vector<std::string>{}));
  EXPECT_EQ(a.facts().of("visit").size(), 2U);
}

TEST(Fold, WhoeverFoundThePhoneCannotStrikeItsLossNorAnythingElse) {
  Device lost("L");
  const EventId visit = lost.note("visit", {{"farm", "5"}, {"by", "2"}}).id;
  Device a("A");
  a.take(lost);
  const EventId loss = a.note("device-lost", {{"device", "L"}, {"last", 1}}).id;
  lost.take(a);
  lost.strike({loss, visit});
  a.take(lost);
  EXPECT_EQ(questions(a.facts()), (std::vector<std::string>{"after-loss/L"}));
  EXPECT_EQ(a.facts().of("visit").size(), 1U);
}

}  // namespace
}  // namespace wheyfield::journal
