// What two people note differently, row by row as in docs/formats/journal.md, "Questions". Each
// test has two phones that write without a network and then take each other's notes in. The two
// rows that need amounts and names stand in the room `group`.
#include <gtest/gtest.h>

#include <support/journal.h>

#include "journal/fold.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;
using testing::Device;
using testing::questions;
using Names = std::vector<std::string>;

class Conflicts : public ::testing::Test {
 protected:
  // Both have everything and must know the same.
  Facts together() {
    a.take(b);
    b.take(a);
    EXPECT_EQ(text_of(a.facts()), text_of(b.facts()));
    return a.facts();
  }
  static json reading(const char* ph, const char* half = "morning") {
    return {{"batch", "B07"}, {"half", half}, {"ph", ph}};
  }
  static json weight(const char* mass) {
    return {{"plot", "22-with"}, {"farm", "22"}, {"mass", mass}};
  }

  Device a{"A"};
  Device b{"B"};
};

TEST_F(Conflicts, ReadingsCloseTogetherAreBothKeptAndNobodyIsAsked) {
  a.note("reading", reading("4.0"));
  b.note("reading", reading("4,3"));
  const Facts facts = together();
  EXPECT_EQ(facts.of("reading").front().said.size(), 2U);
  EXPECT_EQ(questions(facts), Names{});
}

TEST_F(Conflicts, ReadingsOfOneHalfDayApartAreAskedAbout) {
  a.note("reading", reading("3.6"));
  b.note("reading", reading("4.4"));
  EXPECT_EQ(questions(together()), (Names{"readings-differ/B07/morning/2027-03-07"}));
}

TEST_F(Conflicts, ReadingsOfTwoHalfDaysOrTwoDaysAreTwoReadings) {
  a.note("reading", reading("3.6"));
  b.note("reading", reading("4.4", "afternoon"));
  b.note("reading", reading("5.0"), "2027-03-08");
  EXPECT_EQ(questions(together()), Names{});
}

TEST_F(Conflicts, TwoWeightsOfOnePlotAreNeitherAddedNorOverwritten) {
  const EventId heavy = a.note("weight", weight("41 kg")).id;
  const EventId light = b.note("weight", weight("14 kg")).id;
  EXPECT_EQ(questions(together()), (Names{"weights-differ/22-with/"}));
  EXPECT_TRUE(together().find("weight", "22-with/")->body.is_null());

  b.choose("weights-differ/22-with/", {light}, {heavy});
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_EQ(facts.find("weight", "22-with/")->body["mass"], "14 kg");
  EXPECT_EQ(facts.not_counting.size(), 1U);
}

TEST_F(Conflicts, AThirdWeightAsksAgain) {
  const EventId heavy = a.note("weight", weight("41 kg")).id;
  const EventId light = b.note("weight", weight("14 kg")).id;
  together();
  a.choose("weights-differ/22-with/", {light}, {heavy});
  b.note("weight", weight("15 kg"));
  EXPECT_EQ(questions(together()), (Names{"weights-differ/22-with/"}));
}

TEST_F(Conflicts, OneWeightWrittenInTwoWaysIsOneWeight) {
  a.note("weight", weight("14 kg"));
  b.note("weight", weight("14,0 kg"));
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_FALSE(facts.find("weight", "22-with/")->body.is_null());
}

TEST_F(Conflicts, AWeightAgainstAPlotEatenByGoatsIsAskedAbout) {
  a.note("weight", weight("14 kg"));
  b.note("weight", {{"plot", "22-with"}, {"farm", "22"}, {"none_because", "goats"}});
  EXPECT_EQ(questions(together()).size(), 1U);
}

TEST_F(Conflicts, ALabelStartedTwiceIsOneBucketOrTwo) {
  a.note("batch", {{"label", "B07"}, {"vessel", "A"}});
  b.note("batch", {{"label", "B07"}, {"vessel", "B"}});
  EXPECT_EQ(questions(together()), (Names{"batch-twice/B07"}));
}

TEST_F(Conflicts, ALabelStartedOnTwoDaysIsAskedAboutToo) {
  a.note("batch", {{"label", "B07"}, {"vessel", "A"}});
  b.note("batch", {{"label", "B07"}, {"vessel", "A"}}, "2027-03-09");
  EXPECT_EQ(questions(together()), (Names{"batch-twice/B07"}));
}

