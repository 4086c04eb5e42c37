// The trainer writes things down once; every question is answered from what was written.
#include <map>
#include <string>

#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

Facade with_practice_season(const std::string& today = "2027-02-20") {
  Facade facade(today);
  const Json taken = facade.say("journal.import", {{"season", practice()}});
  EXPECT_EQ(facade.appended().value("added", 0U), taken.value("events", Json()).size())
      << taken["problems"] << facade.appended();
  return facade;
}

TEST(JournalScenario, ThePlanFromTheJournalAloneIsThePlanOfTheSeasonFile) {
  for (const char* name : {"practice", "practice-cool"}) {
    Facade facade("2027-02-20");
    facade.say("journal.import", {{"season", practice(name)}});
    const Json recorded = facade.ask("season.plan", {{"pages", true}});
    Facade other("2027-02-20");
    const Json tried = other.plan(practice(name), true);
    EXPECT_TRUE(recorded == tried) << name;
    ASSERT_TRUE(recorded.contains("batches")) << recorded["problems"];
  }
}

TEST(JournalScenario, WithoutAnythingWrittenDownThePlanSaysWhatIsMissing) {
  Facade facade;
  const Json answer = facade.ask("season.plan", Json::object());
  EXPECT_FALSE(problem(answer, "nothing-recorded").is_null());
}

TEST(JournalScenario, ASeasonTakenInTwiceChangesNothing) {
  Facade facade = with_practice_season();
  const Json again = facade.say("journal.import", {{"season", practice()}});
  EXPECT_EQ(again["events"].size(), 0U);
  EXPECT_EQ(again["fresh"], 0);
  EXPECT_TRUE(again["changes"].empty());
}

TEST(JournalScenario, AnEditedSeasonFileShowsWhatItWouldChange) {
  Facade facade = with_practice_season();
  Json edited = practice();
  edited["season"]["first_start"] = "2027-02-25";
  edited["farms"].erase(23);
  const Json taken = facade.say("journal.import", {{"season", edited}, {"pages", true}});
  ASSERT_EQ(taken["changes"].size(), 1U);
  EXPECT_EQ(taken["changes"][0]["was"], "2027-03-04");
  EXPECT_EQ(taken["changes"][0]["now"], "2027-02-25");
  const Json season = facade.ask("journal.season", Json::object());
  EXPECT_EQ(season["season"]["farms"].size(), 24U) << "a missing row deletes nothing";
  const Json plan = facade.ask("season.plan", Json::object());
  EXPECT_TRUE(plan["shortages"].empty()) << "25 February cures the practice season";
}

TEST(JournalScenario, TheSeasonComesBackAsItWasImported) {
  for (const char* name : {"practice", "practice-cool"}) {
    Facade facade;
    const Json first = facade.say("journal.import", {{"season", practice(name)}});
    const Json back = facade.ask("journal.season", Json::object())["season"];
    Facade other;
    const Json second = other.say("journal.import", {{"season", back}});
    EXPECT_EQ(first["events"], second["events"]);
    EXPECT_EQ(other.ask("journal.season", Json::object())["season"], back);
  }
}

// Farm 14's cap is unmeasured in the practice season: its dose line says "measure it first".
TEST(JournalScenario, ACapMeasuredLaterChangesTheDoseLine) {
  Facade facade = with_practice_season();
  facade.note("farm", {{"code", "14"}, {"cap", "10 mL"}});
  const Json plan = facade.ask("season.plan", Json::object());
  EXPECT_TRUE(problem(plan, "cap-unmeasured-farm").is_null());
}

TEST(JournalScenario, AFlowerSeenNarrowsTheWindowsOfThatField) {
  Facade facade = with_practice_season("2027-05-20");
  const auto flowering = [&] {
    const Json plan = facade.ask("season.plan", Json::object());
    for (const Json& use : plan["uses"])
      if (use["farm"] == "7" && use["use"] == "flowering") return use["window"];
    return Json();
  };
  const Json before = flowering();
  facade.note("seen", {{"farm", "7"}, {"crop", "bean"}, {"what", "flower-or-swelling"}},
              "2027-05-03");
  const Json after = flowering();
  EXPECT_NE(before, after);
  EXPECT_EQ(after["early"], "2027-05-03");
}

