// How long the picking of what is eaten raw waits.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::crop_uses;
using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanPicking = testing::PlanScenario;

TEST_F(SeasonPlanPicking, LeavesOfACropEatenRawAreClosedFromFloweringOn) {
  Json season = practice();
  season["farms"][1]["fields"][1].erase("method");  // farm 2, tomato by knapsack all season
  season["farms"][1]["fields"][1].erase("per_plant");
  season["farms"][1]["fields"][1].erase("spacing");
  bool said = false;
  const Json plan = facade.plan(season);
  for (const Json& line : plan["doses"])
    if (line["farm"] == "2" && line["crop"] == "tomato")
      said = line["text"].get<std::string>().find("from flowering on only to the soil") !=
             std::string::npos;
  EXPECT_TRUE(said);
}

// Kale of farm 3: leafy branch, set out 22 March, first picking 40 days later, 1 May. Leaves spread
// until 19 April; 14 days later is 3 May, and 17 April is the last day that leaves 1 May free.
TEST_F(SeasonPlanPicking, AUseOnLeavesThatTheFirstPickingCannotWaitForIsAskedAbout) {
  const Json plan = facade.plan(practice(), true);
  std::vector<std::string> asked;
  for (const Json& problem : plan["problems"])
    if (problem["code"] == "picking-before-wait") asked.push_back(problem["field"]);
  EXPECT_EQ(asked.size(), 5u);  // farms 3, 10, 14, 18, 23
  const Json found = testing::problem(plan, "picking-before-wait");
  EXPECT_EQ(found["severity"], "question");
  EXPECT_EQ(found["field"], "/farms/2/fields/1/harvest_after");
  EXPECT_EQ(found["value"], "2027-05-01");
  for (const char* part : {"leaves spreading", "14 to 19 Apr", "14 days", "from Mon 3 May on"})
    EXPECT_NE(found["expected"].get<std::string>().find(part), std::string::npos) << found;
  EXPECT_NE(found["cure"].get<std::string>().find("by Sat 17 Apr"), std::string::npos) << found;
  const Json kale = crop_uses(plan, "3", "kale");
  EXPECT_EQ(kale.back()["pick_from"], "2027-05-03");
  EXPECT_TRUE(kale[0]["pick_from"].is_null());
  for (const Json& line : plan["doses"]) {
    if (line["farm"] == "3" && line["crop"] == "kale") {
      EXPECT_NE(line["text"].get<std::string>().find("Pick from Mon 3 May on, 14 days after"),
                std::string::npos)
          << line;
    }
  }
  const std::string day = kale.back()["collect_on"];
  EXPECT_NE(page(plan, "meeting-" + day)->dump().find("kale: pick from Mon 3 May on"),
            std::string::npos);
}

TEST_F(SeasonPlanPicking, LeavesEatenRawThatTouchSoilRoundTheStemHaveNoDayToPick) {
  Json season = practice();
  Json& kale = season["farms"][2]["fields"][1];
  kale["method"] = "round-stem";
  kale["per_plant"] = "200 mL";
  kale["spacing"] = "60 x 60 cm";
  const Json plan = facade.plan(season);
  std::string noted;
  for (const Json& problem : plan["problems"]) {
    EXPECT_NE(problem["field"], "/farms/2/fields/1/harvest_after") << problem;
    if (problem["code"] == "ground-eaten-raw-planned" &&
        problem["field"] == "/farms/2/fields/1/crop")
      noted = problem["cure"];
  }
  EXPECT_NE(noted.find("120 days, and the first picking was expected on Sat 1 May"),
            std::string::npos)
      << noted;
}

// Two days of growth before the first picking: no day is early enough.
TEST_F(SeasonPlanPicking, WhereNoDayIsEarlyEnoughTheCureNamesNone) {
  Json season = practice();
  season["farms"][2]["fields"][1]["harvest_after"] = "25 days";
  const Json plan = facade.plan(season);
  Json found;
  for (const Json& problem : plan["problems"])
    if (problem["field"] == "/farms/2/fields/1/harvest_after" &&
        problem["code"] != "harvest-far-from-table")
      found = problem;
  ASSERT_FALSE(found.is_null());
  EXPECT_EQ(found["code"], "picking-before-wait-always");
  EXPECT_EQ(found["cure"].get<std::string>().find("use it by"), std::string::npos);
}

}  // namespace
}  // namespace wheyfield
