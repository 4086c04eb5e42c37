// The group's meeting: what the notes and the plan say for one day. Numbers of the practice season
// are those of PRACTICE items 20 and 25: 11 L made, 14 L noted as handed out, farm 10 absent twice,
// farm 17 moved away in May, farm 25 joins on 15 April, farms 3 and 18 teach three neighbours each.
#include <string>

#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

void members(Facade& facade) {
  for (const char* code : {"3", "10", "17", "18"})
    facade.note("member", {{"member", code}, {"farm", code}}, "2027-02-20");
}

// What was noted up to the meeting of 15 April.
Facade group_of_april(const std::string& today = "2027-04-12") {
  Facade facade(today);
  facade.say("journal.import", {{"season", practice()}});
  members(facade);
  facade.note("made", {{"batch", "B1"}, {"product", "serum"}, {"amount", "4 L"}}, "2027-03-18");
  facade.note("made", {{"batch", "B2"}, {"product", "serum"}, {"amount", "7 L"}}, "2027-04-01");
  facade.note("handed-out", {{"farm", "3"}, {"product", "serum"}, {"amount", "6 L"}}, "2027-04-01");
  facade.note("handed-out", {{"farm", "18"}, {"product", "serum"}, {"amount", "8 L"}},
              "2027-04-08");
  for (const char* day : {"2027-04-01", "2027-04-08"}) {
    facade.note("attendance", {{"member", "10"}, {"came", "no"}}, day);
    facade.note("attendance", {{"member", "3"}, {"came", "yes"}}, day);
  }
  facade.note("paid-in", {{"member", "3"}, {"what", "dues"}, {"money", "120"}}, "2027-04-01");
  facade.note("paid-in", {{"member", "18"}, {"what", "milk"}, {"amount", "4 L"}}, "2027-04-08");
  facade.note("joined", {{"member", "25"}}, "2027-04-15");
  facade.note("duty", {{"duty", "measuring"}, {"from", "2027-04-01"}, {"member", "18"}});
  for (const char* code : {"3", "18"})
    facade.note("taught", {{"member", code}, {"what", "serum"}, {"people", "3"}}, "2027-04-10");
  return facade;
}

std::string page_text(const Json& answer) { return answer.at("pages").at(0).dump(); }

bool has_text(const Json& answer, const std::string& text) {
  return page_text(answer).find(text) != std::string::npos;
}

TEST(GroupScenario, TheNextMeetingHoldsWhatThePlanAndTheNotesSay) {
  Facade facade = group_of_april();
  const Json answer = facade.ask("group.meeting", {{"pages", true}});
  ASSERT_TRUE(answer.contains("on")) << answer["problems"];
  EXPECT_EQ(answer["on"], "2027-04-15") << "12 April is a Monday, meetings are on Thursdays";
  EXPECT_EQ(answer["meeting_day"], true);
  EXPECT_EQ(answer["last_meeting"], "2027-04-08");
  EXPECT_EQ(answer["absent_twice"], Json::array({"10"}));
  EXPECT_EQ(answer["absent_last"][0]["farm"], "10");
  EXPECT_TRUE(has_text(answer, "the notes know of 0 L"));
  EXPECT_EQ(answer["products"][0]["made_ml"], 11000);
  EXPECT_EQ(answer["products"][0]["handed_out_ml"], 14000);
  EXPECT_EQ(answer["products"][0]["left_ml"], -3000);
  EXPECT_EQ(answer["joined"], Json::array({"25"}));
  EXPECT_EQ(answer["duties"][0]["member"], "18");
  EXPECT_EQ(answer["paid_in"]["in_all"]["money"], 120.0);
  EXPECT_EQ(answer["paid_in"]["since"]["money"], 0.0) << "1 April was before the last meeting";
  EXPECT_EQ(answer["paid_in"]["since"]["kind"][0]["amount"], 4.0);
  EXPECT_TRUE(has_text(answer, "3 L more handed out than there was"));
  EXPECT_TRUE(has_text(answer, "Member 10 stayed away twice running"));
  EXPECT_TRUE(has_text(answer, "Anything to add?"));
  for (const char* key : {"[group.", "[col.", "[brief.", "[caution."})
    EXPECT_FALSE(has_text(answer, key)) << "a sentence is missing";
}