TEST(JournalScenario, AFarmThatMovedAwayIsPlannedForNoMore) {
  Facade facade = with_practice_season("2027-05-20");
  facade.note("member", {{"member", "17"}, {"farm", "17"}});
  facade.note("left", {{"member", "17"}, {"why", "moved away"}}, "2027-05-12");
  const Json plan = facade.ask("season.plan", Json::object());
  for (const Json& use : plan["uses"]) EXPECT_NE(use["farm"], "17");
}

TEST(JournalScenario, ANoteWithAValueThatCannotBeReadIsRefusedAndNothingIsWritten) {
  Facade facade;
  const Json answer =
      facade.note("handed-out", {{"farm", "3"}, {"product", "serum"}, {"amount", "3"}});
  EXPECT_FALSE(problem(answer, "unit-missing").is_null());
  EXPECT_EQ(problem(answer, "unit-missing")["field"], "/body/amount");
  EXPECT_FALSE(answer.contains("events"));
}

// PRACTICE, 19: a strip typed 39.
TEST(JournalScenario, AStripTypedThirtyNineIsRefused) {
  Facade facade;
  const Json answer = facade.note("reading", {{"batch", "B1"}, {"half", "morning"}, {"ph", "39"}});
  EXPECT_EQ(problem(answer, "ph-out-of-range")["field"], "/body/ph");
  EXPECT_FALSE(answer.contains("events"));
}

TEST(JournalScenario, AKindThatIsMisspeltIsRefusedWithTheNearest) {
  Facade facade;
  const Json answer = facade.note("redaing", {{"batch", "B07"}});
  EXPECT_NE(problem(answer, "event-kind-unknown")["text"].get<std::string>().find("reading"),
            std::string::npos);
}

TEST(JournalScenario, AnAppendWithOneBadNoteTakesInNothing) {
  Facade facade;
  const Json good =
      facade.say("journal.add", {{"kind", "visit"}, {"body", {{"farm", "3"}, {"by", "2"}}}});
  Facade other;
  Json events = good["events"];
  events.push_back({{"id", "TANO-1"}});
  const Json answer = other.append(events);
  EXPECT_EQ(problem(answer, "event-member-missing")["field"], "/events/1/at");
  EXPECT_EQ(other.ask("journal.verify", Json::object())["notes"], 0);
}

TEST(JournalScenario, WhatANewerVersionWroteIsKeptAndPassedOn) {
  Facade facade;
  const std::string line =
      R"({"id":"NEO-1","at":[1804399200,0],"on":"2027-03-07","utc":180,"kind":"moon-phase","v":3,)"
      R"("body":{"full":true}})";
  facade.append(Json::array({Json::parse(line)}));
  const Json verified = facade.ask("journal.verify", Json::object());
  EXPECT_EQ(verified["newer"], 1);
  const Json list = facade.ask("journal.list", Json::object());
  EXPECT_EQ(list["notes"][0]["id"], "NEO-1");
}

TEST(JournalScenario, AStruckNoteNoLongerCountsWithAllItsVersions) {
  Facade facade;
  const Json first =
      facade.note("paid-in", {{"member", "5"}, {"what", "milk"}, {"amount", "20 L"}});
  const std::string id = first["events"][0]["id"];
  const Json second =
      facade.say("journal.add", {{"kind", "paid-in"},
                                 {"body", {{"member", "5"}, {"what", "milk"}, {"amount", "2 L"}}},
                                 {"replaces", {id}}});
  EXPECT_EQ(second["events"][0]["replaces"], Json::array({id}));
  facade.say("journal.strike", {{"events", {second["events"][0]["id"]}}});
  const Json table = facade.ask("journal.table", {{"kind", "paid-in"}});
  EXPECT_TRUE(table["rows"].empty());
}

TEST(JournalScenario, ForgettingBlanksTheNameAndSaysWhichLinesTheHostMustReplace) {
  Facade facade;
  facade.note("member", {{"member", "5"}, {"farm", "5"}});
  facade.note("name", {{"member", "5"}, {"name", "Sefi"}});
  facade.say("journal.forget", {{"member", "5"}});
  const Json blank = facade.appended()["blank"];
  ASSERT_EQ(blank.size(), 1U);
  EXPECT_TRUE(blank[0]["body"].is_null());
  EXPECT_EQ(facade.ask("journal.list", Json::object()).dump().find("Sefi"), std::string::npos);
}

