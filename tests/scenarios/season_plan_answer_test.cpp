// What every plan holds: its parts, pages, sentences and sources, the same each time.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <algorithm>

#include <gtest/gtest.h>

#include "api/plan_page_ids.h"
#include "support/beside.h"
#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanAnswer = testing::PlanScenario;

TEST_F(SeasonPlanAnswer, EveryAnswerCarriesSchemaProblemsAndSources) {
  for (const auto& [action, body] : std::vector<std::pair<const char*, Json>>{
           {"recipe.list", Json::object()},
           {"schema", Json::object()},
           {"dose.mix", {{"water", "20 L"}, {"cap", "20 mL"}, {"strength", "1:500"}}},
           {"season.plan", {{"season", practice()}}},
           {"nonsense", Json::object()}}) {
    const Json answer = facade.ask(action, body);
    EXPECT_EQ(answer["schema"], 1) << action;
    EXPECT_TRUE(answer["problems"].is_array()) << action;
    EXPECT_TRUE(answer["sources"].is_array()) << action;
  }
}

TEST_F(SeasonPlanAnswer, WithoutASolverTheExactMethodIsRefusedAndNotQuietlyReplaced) {
  const Json answer = facade.ask("season.plan", {{"season", practice()}, {"method", "exact"}});
  EXPECT_FALSE(testing::problem(answer, "plan-method-not-here").is_null()) << answer["problems"];
  EXPECT_FALSE(answer.contains("batches"));
}

TEST_F(SeasonPlanAnswer, ThePlanHasEveryPartThatOthersRelyOn) {
  const Json plan = facade.plan(practice());
  for (const char* part : {"uses", "batches", "tasks", "shopping", "stock", "doses", "cost",
                           "cautions", "problems", "sources"})
    EXPECT_FALSE(plan.at(part).empty()) << part;
  EXPECT_EQ(plan["season"]["farms"], 24);
  EXPECT_EQ(plan["season"]["fields"], 37);
  EXPECT_DOUBLE_EQ(plan["season"]["acres"], 19.625);
}

TEST_F(SeasonPlanAnswer, ThePagesAreThoseThatAreKnownBeforeAnyPlanIsMade) {
  std::vector<std::string> ids;
  const Json plan = facade.plan(testing::with_juice_and_heap(practice()), true);
  for (const Json& one : plan["pages"]) {
    const std::string id = one["id"];
    EXPECT_TRUE(api::is_plan_page(id)) << id;
    const std::string named = id.rfind("meeting-", 0) == 0 ? "meeting-YYYY-MM-DD" : id;
    if (ids.empty() || ids.back() != named) ids.push_back(named);
  }
  EXPECT_EQ(ids, api::plan_page_ids());
}

TEST_F(SeasonPlanAnswer, EveryBatchStepIsAWindowAndNeverABareNumber) {
  const Json plan = facade.plan(practice());
  for (const Json& batch : plan["batches"])
    for (const Json& step : batch["steps"]) {
      const Json& ready = step["ready"];
      EXPECT_LE(ready["early"].get<std::string>(), ready["likely"].get<std::string>());
      EXPECT_LE(ready["likely"].get<std::string>(), ready["late"].get<std::string>());
      EXPECT_GE(step["to"].get<std::string>(), ready["late"].get<std::string>());
      EXPECT_LE(step["to"].get<std::string>(), step["stands_until"].get<std::string>());
    }
}

TEST_F(SeasonPlanAnswer, NoSentenceIsMissingFromTheCatalogue) {
  for (const char* name : {"practice", "practice-cool"}) {
    const std::string text = facade.plan(practice(name), true).dump();
    for (const char* family : {"\"[use.", "[task.", "[col.", "[crop.", "[caution.", "[item.",
                               "[step.", "[page.", "[summary.", "[dose.", "[problem.", "[cure."})
      EXPECT_EQ(text.find(family), std::string::npos) << name << ' ' << family;
  }
}