TEST(GroupScenario, ThePlansOwnPageOfThatMeetingStandsOnItWhole) {
  Facade facade = group_of_april();
  const Json answer = facade.ask("group.meeting", {{"on", "2027-04-15"}, {"pages", true}});
  const Json plan = facade.ask("season.plan", {{"pages", true}});
  Json planned;
  for (const Json& page : plan["pages"])
    if (page["id"] == "meeting-2027-04-15") planned = page["blocks"];
  ASSERT_FALSE(planned.empty());
  const Json& blocks = answer["pages"][0]["blocks"];
  for (std::size_t i = 0; i < planned.size(); ++i) EXPECT_EQ(blocks[i], planned[i]) << i;
  Json fields;
  for (const Json& meeting : plan["meetings"])
    if (meeting["date"] == "2027-04-15") fields = meeting;
  EXPECT_EQ(answer["plan"], fields);
  EXPECT_GT(answer["plan"]["shares"].size(), 0U);
}

TEST(GroupScenario, CautionsOfWhatIsHandedOutStandOnThePage) {
  Facade facade = group_of_april();
  const Json with_plan = facade.ask("group.meeting", {{"on", "2027-04-15"}, {"pages", true}});
  Facade bare;
  bare.note("made", {{"batch", "B1"}, {"product", "serum"}, {"amount", "4 L"}});
  const Json without = bare.ask("group.meeting", {{"pages", true}});
  for (const Json* answer : {&with_plan, &without})
    for (const char* caution :
         {"NOT FOOD", "Dilute fresh", "Sleeves, shoes", "eaten raw", "Never soak dressed"})
      EXPECT_TRUE(has_text(*answer, caution)) << caution;
}

TEST(GroupScenario, TheShareOfWhoStayedAwayIsNamedUntilItIsHandedOver) {
  Facade facade("2027-04-12");
  facade.say("journal.import", {{"season", practice()}});
  const Json plan = facade.ask("season.plan", Json::object());
  Json share;
  for (const Json& meeting : plan["meetings"])
    for (const Json& one : meeting["shares"])
      if (meeting["date"] == "2027-04-15" && one["serum_ml"] > one["short_ml"]) share = one;
  ASSERT_FALSE(share.is_null());
  const std::string farm = share["farm"];
  facade.note("member", {{"member", farm}, {"farm", farm}});
  facade.note("attendance", {{"member", farm}, {"came", "no"}}, "2027-04-15");
  const auto kept = [&] {
    const Json answer = facade.ask("group.meeting", {{"on", "2027-04-22"}});
    return answer["absent_last"][0]["kept_ml"].get<int>();
  };
  EXPECT_EQ(kept(), share["serum_ml"].get<int>() - share["short_ml"].get<int>());
  facade.note("handed-out", {{"farm", farm}, {"product", "serum"}, {"amount", "1 L"}},
              "2027-04-17");
  EXPECT_EQ(kept(), 0);
}

// A share that had to reach the field before this meeting is not handed over late.
TEST(GroupScenario, AShareWhoseUseIsOverIsNotToBeHandedOver) {
  Facade facade("2027-04-12");
  facade.say("journal.import", {{"season", practice()}});
  facade.note("member", {{"member", "10"}, {"farm", "10"}});
  facade.note("attendance", {{"member", "10"}, {"came", "no"}}, "2027-04-15");
  const Json answer = facade.ask("group.meeting", {{"on", "2027-04-22"}, {"pages", true}});
  EXPECT_EQ(answer["absent_last"][0]["send_by"], "2027-04-19")
      << "leaves spreading on kale ends on 19 April, as the plan's page of 15 April says";
  EXPECT_TRUE(has_text(answer, "do not hand them over"));
  EXPECT_FALSE(has_text(answer, "Hand it over today"));
  const Json later = facade.ask("group.meeting", {{"on", "2027-04-29"}});
  EXPECT_EQ(later["absent_last"][0]["kept_ml"], 0) << "a meeting lies between";
}

TEST(GroupScenario, WithoutASeasonOnlyTheGroupsPartIsPrinted) {
  Facade facade("2027-04-12");
  facade.note("meetings", {{"day", "Thursday"}});
  facade.note("member", {{"member", "m2"}, {"farm", "2"}});
  const Json answer = facade.ask("group.meeting", {{"pages", true}});
  EXPECT_EQ(answer["on"], "2027-04-15");
  EXPECT_TRUE(answer["plan"].is_null());
  EXPECT_TRUE(answer["problems"].empty()) << answer["problems"];
  EXPECT_TRUE(has_text(answer, "No season is written down"));
  EXPECT_EQ(answer["attendance"], Json::parse(R"([{"member":"m2","farm":"2"}])"));
}