TEST(JournalScenario, RowsOfATableShowWhatTheyWouldChange) {
  Facade facade;
  facade.note("weight", {{"plot", "7-with"}, {"farm", "7"}, {"mass", "12 kg"}});
  const Json table = facade.ask("journal.table", {{"kind", "weight"}});
  const std::string id = table["rows"][0][0];
  const Json rows = {
      {{"id", id}, {"body", {{"plot", "7-with"}, {"farm", "7"}, {"mass", "12.5 kg"}}}},
      {{"body", {{"plot", "7-without"}, {"farm", "7"}, {"mass", "11 kg"}}}},
      {{"body", {{"plot", "7-with"}, {"farm", "7"}, {"mass", "12 kg"}}}}};
  const Json taken = facade.say("journal.rows", {{"kind", "weight"}, {"rows", rows}});
  EXPECT_EQ(taken["changes"].size(), 1U);
  EXPECT_EQ(taken["fresh"], 1);
  EXPECT_EQ(taken["same"], 1);
  EXPECT_EQ(taken["events"][0]["replaces"], Json::array({id}));
}

// Farm 5 of the practice season: a 20 L sprayer, a cap of 20 mL, 1:500.
TEST(JournalScenario, ADoseForAFarmTakesWhatWasMeasuredThere) {
  Facade facade = with_practice_season();
  const Json mix = facade.ask("dose.mix", {{"farm", "5"}});
  EXPECT_EQ(mix["water_l"], 20.0);
  EXPECT_EQ(mix["serum_ml"], 40.0);
  EXPECT_EQ(mix["caps"], 2.0);
  EXPECT_EQ(facade.ask("dose.mix", {{"farm", "5"}, {"water", "10 L"}})["serum_ml"], 20.0);
}

// Farm 14's cap was never measured: nothing is guessed.
TEST(JournalScenario, ADoseForAFarmWithoutAMeasuredCapGivesNoCaps) {
  Facade facade = with_practice_season();
  EXPECT_TRUE(facade.ask("dose.mix", {{"farm", "14"}})["caps"].is_null());
}

TEST(JournalScenario, ADoseForAFarmThatNobodyWroteDownIsRefused) {
  Facade facade = with_practice_season();
  const Json answer = facade.ask("dose.mix", {{"farm", "77"}});
  EXPECT_EQ(problem(answer, "farm-not-recorded")["field"], "/farm");
}

TEST(JournalScenario, TheEarliestHarvestFollowsFromTheLatestUseNoted) {
  Facade facade = with_practice_season("2027-05-01");
  const Json use = {{"farm", "7"},
                    {"crop", "bean"},
                    {"use", "seedling"},
                    {"method", "knapsack"},
                    {"put_on", "leaves"}};
  facade.note("use", use, "2027-04-20");
  facade.note("use", use, "2027-04-14");
  const Json recorded =
      facade.ask("dose.harvest", {{"farm", "7"}, {"crop", "bean"}, {"stage", "before-flowering"}});
  const Json said = facade.ask("dose.harvest", {{"crop", "bean"},
                                                {"stage", "before-flowering"},
                                                {"last_use", "2027-04-20"},
                                                {"method", "knapsack"},
                                                {"on", "leaves"},
                                                {"strength", "1:500"}});
  EXPECT_TRUE(recorded == said);
  EXPECT_TRUE(recorded.contains("earliest_harvest")) << recorded["problems"];
}

TEST(JournalScenario, ASoakForAFieldKnowsItsSeed) {
  Facade facade = with_practice_season();
  const Json dressed =
      facade.ask("dose.soak", {{"farm", "1"}, {"crop", "maize"}, {"mass", "2 kg"}});
  EXPECT_FALSE(problem(dressed, "seed-dressed").is_null()) << dressed["problems"];
  const Json own = facade.ask("dose.soak", {{"farm", "5"}, {"crop", "sorghum"}, {"mass", "2 kg"}});
  EXPECT_EQ(own["hours_at_most"], 10.0);
}

