// What is done, brought and handed out on which day.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <map>

#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanMeetings = testing::PlanScenario;

TEST_F(SeasonPlanMeetings, WaterStandsAndMilkIsCalledTheDayBefore) {
  const Json plan = facade.plan(practice());
  const Json& first = plan["batches"][0];
  std::map<std::string, std::string> dated;
  for (const Json& task : plan["tasks"])
    if (task["batch"] == first["id"]) dated[task["task"]] = task["date"];
  EXPECT_EQ(dated["stand-tap-water"], "2027-03-03");
  EXPECT_EQ(dated["start-soak"], "2027-03-04");
  EXPECT_EQ(dated["cook-rice"], "2027-03-05");
  EXPECT_EQ(dated["milk-call"], "2027-03-10");
  EXPECT_EQ(dated["join-milk"], "2027-03-11");
  EXPECT_EQ(dated["strain-measure"], "2027-03-18");
  EXPECT_EQ(dated["close-caps"], "2027-04-01");  // loose for two weeks
}

TEST_F(SeasonPlanMeetings, EachMeetingHasAPageAndAnAbsentFarmIsKeptFor) {
  const Json plan = facade.plan(practice(), true);
  ASSERT_NE(page(plan, "meeting-2027-03-18"), nullptr);
  EXPECT_EQ(page(plan, "meeting-2027-03-25"), nullptr);  // holiday
  const std::string april = page(plan, "meeting-2027-04-15")->dump();
  EXPECT_NE(april.find("Farm 10 said it will be absent"), std::string::npos);
}

// B2, raw milk of 18 March at 16.9 C, is ready by forecast in four days. No meeting on 25 March,
// and that of 1 April is a day after it stands well: it takes its molasses on Monday.
TEST_F(SeasonPlanMeetings, WhatIsNeededOnADayWithoutMeetingIsBroughtToTheMeetingBefore) {
  const Json plan = facade.plan(practice(), true);
  std::map<std::string, double> brought, taken;
  for (const Json& meeting : plan["meetings"])
    for (const Json& bring : meeting["bring"]) {
      brought[bring["item"]] += bring["amount"].get<double>();
      EXPECT_GE(bring["on"].get<std::string>(), meeting["date"].get<std::string>());
    }
  for (const Json& batch : plan["batches"])
    for (const Json& input : batch["inputs"])
      if (brought.count(input["material"]))
        taken[input["material"]] += input["amount"].get<double>();
  EXPECT_EQ(brought.size(), 3u);  // rice, milk, molasses
  for (const auto& [item, amount] : taken) EXPECT_NEAR(amount, brought[item], 1e-6) << item;
  const std::string text = page(plan, "meeting-2027-03-18")->dump();
  EXPECT_NE(text.find("molasses for B2, needed on Mon 22 Mar"), std::string::npos) << text;
}

// B5 of the practice season takes 0.525 kg of rice: to the gram on every page.
TEST_F(SeasonPlanMeetings, AnAmountIsRoundedAlikeOnEveryPage) {
  const Json plan = facade.baseline(practice(), true);
  int looked = 0;
  for (const Json& batch : plan["batches"]) {
    if (batch["inputs"][0]["amount"] != 0.525) continue;
    ++looked;
    const std::string id = batch["id"];
    EXPECT_NE(page(plan, "batches")->dump().find("Takes 0.525 kg rice"), std::string::npos) << id;
    for (const Json& meeting : plan["meetings"])
      for (const Json& bring : meeting["bring"])
        if (bring["batch"] == id && bring["item"] == "rice") {
          const Json* day = page(plan, "meeting-" + meeting["date"].get<std::string>());
          EXPECT_NE(day->dump().find("0.525 kg rice for " + id), std::string::npos);
        }
  }
  EXPECT_GT(looked, 0);
  EXPECT_EQ(plan.dump().find("0.53 kg"), std::string::npos);
}

// A cup holds 0.25 L: 4 L are 16 cups and 3.5 L are 14.
TEST_F(SeasonPlanMeetings, AMilkCallCountsItsOwnCups) {
  const std::string tasks = page(facade.baseline(practice(), true), "tasks")->dump();
  EXPECT_NE(tasks.find("B1: 4 L of milk is 16 cups, or 200 c"), std::string::npos);
  EXPECT_NE(tasks.find("B6: 3.5 L of milk is 14 cups, or 140 c"), std::string::npos);
  EXPECT_EQ(tasks.find("40 cups"), std::string::npos);
}

// What one farm gets is measured out in mL, on every page.
TEST_F(SeasonPlanMeetings, AFarmsShareIsInMillilitresAndTheGroupsSumInLitres) {
  const Json plan = facade.plan(practice(), true);
  const std::string meeting = page(plan, "meeting-2027-03-18")->dump();
  EXPECT_NE(meeting.find("\"18\",\"land preparation, seed soak\",\"608\""), std::string::npos)
      << meeting;
  EXPECT_NE(meeting.find("17 farms, 2.058 L to hand out"), std::string::npos);
  EXPECT_NE(page(plan, "uses")->dump().find("608 mL serum a use against 150 mL"),
            std::string::npos);
}

}  // namespace
}  // namespace wheyfield