TEST(GroupScenario, ADayWithoutMeetingIsSaidAndPrintedAllTheSame) {
  Facade facade = group_of_april();
  const Json answer = facade.ask("group.meeting", {{"on", "2027-04-14"}, {"pages", true}});
  EXPECT_EQ(problem(answer, "no-meeting-day")["severity"], "notice");
  EXPECT_TRUE(has_text(answer, "Anything to add?"));
  const Json holiday = facade.ask("group.meeting", {{"on", "2027-03-25"}});
  EXPECT_FALSE(problem(holiday, "no-meeting-day").is_null()) << "none_on of the practice season";
  facade.note("meeting", {{"topic", "field day"}}, "2027-04-14");
  const Json noted = facade.ask("group.meeting", {{"on", "2027-04-14"}});
  EXPECT_TRUE(problem(noted, "no-meeting-day").is_null());
}

TEST(GroupScenario, ADayThatDoesNotExistIsRefused) {
  Facade facade;
  const Json answer = facade.ask("group.meeting", {{"on", "2027-02-30"}});
  EXPECT_EQ(problem(answer, "date-impossible")["field"], "/on");
}

TEST(GroupScenario, MoreHandedOutThanMadeIsOneQuestionEverywhere) {
  Facade facade = group_of_april();
  const std::string name = "handed-out-above-made/serum";
  const Json asked = facade.ask("journal.questions", Json::object());
  ASSERT_EQ(asked["questions"].size(), 1U);
  EXPECT_EQ(asked["questions"][0]["name"], name);
  EXPECT_EQ(
      asked["questions"][0]["text"].get<std::string>().rfind("3 L more handed out than made", 0),
      0U);
  EXPECT_EQ(facade.ask("journal.verify", Json::object())["questions"], 1);
  const Json wrong = facade.say("journal.answer", {{"question", name}, {"take", "none"}});
  EXPECT_FALSE(problem(wrong, "answer-all-only").is_null()) << "no hand-out may be lost by it";
  facade.say("journal.answer", {{"question", name}, {"take", "all"}});
  EXPECT_EQ(facade.ask("journal.verify", Json::object())["questions"], 0);
  const Json table = facade.ask("journal.table", {{"kind", "handed-out"}});
  EXPECT_EQ(table["rows"].size(), 2U) << "left as it is";
}

TEST(GroupScenario, APreviewCountsTheQuestionsThatAColleaguesNotesWouldOpen) {
  Facade hers;
  const Json note = hers.say(
      "journal.add",
      {{"kind", "handed-out"}, {"body", {{"farm", "3"}, {"product", "serum"}, {"amount", "1 L"}}}});
  Facade mine;
  const Json seen = mine.ask("journal.preview", {{"events", note["events"]}});
  ASSERT_EQ(seen["questions"].size(), 1U);
  EXPECT_EQ(seen["questions"][0]["code"], "handed-out-above-made");
}

TEST(GroupScenario, OnePersonWithTwoCodesIsJoinedAndCanBeTakenApartAgain) {
  Facade facade;
  facade.note("name", {{"member", "4"}, {"name", "Sefi Amara"}, {"village", "Lower Reed"}});
  facade.note("name", {{"member", "9"}, {"name", "Sephi Amara"}, {"village", "Lower Reed"}});
  facade.note("paid-in", {{"member", "9"}, {"what", "dues"}, {"money", "5"}});
  const std::string name = "same-person/4/9";
  const Json wrong = facade.say("journal.answer", {{"question", name}, {"take", "KOBO-1"}});
  EXPECT_FALSE(problem(wrong, "answer-same-or-all").is_null()) << "no name may be lost by it";
  const Json joined = facade.say("journal.answer", {{"question", name}, {"take", "same"}});
  const Json members = facade.ask("group.members", Json::object());
  ASSERT_EQ(members["members"].size(), 1U);
  EXPECT_EQ(members["members"][0]["also"], Json::array({"9"}));
  EXPECT_EQ(members["members"][0]["paid_in"]["money"], 5.0);
  facade.say("journal.strike", {{"events", {joined["events"][0]["id"]}}});
  EXPECT_EQ(facade.ask("group.members", Json::object())["members"].size(), 2U);
  const Json again = facade.ask("journal.questions", Json::object());
  ASSERT_EQ(again["questions"].size(), 1U);
  facade.say("journal.answer", {{"question", name}, {"take", "all"}});
  EXPECT_EQ(facade.ask("journal.verify", Json::object())["questions"], 0) << "two people";
}

TEST(GroupScenario, AtMostFiveQuestionsStandOnThePage) {
  Facade facade;
  for (int i = 1; i <= 7; ++i)
    facade.note("handed-out",
                {{"farm", "3"}, {"product", "p" + std::to_string(i)}, {"amount", "1 L"}});
  const Json answer = facade.ask("group.meeting", {{"pages", true}});
  EXPECT_EQ(answer["questions"].size(), 7U);
  EXPECT_TRUE(has_text(answer, "And 2 more questions."));
}