TEST(JournalScenario, ATableTakenInTwiceIsNewOnce) {
  const std::map<std::string, Json> bodies{
      {"farm", {{"code", "9"}, {"cap", "5 mL"}}},
      {"seen", {{"farm", "9"}, {"crop", "bean"}, {"what", "emerged"}}},
      {"joined", {{"member", "9"}}},
      {"weight", {{"plot", "9"}, {"farm", "9"}, {"mass", "5 kg"}}},
      {"paid-in", {{"member", "9"}, {"what", "dues"}, {"money", "10"}}}};
  for (const auto& [kind, body] : bodies) {
    Facade facade;
    const Json rows = {{{"on", "2027-02-18"}, {"body", body}}};
    EXPECT_EQ(facade.say("journal.rows", {{"kind", kind}, {"rows", rows}})["fresh"], 1) << kind;
    const Json again = facade.say("journal.rows", {{"kind", kind}, {"rows", rows}});
    EXPECT_EQ(again["fresh"], 0) << kind;
    EXPECT_EQ(again["same"], 1) << kind;
    EXPECT_TRUE(again["events"].empty()) << kind;
  }
}

TEST(JournalScenario, AnotherDayOfWhatWasSeenIsAChange) {
  Facade facade;
  const Json seen = {{"farm", "9"}, {"crop", "bean"}, {"what", "emerged"}};
  facade.note("seen", seen, "2027-02-10");
  const Json rows = {{{"on", "2027-02-12"}, {"body", seen}}};
  const Json taken = facade.say("journal.rows", {{"kind", "seen"}, {"rows", rows}});
  ASSERT_EQ(taken["changes"].size(), 1U);
  EXPECT_EQ(taken["changes"][0]["now"], "2027-02-12");
}

TEST(JournalScenario, TwoRowsAboutOneFarmAreRefused) {
  Facade facade;
  const Json rows = {{{"body", {{"code", "9"}, {"cap", "5 mL"}}}},
                     {{"body", {{"code", "9"}, {"cap", "7 mL"}}}}};
  const Json answer = facade.say("journal.rows", {{"kind", "farm"}, {"rows", rows}});
  EXPECT_EQ(problem(answer, "row-twice")["field"], "/rows/1/body");
}

TEST(JournalScenario, ARowThatCorrectsANoteNobodyKnowsIsRefused) {
  Facade facade;
  const Json rows = {
      {{"id", "TANO-7"}, {"body", {{"member", "5"}, {"what", "dues"}, {"money", "1"}}}}};
  const Json answer = facade.say("journal.rows", {{"kind", "paid-in"}, {"rows", rows}});
  EXPECT_EQ(problem(answer, "event-unknown")["field"], "/rows/0/id");
}

TEST(JournalScenario, AnEditedTableTakenInTwiceDoublesNoMoney) {
  Facade facade;
  const Json dues = {{"member", "5"}, {"what", "dues"}, {"money", "10"}};
  const std::string id = facade.note("paid-in", dues)["events"][0]["id"];
  Json edited = dues;
  edited["money"] = "12";
  const Json rows = {{{"id", id}, {"on", "2027-02-20"}, {"body", edited}}};
  facade.say("journal.rows", {{"kind", "paid-in"}, {"rows", rows}});
  EXPECT_EQ(facade.say("journal.rows", {{"kind", "paid-in"}, {"rows", rows}})["same"], 1);
  const Json table = facade.ask("journal.table", {{"kind", "paid-in"}});
  ASSERT_EQ(table["rows"].size(), 1U);

  // The old table again: that row was not touched, so the correction stands.
  const Json old = {{{"id", id}, {"on", "2027-02-20"}, {"body", dues}}};
  EXPECT_EQ(facade.say("journal.rows", {{"kind", "paid-in"}, {"rows", old}})["same"], 1);
}

TEST(JournalScenario, AnAnswerDoesNotBringBackWhatWasCorrected) {
  Facade facade;
  Json weight = {{"plot", "12-with"}, {"farm", "12"}, {"mass", "14 kg"}};
  const std::string first = facade.note("weight", weight)["events"][0]["id"];
  weight["mass"] = "15 kg";
  facade.say("journal.add", {{"kind", "weight"}, {"body", weight}, {"replaces", {first}}});
  weight["mass"] = "41 kg";
  const Json other = facade.say("journal.add", {{"kind", "weight"}, {"body", weight}}, "TANO");
  facade.say("journal.answer",
             {{"question", "weights-differ/12-with/"}, {"take", other["events"][0]["id"]}});
  EXPECT_TRUE(facade.ask("journal.questions", Json::object())["questions"].empty());
  EXPECT_EQ(facade.ask("journal.table", {{"kind", "weight"}})["rows"].size(), 1U);
}

