// The trainer's question before the season: how many buckets, started when, so that nobody waits?
// Who is short, what binds, what cures it, and what low yields would leave short.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <algorithm>

#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanShortage = testing::PlanScenario;

// Practice season item 18, recomputed by hand: 9.5 acres x 200 mL + 2.125 acres x 810 mL.
TEST_F(SeasonPlanShortage, TheShortWeekNamesUseDayLitresAndWhatBinds) {
  const Json plan = facade.plan(practice());
  ASSERT_EQ(plan["shortages"].size(), 1u);
  const Json& shortage = plan["shortages"][0];
  EXPECT_EQ(shortage["use"], "land-preparation");
  EXPECT_EQ(shortage["collect_on"], "2027-03-11");
  EXPECT_NEAR(shortage["short_ml"].get<double>(), 9.5 * 200 + 2.125 * 810, 2.0);
  EXPECT_EQ(shortage["due_ml"], shortage["short_ml"]);
  EXPECT_EQ(shortage["binds"], Json::array({"time"}));
  EXPECT_EQ(plan["cure_start"], "2027-02-25");
  EXPECT_FALSE(plan["season"]["feasible"]);
}

// With hardly any milk everything is short; each shortage has the words of its own fields.
TEST_F(SeasonPlanShortage, AShortageIsNamedAfterWhatItsFieldsWaitFor) {
  Json season = practice();
  for (Json& rule : season["milk"]) rule["most"] = "0.3 L";
  const Json plan = facade.plan(season);
  bool leaves = false;
  for (const Json& shortage : plan["shortages"]) {
    Json events = Json::array();
    for (const Json& use : plan["uses"])
      if (use["collect_on"] == shortage["collect_on"] && use["use"] == shortage["use"] &&
          use["short_ml"] > 0 &&
          std::find(events.begin(), events.end(), use["event"]) == events.end())
        events.push_back(use["event"]);
    EXPECT_EQ(shortage["events"], events) << shortage;
    if (std::find(events.begin(), events.end(), "leaf-growth") == events.end()) continue;
    leaves = true;
    EXPECT_EQ(shortage["use"], "flowering");
    EXPECT_NE(shortage["text"].get<std::string>().find("leaves spreading"), std::string::npos);
  }
  EXPECT_TRUE(leaves);
}

// Whether to start earlier, find milk or let farms go without is a person's to decide.
TEST_F(SeasonPlanShortage, AShortSeasonIsAQuestionAndAServedOneAsksNothing) {
  Json season = practice();
  const Json plan = facade.plan(season);
  season["season"]["first_start"] = plan["cure_start"];
  const Json cured = facade.plan(season);
  const auto questions = [](const Json& answer) {
    Json codes = Json::array();
    for (const Json& problem : answer["problems"])
      if (problem["severity"] == "question") codes.push_back(problem["code"]);
    return codes;
  };
  EXPECT_EQ(questions(plan)[0], "season-short");
  for (const Json& code : questions(cured)) EXPECT_EQ(code, "picking-before-wait");
}

TEST_F(SeasonPlanShortage, TheQuestionNamesTheStartThatCuresOrSaysThatNoneWasFound) {
  Json season = practice();
  Json checked = facade.ask("season.check", {{"season", season}});
  EXPECT_EQ(checked["cure_start"], "2027-02-25");
  EXPECT_NE(testing::problem(checked, "season-short")["cure"].get<std::string>().find(
                "start on Thu 25 Feb instead of Thu 4 Mar"),
            std::string::npos);
  season["milk"] = Json::array({season["milk"][0]});
  season["milk"][0]["most"] = "0.1 L";
  checked = facade.ask("season.check", {{"season", season}});
  EXPECT_GT(checked["short_ml"], 0);
  EXPECT_TRUE(checked["cure_start"].is_null());
  const std::string cure = testing::problem(checked, "season-short")["cure"];
  EXPECT_NE(cure.find("No start up to 60 days earlier was found"), std::string::npos) << cure;
}

TEST_F(SeasonPlanShortage, TheCureWrittenIntoTheFileMakesThePlanFeasible) {
  Json season = practice();
  season["season"]["first_start"] = facade.plan(season)["cure_start"];
  const Json plan = facade.plan(season);
  EXPECT_TRUE(plan["season"]["feasible"]);
  EXPECT_TRUE(plan["shortages"].empty());
  const Json& first = plan["batches"][0];
  EXPECT_EQ(first["start"], "2027-02-25");
  EXPECT_EQ(first["steps"][2]["from"], "2027-03-04");  // the milk goes in
  EXPECT_EQ(first["stored_ml"], 4000);                 // 4 L milk: all that can be had
  EXPECT_EQ(first["ready"], "2027-03-11");
}