TEST_F(Conflicts, TheSecondBucketGetsALabelOfItsOwn) {
  a.note("batch", {{"label", "B07"}, {"vessel", "A"}});
  const EventId other = b.note("batch", {{"label", "B07"}, {"vessel", "B"}}).id;
  together();
  b.note("batch", {{"label", "B08"}, {"vessel", "B"}}, "2027-03-07", {other});
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_EQ(facts.of("batch").size(), 2U);
}

TEST_F(Conflicts, OfTwoCapSizesTheLatestCountsAndTheOtherStaysInTheHistory) {
  a.note("farm", {{"code", "9"}, {"cap", "5 mL"}});
  b.later(60);
  b.note("farm", {{"code", "9"}, {"cap", "7 mL"}, {"can", "20 L"}});
  const Facts facts = together();
  EXPECT_EQ(facts.find("farm", "9")->body["cap"], "7 mL");
  EXPECT_EQ(facts.find("farm", "9")->said.front()->body["cap"], "5 mL");
  EXPECT_EQ(questions(facts), Names{});
}

TEST_F(Conflicts, ChangesOfTwoMembersOfOneFarmBothCount) {
  a.note("farm", {{"code", "9"}, {"cap", "5 mL"}});
  b.note("farm", {{"code", "9"}, {"sprayer", "15 L"}});
  const json farm = together().find("farm", "9")->body;
  EXPECT_EQ(farm["cap"], "5 mL");
  EXPECT_EQ(farm["sprayer"], "15 L");
}

TEST_F(Conflicts, AFactStruckHereAndCorrectedThereStandsCorrected) {
  const EventId milk =
      a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "20 L"}}).id;
  b.take(a);
  a.later(100);
  a.strike({milk});
  b.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}}, "2027-03-07", {milk});
  const Facts facts = together();
  ASSERT_EQ(facts.of("paid-in").size(), 1U);
  EXPECT_EQ(facts.of("paid-in").front().said.front()->body["amount"], "2 L");
}

TEST_F(Conflicts, AStrikeOfWhatWasCorrectedBeforeStrikesTheCorrectionToo) {
  const EventId milk =
      a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "20 L"}}).id;
  const EventId mended = a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}},
                                "2027-03-07", {milk})
                             .id;
  a.strike({milk, mended});
  EXPECT_TRUE(together().of("paid-in").empty());
}

TEST_F(Conflicts, OfTwoDrawsTheFirstWinsAndTheSecondIsANote) {
  a.note("draw", {{"trial", "bean"}, {"farm", "7"}, {"with", "left"}});
  b.later(3600);
  b.note("draw", {{"trial", "bean"}, {"farm", "7"}, {"with", "right"}});
  const Facts facts = together();
  EXPECT_EQ(facts.find("draw", "bean/7")->body["with"], "left");
  EXPECT_EQ(facts.find("draw", "bean/7")->said.size(), 2U);
  EXPECT_EQ(questions(facts), Names{});
}

TEST_F(Conflicts, OfTwoSeasonPlansTheLatestCountsAndBothAreNamed) {
  a.note("season", {{"first_start", "2027-03-04"}});
  b.later(60);
  b.note("season", {{"first_start", "2027-02-25"}});
  const Facts facts = together();
  EXPECT_EQ(facts.find("season", "")->body["first_start"], "2027-02-25");
  EXPECT_EQ(facts.find("season", "")->said.front()->id.device, "A");
  EXPECT_EQ(facts.find("season", "")->said.back()->id.device, "B");
}

TEST_F(Conflicts, OnePaymentNotedByBothIsAskedAboutAndBothCountUntilThen) {
  const json milk = {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}};
  const EventId one = a.note("paid-in", milk).id;
  const EventId two = b.note("paid-in", milk).id;
  EXPECT_EQ(questions(together()), (Names{"noted-twice/5/milk/2027-03-07"}));
  EXPECT_EQ(together().of("paid-in").front().said.size(), 2U);
  a.choose("noted-twice/5/milk/2027-03-07", {one}, {two});
  EXPECT_EQ(together().of("paid-in").front().said.size(), 1U);
  EXPECT_EQ(questions(together()), Names{});
}

TEST_F(Conflicts, TwoPaymentsNotedByOneDeviceAreTwoPayments) {
  for (int i = 0; i < 2; ++i)
    a.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}});
  EXPECT_EQ(questions(together()), Names{});
}