TEST(JournalScenario, OfSeveralHandOutsNotedTwiceTwoCanBeTaken) {
  Facade facade;
  const auto hand_out = [&](const char* amount, const char* device) -> std::string {
    const Json body = {{"farm", "3"}, {"product", "serum"}, {"amount", amount}};
    return facade.say("journal.add", {{"kind", "handed-out"}, {"body", body}},
                      device)["events"][0]["id"];
  };
  const std::string ours = hand_out("0.2 L", "KOBO");
  hand_out("0.2 L", "TANO");
  const std::string more = hand_out("5 L", "KOBO");
  facade.say("journal.answer",
             {{"question", "noted-twice/3/serum/2027-02-20"}, {"take", ours + ", " + more}});
  EXPECT_EQ(facade.ask("journal.table", {{"kind", "handed-out"}})["rows"].size(), 2U);
}

TEST(JournalScenario, ASeasonGoesOnWithoutAFarmThatWasForgotten) {
  Facade facade = with_practice_season();
  facade.note("member", {{"member", "10"}, {"farm", "10"}});
  const Json said = facade.say("journal.forget", {{"member", "10"}});
  EXPECT_GE(said["blanks"].size(), 3U);
  EXPECT_NE(said["text"].get<std::string>().find("farm 10"), std::string::npos);
  const Json plan = facade.ask("season.plan", Json::object());
  ASSERT_TRUE(plan.contains("uses")) << plan["problems"];
  for (const Json& use : plan["uses"]) EXPECT_NE(use["farm"], "10");
}

TEST(JournalScenario, AFarmStaysInThePlanWhileSomebodyIsThere) {
  Facade facade = with_practice_season("2027-05-20");
  const auto fields = [&] {
    std::size_t count = 0;
    const Json season = facade.ask("journal.season", Json::object());
    for (const Json& farm : season["season"]["farms"])
      if (farm["code"] == "10") count = farm["fields"].size();
    return count;
  };
  facade.note("member", {{"member", "10"}, {"farm", "10"}});
  facade.note("member", {{"member", "30"}, {"farm", "10"}});
  facade.note("left", {{"member", "30"}}, "2027-05-02");
  EXPECT_EQ(fields(), 2U);
  facade.note("left", {{"member", "10"}}, "2027-05-03");
  EXPECT_EQ(fields(), 0U);
  facade.note("joined", {{"member", "30"}}, "2027-05-04");
  EXPECT_EQ(fields(), 2U);
}

TEST(JournalScenario, AnAnnouncedAbsenceThatWasKeptStandsInTheSeasonOnce) {
  Facade facade = with_practice_season("2027-05-20");
  facade.note("member", {{"member", "10"}, {"farm", "10"}});
  facade.note("attendance", {{"member", "10"}, {"came", "no"}}, "2027-05-13");
  const Json season = facade.ask("journal.season", Json::object())["season"];
  Facade other("2027-05-20");
  const Json taken = other.say("journal.import", {{"season", season}});
  EXPECT_TRUE(problem(taken, "row-twice").is_null());
}

TEST(JournalScenario, WhatActsOnOthersIsNotWrittenByHandAndALossIsNotStruck) {
  Facade facade;
  const Json act = facade.note("forget", {{"member", "7"}, {"farms", {"8"}}});
  EXPECT_FALSE(problem(act, "kind-is-an-act").is_null());
  facade.say("journal.add", {{"kind", "visit"}, {"body", {{"farm", "1"}, {"by", "2"}}}}, "TANO");
  const Json own = facade.say("journal.lost", {{"lost", "KOBO"}}, "KOBO");
  EXPECT_TRUE(problem(own, "lost-is-this-device").is_null()) << "nothing of KOBO is here yet";
  const Json loss = facade.say("journal.lost", {{"lost", "TANO"}}, "KOBO");
  const Json strike = facade.say("journal.strike", {{"events", {loss["events"][0]["id"]}}});
  EXPECT_FALSE(problem(strike, "never-struck").is_null());
  const Json self = facade.say("journal.lost", {{"lost", "KOBO"}}, "KOBO");
  EXPECT_FALSE(problem(self, "lost-is-this-device").is_null());
}

