#include <algorithm>

#include <gtest/gtest.h>

#include <support/draw.h>
#include <support/group_units.h>
#include <support/journal.h>

#include "group/hand_outs.h"
#include "group/meeting_notes.h"
#include "group/payments.h"

namespace wheyfield::group {
namespace {

using calendar::Date;
using testing::Device;
using testing::Draw;
using testing::group_units;

Date day(const char* iso) { return *calendar::parse_date(iso); }

Payments paid(const journal::Facts& facts) {
  return payments(facts, group_units(), Persons(facts), first_day(), last_day());
}

TEST(Payments, MoneyAndKindAreAddedByMemberAndInAll) {
  Device phone("KOBO");
  phone.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}});
  phone.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "500 mL"}}, "2027-03-14");
  phone.note("paid-in", {{"member", "6"}, {"what", "dues"}, {"money", "50.25"}});
  phone.note("paid-in", {{"member", "6"}, {"what", "bags"}, {"amount", "3 pieces"}});
  phone.note("paid-out", {{"what", "market"}, {"money", "20"}});
  const Payments sums = paid(phone.facts());
  EXPECT_EQ(sums.by_person.at("5").in.kind.at({"milk", "L"}), 2500);
  EXPECT_EQ(sums.by_person.at("6").in.money.thousandths(), 50250);
  EXPECT_EQ(sums.all.in.kind.at({"bags", "piece"}), 3000);
  EXPECT_EQ(sums.all.out.money.thousandths(), 20000);
  EXPECT_EQ(sums.by_person.at("").out.money.thousandths(), 20000);
}

TEST(Payments, OfAPersonWithTwoCodesAreAddedUnderTheFirst) {
  Device phone("KOBO");
  phone.note("paid-in", {{"member", "12"}, {"what", "dues"}, {"money", "5"}});
  phone.note("paid-in", {{"member", "9"}, {"what", "dues"}, {"money", "7"}});
  phone.note("same-person", {{"member", "12"}, {"other", "9"}});
  const Payments sums = paid(phone.facts());
  EXPECT_EQ(sums.by_person.at("9").in.money.thousandths(), 12000);
  EXPECT_EQ(sums.by_person.count("12"), 0U);
}

TEST(Payments, OnlyThoseOfTheDaysAskedForCount) {
  Device phone("KOBO");
  for (const char* on : {"2027-03-04", "2027-03-11", "2027-03-18"})
    phone.note("paid-in", {{"member", "5"}, {"what", "dues"}, {"money", "1"}}, on);
  const journal::Facts facts = phone.facts();
  const Payments sums =
      payments(facts, group_units(), Persons(facts), day("2027-03-11"), day("2027-03-18"));
  EXPECT_EQ(sums.all.in.money.thousandths(), 2000);
}

// Nothing is lost: each note of a payment is in a sum or among those that cannot be read.
TEST(Payments, EachNoteIsInASumOrNamedAsUnread) {
  Device phone("KOBO");
  phone.note("paid-in", {{"member", "5"}, {"what", "dues"}});
  phone.note("paid-in", {{"member", "5"}, {"what", "dues"}, {"money", "some"}});
  phone.note("paid-in", {{"member", "5"}, {"what", "eggs"}, {"amount", "12"}});
  const Payments sums = paid(phone.facts());
  EXPECT_EQ(sums.unread.size(), 2U);
  EXPECT_EQ(sums.all.in.kind.at({"eggs", ""}), 12000);
}

std::string text_of(const Payments& sums) {
  std::string text;
  const auto say = [&](const Paid& one) {
    text += std::to_string(one.money.thousandths());
    for (const auto& [what, n] : one.kind)
      text += " " + what.first + what.second + std::to_string(n);
    text += ";";
  };
  for (const auto& [person, balance] : sums.by_person) {
    text += person + ":";
    say(balance.in);
    say(balance.out);
  }
  say(sums.all.in);
  return text;
}

TEST(Sums, DoNotDependOnTheOrderOfTheNotesAndAddUpToTheWhole) {
  Draw draw(11);
  Device phone("KOBO");
  std::int64_t money = 0, milk = 0, made = 0;
  for (int i = 0; i < 300; ++i) {
    const int thousandths = draw.between(1, 9999);
    const std::string member = std::to_string(draw.between(1, 12));
    const std::string number = std::to_string(thousandths / 1000) + "." +
                               std::to_string(1000 + thousandths % 1000).substr(1) + "0";
    phone.note("paid-in", {{"member", member}, {"what", "dues"}, {"money", number}});
    phone.note("paid-in",
               {{"member", member}, {"what", "milk"}, {"amount", std::to_string(i + 1) + " mL"}});
    phone.note("made", {{"batch", "B1"}, {"product", "serum"}, {"amount", number + " L"}});
    money += thousandths;
    milk += i + 1;
    made += thousandths;
  }
  std::vector<journal::Event> events;
  for (const journal::Event* event : phone.set().in_order()) events.push_back(*event);
  const std::string expected = text_of(paid(phone.facts()));
  for (int i = 0; i < testing::cases(20); ++i) {
    for (std::size_t n = events.size(); n > 1; --n) std::swap(events[n - 1], events[draw.below(n)]);
    journal::EventSet set;
    for (const journal::Event& event : events) set.add(event);
    const journal::Facts facts = journal::fold(set, {0.3});
    const Payments sums = paid(facts);
    ASSERT_EQ(text_of(sums), expected);
    EXPECT_EQ(sums.all.in.money.thousandths(), money);
    EXPECT_EQ(sums.all.in.kind.at({"milk", "L"}), milk);
    EXPECT_EQ(hand_outs(facts, group_units()).at(0).made_ml, made);
    std::int64_t by_person = 0;
    for (const auto& [person, balance] : sums.by_person)
      by_person += balance.in.money.thousandths();
    EXPECT_EQ(by_person, money);
  }
}