TEST_F(Conflicts, TwoDevicesWithOneCodeAreNamedAndBothNotesCount) {
  Device twin("A");
  a.note("visit", {{"farm", "5"}, {"by", "2"}});
  twin.note("visit", {{"farm", "6"}, {"by", "3"}});
  a.take(twin);
  EXPECT_EQ(questions(a.facts()), (Names{"one-code-two-devices/A-1"}));
  EXPECT_EQ(a.facts().of("visit").size(), 2U);
}

TEST_F(Conflicts, TwoAnswersThatDifferLeaveBothWeightsAndAskAgain) {
  const EventId heavy = a.note("weight", weight("41 kg")).id;
  const EventId light = b.note("weight", weight("14 kg")).id;
  together();
  const EventId one = a.choose("weights-differ/22-with/", {heavy}, {light}).id;
  const EventId other = b.choose("weights-differ/22-with/", {light}, {heavy}).id;
  EXPECT_EQ(questions(together()), (Names{"weights-differ/22-with/"}));
  EXPECT_EQ(together().find("weight", "22-with/")->said.size(), 2U);

  // A third answer that knows of both stands instead of them.
  a.note("choice",
         {{"question", "weights-differ/22-with/"},
          {"takes", {light.text()}},
          {"leaves", {heavy.text()}}},
         "2027-03-07", {one, other});
  EXPECT_EQ(questions(together()), Names{});
  EXPECT_EQ(together().find("weight", "22-with/")->body["mass"], "14 kg");
}

TEST_F(Conflicts, AChoiceReplacesChoicesAndNothingElse) {
  const EventId visit = a.note("visit", {{"farm", "5"}, {"by", "2"}}).id;
  a.note("choice", {{"question", "x"}, {"takes", json::array()}, {"leaves", json::array()}},
         "2027-03-07", {visit});
  EXPECT_EQ(a.facts().of("visit").size(), 1U);
}

TEST_F(Conflicts, AChoiceCanBeTakenBack) {
  const EventId heavy = a.note("weight", weight("41 kg")).id;
  const EventId light = b.note("weight", weight("14 kg")).id;
  together();
  const EventId choice = a.choose("weights-differ/22-with/", {light}, {heavy}).id;
  EXPECT_EQ(questions(together()), Names{});
  a.strike({choice});
  EXPECT_EQ(questions(together()), (Names{"weights-differ/22-with/"}));
}

TEST_F(Conflicts, TwoAnswersOnOneDayCountAsNoneUntilOneIsTaken) {
  const nlohmann::json yes{{"member", "7"}, {"purpose", "photo"}, {"answer", "yes"}};
  nlohmann::json no = yes;
  no["answer"] = "no";
  const EventId said_yes = a.note("agreed", yes).id;
  const EventId said_no = b.note("agreed", no).id;
  EXPECT_EQ(questions(together()), (Names{"answers-differ/7/photo"}));
  EXPECT_FALSE(together().find("agreed", "7/photo")->body.contains("answer"));
  a.choose("answers-differ/7/photo", {said_no}, {said_yes});
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_EQ(facts.find("agreed", "7/photo")->body["answer"], "no");
}

TEST_F(Conflicts, ALaterDayIsAChangeOfMindWhateverTheClocksSay) {
  const nlohmann::json yes{{"member", "7"}, {"purpose", "photo"}, {"answer", "yes"}};
  nlohmann::json no = yes;
  no["answer"] = "no";
  b.note("agreed", no, "2027-03-09");
  a.later(86400);
  a.note("agreed", yes, "2027-03-07");
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_EQ(facts.find("agreed", "7/photo")->body["answer"], "no");
}

TEST_F(Conflicts, OneDeviceThatSaysItAnewCorrectsItself) {
  a.note("attendance", {{"member", "7"}, {"came", "yes"}});
  a.note("attendance", {{"member", "7"}, {"came", "no"}});
  b.note("attendance", {{"member", "7"}, {"came", "no"}});
  const Facts facts = together();
  EXPECT_EQ(questions(facts), Names{});
  EXPECT_EQ(facts.of("attendance").front().body["came"], "no");
  b.note("attendance", {{"member", "7"}, {"came", "yes"}});
  EXPECT_EQ(questions(together()), (Names{"answers-differ/7/2027-03-07"}));
}

}  // namespace
}  // namespace wheyfield::journal