TEST(JournalScenario, ANoteWithoutAnythingAndANameInThePlaceOfACodeAreRefused) {
  Facade facade;
  const Json empty = facade.note("reading", {{"batch", "B1"}, {"half", "morning"}});
  EXPECT_FALSE(problem(empty, "note-says-nothing").is_null());
  const Json named = facade.note("visit", {{"farm", "1"}, {"by", "Tamola of the mill"}});
  EXPECT_EQ(problem(named, "code-unreadable")["field"], "/body/by");
}

// Two devices with one code: striking by that number would take both notes.
TEST(JournalScenario, ANumberThatTwoNotesShareIsNotStruck) {
  Facade facade;
  facade.note("visit", {{"farm", "1"}, {"by", "2"}});
  Facade twin;
  facade.append(twin.note("visit", {{"farm", "6"}, {"by", "3"}})["events"]);
  const Json strike = facade.say("journal.strike", {{"events", {"KOBO-1"}}});
  EXPECT_FALSE(problem(strike, "event-id-shared").is_null());
}

TEST(JournalScenario, ASlipIsSaidBackAndTheNoteIsKeptAllTheSame) {
  Facade facade = with_practice_season();
  struct Case {
    const char* kind;
    Json body;
    const char* day;
    const char* code;
  };
  facade.note("batch", {{"label", "B1"}, {"recipe", "lactic-serum"}, {"vessel", "A"}});
  const std::vector<Case> slips{
      {"visit", {{"farm", "3"}, {"by", "7"}}, "2028-03-01", "day-far"},
      {"visit", {{"farm", "3"}, {"by", "7"}}, "2017-03-01", "day-far"},
      {"handed-out",
       {{"farm", "33"}, {"product", "serum"}, {"amount", "1 L"}},
       "",
       "code-not-noted"},
      {"lost", {{"batch", "B11"}}, "", "code-not-noted"},
      {"batch", {{"label", "B2"}, {"vessel", "AA"}}, "", "code-not-noted"},
      {"paid-in", {{"member", "3"}, {"what", "dues"}, {"money", "20"}}, "", ""}};
  std::size_t notes = facade.ask("journal.list", Json::object())["notes"].size();
  for (const Case& slip : slips) {
    const Json answer = facade.note(slip.kind, slip.body, slip.day);
    const std::string code =
        answer["problems"].empty() ? "" : answer["problems"][0]["code"].get<std::string>();
    EXPECT_EQ(code, slip.code) << slip.kind << " " << slip.body;
    EXPECT_EQ(facade.ask("journal.list", Json::object())["notes"].size(), ++notes);
  }
  const Json near = problem(facade.note("lost", {{"batch", "B11"}}), "code-not-noted");
  EXPECT_NE(near["cure"].get<std::string>().find("B1"), std::string::npos) << near;
}

TEST(JournalScenario, MoneyBeforeAnyCurrencyIsSaidBack) {
  Facade facade;
  const Json body{{"member", "3"}, {"what", "dues"}, {"money", "20"}};
  EXPECT_FALSE(problem(facade.note("paid-in", body), "money-without-currency").is_null());
  facade.note("season", {{"currency", "c"}});
  EXPECT_TRUE(problem(facade.note("paid-in", body), "money-without-currency").is_null());
}

TEST(JournalScenario, ANumberIsKeptAsItsText) {
  Facade facade;
  const Json answer = facade.say(
      "journal.add",
      {{"kind", "reading"}, {"body", {{"batch", "B1"}, {"half", "morning"}, {"ph", 4.5}}}});
  ASSERT_EQ(answer["events"].size(), 1U) << answer["problems"];
  EXPECT_EQ(answer["events"][0]["body"]["ph"], "4.5");
}

TEST(JournalScenario, ListAboutFindsEveryNoteThatNamesIt) {
  Facade facade = with_practice_season();
  facade.note("batch",
              {{"label", "B1"}, {"recipe", "lactic-serum"}, {"vessel", "A"}, {"farm", "7"}});
  facade.note("step", {{"batch", "B1"}, {"step", "strain"}});
  facade.note("handed-out",
              {{"farm", "3"}, {"product", "serum"}, {"amount", "1 L"}, {"batch", "B1"}});
  facade.note("handed-out",
              {{"farm", "3"}, {"product", "serum"}, {"amount", "1 L"}, {"batch", "B10"}});
  std::vector<std::string> kinds;
  const Json found = facade.ask("journal.list", {{"about", "B1"}});
  for (const Json& note : found["notes"]) kinds.push_back(note["kind"]);
  EXPECT_EQ(kinds, (std::vector<std::string>{"batch", "step", "handed-out"}));
}