TEST(GroupScenario, MembersShowWhatTheyAgreedToPaidAndTaught) {
  Facade facade = group_of_april("2027-05-20");
  facade.note("left", {{"member", "17"}, {"why", "moved away"}}, "2027-05-12");
  facade.note("agreed", {{"member", "3"}, {"purpose", "records"}, {"answer", "yes"}});
  facade.note("agreed", {{"member", "3"}, {"purpose", "photo"}, {"answer", "no"}});
  const Json answer = facade.ask("group.members", {{"pages", true}});
  ASSERT_EQ(answer["members"].size(), 5U);
  const Json& three = answer["members"][0];
  EXPECT_EQ(three["member"], "3");
  EXPECT_EQ(three["agreed"], Json::array({"records"}));
  EXPECT_EQ(three["paid_in"]["money"], 120.0);
  EXPECT_EQ(three["taught"], 3);
  EXPECT_EQ(answer["taught"], 6);
  EXPECT_EQ(answer["members"][2]["left"], "2027-05-12");
  EXPECT_EQ(answer["members"][4]["joined"], "2027-04-15");
  EXPECT_EQ(answer["members"][4]["farm"], "") << "farm 25 has no plot";
  EXPECT_TRUE(has_text(answer, "120 c"));
  for (const char* key : {"[group.", "[col."})
    EXPECT_FALSE(has_text(answer, key)) << "a sentence is missing";
  const Json meeting = facade.ask("group.meeting", {{"on", "2027-05-20"}});
  EXPECT_EQ(meeting["left"], Json::array({"17"}));
  for (const Json& one : meeting["attendance"]) EXPECT_NE(one["farm"], "17");
}

TEST(GroupScenario, AForgottenMemberShowsAsACodeOnly) {
  Facade facade;
  facade.note("member", {{"member", "5"}, {"farm", "5"}});
  facade.note("name", {{"member", "5"}, {"name", "Sefi"}, {"village", "Lower Reed"}});
  const Json before = facade.ask("group.members", {{"pages", true}});
  EXPECT_EQ(before["members"][0]["name"], "Sefi");
  facade.say("journal.forget", {{"member", "5"}});
  const Json answer = facade.ask("group.members", {{"pages", true}});
  EXPECT_EQ(answer["members"][0]["member"], "5");
  EXPECT_EQ(answer.dump().find("Sefi"), std::string::npos);
}

TEST(GroupScenario, ALostBatchIsWarnedOfWhereSerumIsHandedOut) {
  Facade facade = group_of_april();
  facade.note("reading", {{"batch", "B2"}, {"half", "morning"}, {"smell", "putrid"}}, "2027-04-09");
  const Json given = facade.note(
      "handed-out", {{"farm", "3"}, {"product", "serum"}, {"amount", "1 L"}, {"batch", "B2"}});
  const Json warned = problem(given, "batch-was-lost");
  ASSERT_FALSE(warned.is_null()) << given["problems"];
  EXPECT_EQ(warned["field"], "/body/batch");
  EXPECT_NE(warned["expected"].get<std::string>().find("NOT FOOD"), std::string::npos);
  const Json answer = facade.ask("group.meeting", {{"pages", true}});
  EXPECT_EQ(answer["lost_batches"], Json::array({"B2"}));
  EXPECT_EQ(answer["products"][0]["spoiled_ml"], 6000);
  EXPECT_TRUE(has_text(answer, "Batch B2 was noted lost"));
  EXPECT_TRUE(has_text(answer, "6 L of it are of batches noted lost"));
  const Json questions = facade.ask("journal.questions", Json::object())["questions"];
  EXPECT_NE(questions.dump().find("batch-lost-and-used/B2"), std::string::npos);
}

TEST(GroupScenario, WhoIsNotedAsThereAndAwayIsNeitherUntilSomebodyAnswers) {
  Facade facade = group_of_april();
  facade.say(
      "journal.add",
      {{"kind", "attendance"}, {"body", {{"member", "10"}, {"came", "yes"}}}, {"on", "2027-04-08"}},
      "TANO");
  const Json answer = facade.ask("group.meeting", Json::object());
  EXPECT_TRUE(answer["absent_twice"].empty());
  EXPECT_TRUE(answer["absent_last"].empty());
  const Json asked = facade.ask("journal.questions", Json::object())["questions"];
  std::string name, away;
  for (const Json& question : asked)
    if (question["code"] == "answers-differ") {
      name = question["name"];
      away = question["choices"][0]["id"];
    }
  ASSERT_EQ(name, "answers-differ/10/2027-04-08") << asked;
  facade.say("journal.answer", {{"question", name}, {"take", away}});
  EXPECT_EQ(facade.ask("group.meeting", Json::object())["absent_twice"], Json::array({"10"}));
}

}  // namespace
}  // namespace wheyfield