TEST(Attendance, TwoNotesOfNoRunningAreAbsentTwiceAndOneYesEndsThem) {
  Device phone("KOBO");
  const auto came = [&](const char* member, const char* on, const char* answer) {
    phone.note("attendance", {{"member", member}, {"came", answer}}, on);
  };
  came("10", "2027-04-01", "no");
  came("10", "2027-04-08", "no");
  came("4", "2027-04-01", "no");
  came("4", "2027-04-08", "yes");
  const journal::Facts facts = phone.facts();
  const Persons persons(facts);
  EXPECT_EQ(absent_twice(facts, persons, day("2027-04-15")), std::vector<std::string>{"10"});
  EXPECT_TRUE(absent_twice(facts, persons, day("2027-04-08")).empty()) << "one note so far";
  EXPECT_EQ(last_meeting(facts, day("2027-04-15")), day("2027-04-08"));
  ASSERT_EQ(away_on(facts, persons, day("2027-04-08")).size(), 1U);
}

TEST(Attendance, AFarmThatSaidItWouldBeAbsentCountsUnlessItsPeopleCame) {
  Device phone("KOBO");
  phone.note("member", {{"member", "m2"}, {"farm", "2"}});
  for (const char* farm : {"1", "2"}) phone.note("absence", {{"farm", farm}, {"on", "2027-04-08"}});
  phone.note("attendance", {{"member", "m2"}, {"came", "yes"}}, "2027-04-08");
  const journal::Facts facts = phone.facts();
  const auto away = away_on(facts, Persons(facts), day("2027-04-08"));
  ASSERT_EQ(away.size(), 1U);
  EXPECT_EQ(away[0].farm, "1");
  EXPECT_EQ(away[0].member, "");
}

TEST(Members, WhoLeftIsNotThereAndWhoComesBackIs) {
  Device phone("KOBO");
  phone.note("member", {{"member", "17"}, {"farm", "17"}});
  phone.note("left", {{"member", "17"}}, "2027-05-12");
  phone.note("joined", {{"member", "25"}}, "2027-04-15");
  const journal::Facts facts = phone.facts();
  const auto all = members(facts, Persons(facts));
  ASSERT_EQ(all.size(), 2U);
  EXPECT_TRUE(all[0].here(day("2027-05-11")));
  EXPECT_FALSE(all[0].here(day("2027-05-12")));
  EXPECT_FALSE(all[1].here(day("2027-04-14")));
  EXPECT_TRUE(all[1].here(day("2027-04-15")));
  phone.note("joined", {{"member", "17"}}, "2027-06-01");
  const journal::Facts later = phone.facts();
  EXPECT_TRUE(members(later, Persons(later))[0].here(day("2027-06-01")));
}

TEST(Members, StandInTheOrderInWhichPeopleCount) {
  EXPECT_EQ(in_code_order({"10", "b", "2", "A1", "1"}),
            (std::vector<std::string>{"1", "2", "10", "A1", "b"}));
}

TEST(Duties, TheOneThatBeganLastStandsUntilItIsOver) {
  Device phone("KOBO");
  phone.note("duty", {{"duty", "milk"}, {"from", "2027-03-01"}, {"member", "3"}});
  phone.note("duty",
             {{"duty", "milk"}, {"from", "2027-04-01"}, {"member", "5"}, {"until", "2027-04-30"}});
  const journal::Facts facts = phone.facts();
  EXPECT_EQ(duties_on(facts, day("2027-03-31")).at(0).member, "3");
  EXPECT_EQ(duties_on(facts, day("2027-04-30")).at(0).member, "5");
  EXPECT_TRUE(duties_on(facts, day("2027-05-01")).empty());
  EXPECT_TRUE(duties_on(facts, day("2027-02-28")).empty());
}

// PRACTICE 20: farms 3 and 18 teach three neighbours each.
TEST(TaughtSums, CountNeighboursByWhoTaughtThem) {
  Device phone("KOBO");
  phone.note("taught", {{"member", "3"}, {"what", "serum"}, {"people", "2"}});
  phone.note("taught", {{"member", "3"}, {"what", "dose"}, {"people", "1"}});
  phone.note("taught", {{"member", "18"}, {"what", "serum"}, {"people", "3"}});
  phone.note("taught", {{"member", "18"}, {"what", "dose"}, {"people", "many"}});
  const journal::Facts facts = phone.facts();
  const Taught sums = taught(facts, Persons(facts), last_day());
  EXPECT_EQ(sums.people.at("3"), 3);
  EXPECT_EQ(sums.all, 6);
  EXPECT_EQ(sums.unread.size(), 1U);
}

TEST(Visits, FarmsNotYetVisitedAreDueButNotThoseThatWereLeft) {
  Device phone("KOBO");
  for (const char* code : {"10", "2", "17"}) phone.note("farm", {{"code", code}});
  phone.note("member", {{"member", "17"}, {"farm", "17"}});
  phone.note("left", {{"member", "17"}}, "2027-05-12");
  phone.note("visit", {{"farm", "2"}, {"by", "trainer"}}, "2027-04-20");
  const journal::Facts facts = phone.facts();
  const Persons persons(facts);
  EXPECT_EQ(visits_due(facts, persons, day("2027-04-19")),
            (std::vector<std::string>{"2", "10", "17"}));
  EXPECT_EQ(visits_due(facts, persons, day("2027-05-12")), std::vector<std::string>{"10"});
}

}  // namespace
}  // namespace wheyfield::group