TEST(JournalScenario, AListOverYearsSaysTheYear) {
  Facade facade;
  facade.note("visit", {{"farm", "3"}, {"by", "7"}}, "2026-03-01");
  facade.note("visit", {{"farm", "3"}, {"by", "7"}}, "2027-02-01");
  const std::string page = facade.ask("journal.list", {{"pages", true}})["pages"].dump();
  EXPECT_NE(page.find("1 March 2026"), std::string::npos) << page;
  EXPECT_EQ(page.find("2027"), std::string::npos);
}

TEST(JournalScenario, AVesselWhoseFarmIsGoneStopsNoPlan) {
  Facade facade = with_practice_season();
  facade.note("member", {{"member", "M7"}, {"farm", "7"}});
  facade.note("left", {{"member", "M7"}, {"farm", "7"}}, "2027-02-21");
  const Json left = facade.ask("season.plan", Json::object());
  EXPECT_TRUE(left.contains("batches")) << left["problems"];
  facade.say("journal.forget", {{"member", "M7"}});
  const Json plan = facade.ask("season.plan", Json::object());
  ASSERT_TRUE(plan.contains("batches")) << plan["problems"];
  const Json said = problem(plan, "vessel-without-farm");
  ASSERT_FALSE(said.is_null());
  for (const Json& batch : plan["batches"]) EXPECT_NE(batch["vessel"], said["value"]);
}

TEST(JournalScenario, WhatStopsThePlanIsNamedByItsNote) {
  Facade facade = with_practice_season();
  facade.note("field", {{"farm", "3"}, {"crop", "maize"}, {"area", "0.5 acre"}});
  const Json noted = facade.note("farm", {{"code", "3"}, {"place", "nowhere"}});
  const Json plan = facade.ask("season.plan", Json::object());
  const Json said = problem(plan, "place-unknown");
  ASSERT_FALSE(said.is_null()) << plan["problems"];
  EXPECT_EQ(said["field"], "/notes/" + noted["events"][0]["id"].get<std::string>() + "/place");
}

TEST(JournalScenario, ADamagedNoteIsNamedAndItsNumberIsNotUsedAgain) {
  Facade facade;
  const Json first = facade.note("visit", {{"farm", "3"}, {"by", "7"}});
  Facade later;
  const Json appended = Json::parse(later.core().call(
      "append", Json{{"events", first["events"]}, {"damaged", {"KOBO-2", "TANO-9"}}}.dump()));
  EXPECT_EQ(appended["added"], 1);
  const Json next = later.note("visit", {{"farm", "4"}, {"by", "7"}});
  EXPECT_EQ(next["events"][0]["id"], "KOBO-3");
  const Json verified = later.ask("journal.verify", Json::object());
  EXPECT_EQ(verified["damaged"], (Json{"KOBO-2", "TANO-9"}));
  EXPECT_FALSE(problem(verified, "store-note-damaged").is_null());
}

TEST(JournalScenario, RemarksAreShownBeforeTheyLeaveAndAfterForgetting) {
  Facade facade;
  facade.note("member", {{"member", "9"}, {"farm", "9"}});
  facade.note("name", {{"member", "9"}, {"name", "Sefi Amara"}});
  const Json visit =
      facade.note("visit", {{"farm", "3"}, {"by", "7"}, {"note", "Sefi's can leaks"}});
  facade.note("visit", {{"farm", "4"}, {"by", "7"}, {"note", "leaves darker"}});
  EXPECT_EQ(facade.ask("journal.pack", Json::object())["remarks"].size(), 2U);
  const Json forgotten =
      facade.ask("journal.forget", {{"member", "9"}, {"device", "KOBO"}, {"clock", 1804400000}});
  ASSERT_EQ(forgotten["remarks"].size(), 1U) << forgotten;
  EXPECT_EQ(forgotten["remarks"][0]["id"], visit["events"][0]["id"]);
}

}  // namespace
}  // namespace wheyfield