TEST_F(SeasonPlanAnswer, TheCandidLinesStandOnTheFirstPage) {
  const std::string text = page(facade.plan(practice(), true), "summary")->dump();
  EXPECT_NE(text.find("cups"), std::string::npos);
  EXPECT_NE(text.find("replaces no manure"), std::string::npos);
  EXPECT_NE(text.find("no field trial we found"), std::string::npos);
}

TEST_F(SeasonPlanAnswer, HeatedMilkIsShownBeforeRawAndEveryByProductHasAFate) {
  const Json plan = facade.plan(practice());
  std::vector<std::string> ids;
  for (const Json& caution : plan["cautions"]) ids.push_back(caution["id"]);
  ASSERT_GE(ids.size(), 2u);
  EXPECT_EQ(ids[0], "milk-heated-cooled");
  EXPECT_EQ(ids[1], "milk-raw");
  for (const char* fate : {"soaked-rice-fate", "curd-fate", "surface-film-fate", "starch-fate",
                           "failed-batch-fate", "open-bucket-child"})
    EXPECT_NE(std::find(ids.begin(), ids.end(), fate), ids.end()) << fate;
}

TEST_F(SeasonPlanAnswer, TheSameQuestionGivesTheSameBytes) {
  Facade other;
  const Json body = {{"season", practice()}, {"pages", true}};
  const std::string request = Json{{"action", "season.plan"}, {"body", body}}.dump();
  EXPECT_EQ(facade.core().call("call", request), other.core().call("call", request));
}

TEST_F(SeasonPlanAnswer, ZeroHasNoSign) {
  const Json request = {{"action", "season.plan"}, {"body", {{"season", practice()}}}};
  const std::string text = facade.core().call("call", request.dump());
  EXPECT_NE(text.find("\"off\":0.0"), std::string::npos);
  EXPECT_EQ(text.find(":-0.0,"), std::string::npos);
}

// How good is it, and what if a batch fails?
TEST_F(SeasonPlanAnswer, ThePlanSaysHowFarItIsFromTheCheapestAndHowItFaresInBadLuck) {
  const Json answer = facade.plan(practice(), true);
  const Json& plan = answer["plan"];
  EXPECT_EQ(plan["method"], "dynamic-programme");
  EXPECT_LE(plan["bound"].get<double>(), plan["cost"].get<double>());
  EXPECT_EQ(plan["gap"], 0.0);
  EXPECT_EQ(plan["least_short"], true);
  EXPECT_LT(plan["cost"].get<double>(), plan["baseline_cost"].get<double>());
  EXPECT_LE(answer["batches"].size(), facade.baseline(practice())["batches"].size());
  const Json& on_time = plan["on_time"];
  EXPECT_EQ(on_time["each_use"].size(), 5u);
  EXPECT_EQ(on_time["all_uses"], 0.0);  // the short week is short in every season
  EXPECT_GT(on_time["litres"].get<double>(), on_time["worst_twentieth"].get<double>());
  const std::string summary = page(answer, "summary")->dump();
  EXPECT_NE(summary.find("serves as much for less: proven"), std::string::npos);
  EXPECT_NE(summary.find("is a guess until 10 of your own batches"), std::string::npos);
}

// With the cure that the plan names, nothing is short by plan and few seasons are served in full by
// luck alone.
TEST_F(SeasonPlanAnswer, WithTheCureEveryUseIsServedByPlan) {
  Json season = practice();
  season["season"]["first_start"] = facade.plan(season)["cure_start"];
  const Json answer = facade.plan(season);
  EXPECT_TRUE(answer["shortages"].empty());
  EXPECT_GT(answer["plan"]["on_time"]["all_uses"].get<double>(), 0.0);
}

TEST_F(SeasonPlanAnswer, TheBaselineClaimsNothingAndAnUnknownMethodIsRefused) {
  const Json plan = facade.baseline(practice())["plan"];
  EXPECT_EQ(plan["method"], "baseline");
  EXPECT_TRUE(plan["gap"].is_null());
  const Json refused = facade.ask("season.plan", {{"season", practice()}, {"method", "guess"}});
  EXPECT_EQ(refused["problems"][0]["code"], "plan-method-unknown");
  EXPECT_EQ(refused["problems"][0]["value"], "guess");
}

}  // namespace
}  // namespace wheyfield