TEST_F(SeasonPlanShortage, WhereEverythingIsBrewedInTheCoolPlaceTheStartIsEarlierStill) {
  const Json warm = facade.plan(practice());
  const Json cool = facade.plan(practice("practice-cool"));
  ASSERT_FALSE(cool["cure_start"].is_null());
  EXPECT_LT(cool["cure_start"].get<std::string>(), warm["cure_start"].get<std::string>());
  for (const Json& batch : cool["batches"]) EXPECT_EQ(batch["steps"][2]["place"], "cool");
}

// By hand: raw milk at 16.9 C is ready by forecast in five days and strained at the meeting on the
// seventh. 4 L of it on 4 March serve the 3.62 L of 11 March; its rice was soaked 1 + 9 days
// before, by the taught days of a cool place, in February and so within the months entered.
TEST_F(SeasonPlanShortage, TheCoolSeasonIsServedFromTheStartFoundByHand) {
  Json season = practice("practice-cool");
  const Json late = facade.plan(season);
  EXPECT_EQ(late["cure_start"], "2027-02-22");
  EXPECT_TRUE(wheyfield::testing::problem(late, "days-without-months").is_null());
  season["season"]["first_start"] = "2027-02-22";
  const Json plan = facade.plan(season);
  EXPECT_TRUE(plan["shortages"].empty());
  EXPECT_EQ(plan["batches"][0]["steps"][2]["from"], "2027-03-04");
  EXPECT_EQ(plan["batches"][0]["ready"], "2027-03-11");
}

// The same cure with the months entered from March on.
TEST_F(SeasonPlanShortage, ACureBeforeTheMonthsEnteredIsSaidToBeAGuess) {
  Json season = practice("practice-cool");
  for (Json& place : season["places"]) place["months"].erase(0);
  const Json late = facade.plan(season);
  EXPECT_EQ(late["cure_start"], "2027-02-22");
  EXPECT_EQ(wheyfield::testing::problem(late, "days-without-months")["value"], "2027-02-22");
}

TEST_F(SeasonPlanShortage, TheSummarySaysWhatIsMissingAtLowYields) {
  Json season = practice();
  season["season"]["first_start"] = "2027-02-25";
  const Json served = facade.plan(season, true);
  std::int64_t missing = 0;
  for (const Json& batch : served["batches"]) {
    const auto ml = batch["yield_ml"]["missing"].get<std::int64_t>();
    EXPECT_EQ(ml, std::max<std::int64_t>(0, batch["drawn_ml"].get<std::int64_t>() -
                                                batch["yield_ml"]["low"].get<std::int64_t>()));
    missing += ml;
  }
  ASSERT_GT(missing, 1000);
  std::string litres = std::to_string(missing);
  litres.insert(litres.size() - 3, ".");
  const std::string summary = page(served, "summary")->dump();
  EXPECT_NE(summary.find("if the batches give what is expected of them"), std::string::npos);
  EXPECT_NE(summary.find("give " + litres + " L less than is handed out of them"),
            std::string::npos)
      << litres << summary;
  EXPECT_EQ(summary.find("at the low end of the yields."), std::string::npos);
}

// A tenth of an acre takes 20 mL a use of a batch of half a litre: low yields are no matter.
TEST_F(SeasonPlanShortage, ASmallGroupIsServedAtLowYieldsToo) {
  Json season = practice();
  season["farms"] = Json::array({season["farms"][15]});  // farm 16, an acre of dressed maize
  season["farms"][0]["fields"][0]["area"] = "0.1 acre";
  season["vessels"] = Json::array({season["vessels"][0]});
  season["vessels"][0]["at"] = "16";
  season["absences"] = Json::array();
  season["season"]["first_start"] = "2027-02-22";
  const std::string summary = page(facade.plan(season, true), "summary")->dump();
  EXPECT_NE(summary.find("and at the low end of the yields."), std::string::npos) << summary;
}

// Started on 25 February all is served but what is kept for seed, when crops are dated by warmth.
TEST_F(SeasonPlanShortage, AShortageThatIsAGuessAboutSeedSaysSo) {
  Json season = practice();
  season["season"]["first_start"] = "2027-02-25";
  season["season"]["windows"] = "degree-days";
  const Json plan = facade.plan(season);
  ASSERT_EQ(plan["shortages"].size(), 1u) << plan["shortages"];
  EXPECT_EQ(plan["shortages"][0]["use"], "seed-soak");
  const std::string guess = "These litres are a guess by the acre";
  EXPECT_NE(plan["shortages"][0]["text"].get<std::string>().find(guess), std::string::npos);
  const Json measured = facade.plan(practice());
  EXPECT_EQ(measured["shortages"][0]["text"].get<std::string>().find(guess), std::string::npos);
}

}  // namespace
}  // namespace wheyfield
