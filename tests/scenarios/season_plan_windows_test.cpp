// When the uses are due: by the calendar, by warmth, by what was seen.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::days_wide;
using testing::Json;
using testing::page;
using testing::practice;
using testing::use_of;

using SeasonPlanWindows = testing::PlanScenario;

TEST_F(SeasonPlanWindows, TheFirstFlowerSeenShiftsAndNarrowsWhatFollows) {
  Json season = practice();
  const Json before = facade.plan(season);
  season["farms"][2]["fields"][0]["flower_or_swelling_on"] = "2027-05-03";  // farm 3, bean
  const Json after = facade.plan(season);
  EXPECT_EQ(use_of(after, "3", "flowering")["window"]["early"], "2027-05-03");
  for (const char* use : {"flowering", "first-fruit"})
    EXPECT_LT(days_wide(use_of(after, "3", use)), days_wide(use_of(before, "3", use))) << use;
  EXPECT_EQ(use_of(after, "3", "seedling"), use_of(before, "3", "seedling"));
}

// Sown on 22 March, rows forecast for day 7 and flowers for day 40: a flower on day 14 is no
// flower.
TEST_F(SeasonPlanWindows, AFlowerThatIsNotBelievedMovesNoUse) {
  Json season = practice();
  const Json before = facade.plan(season);
  season["farms"][2]["fields"][0]["flower_or_swelling_on"] = "2027-04-05";  // farm 3, bean
  const Json after = facade.plan(season);
  for (const char* use : {"seedling", "flowering", "first-fruit"})
    EXPECT_EQ(use_of(after, "3", use)["window"], use_of(before, "3", use)["window"]) << use;
  bool asked = false;
  for (const Json& problem : after["problems"])
    asked = asked || (problem["code"] == "observation-unbelievable" &&
                      problem["field"] == "/farms/2/fields/0/flower_or_swelling_on");
  EXPECT_TRUE(asked) << after["problems"];
}

TEST_F(SeasonPlanWindows, WindowsByDegreeDaysFollowTheWarmthOfThePlace) {
  Json season = practice();
  season["season"]["windows"] = "degree-days";
  const Json plan = facade.plan(season);
  // Maize at the lower farms (1,250 m), by warmth; cabbage has no row and keeps the calendar.
  EXPECT_EQ(use_of(plan, "1", "flowering")["road"], "degree-days");
  EXPECT_EQ(use_of(plan, "19", "flowering")["road"], "calendar");
  Json cooler = season;
  for (Json& month : cooler["places"][0]["months"]) {
    month["min"] = "10.0";
    month["max"] = "24.0";
  }
  const Json late = facade.plan(cooler);
  EXPECT_GT(use_of(late, "1", "flowering")["window"]["likely"].get<std::string>(),
            use_of(plan, "1", "flowering")["window"]["likely"].get<std::string>());
}

// Every farm of the practice season has a mix rate; only seed is not weighed.
TEST_F(SeasonPlanWindows, TheUsesPageExplainsItsStarOnlyWhereOneStands) {
  Json season = practice();
  const std::string starred = page(facade.plan(season, true), "uses")->dump();
  EXPECT_NE(starred.find(" * kept)"), std::string::npos) << starred;
  EXPECT_NE(starred.find("* Nobody measured"), std::string::npos) << starred;
  for (Json& farm : season["farms"])
    for (Json& field : farm["fields"])
      if (field.value("seed", "") == "own") field["seed_mass"] = "4 kg";
  const std::string measured = page(facade.plan(season, true), "uses")->dump();
  EXPECT_EQ(measured.find(" *"), std::string::npos) << measured;
  EXPECT_EQ(measured.find("Nobody measured"), std::string::npos) << measured;
}

TEST_F(SeasonPlanWindows, TheUsesPageSaysWhatTheTemperaturesWereUsedFor) {
  Json season = practice();
  const std::string calendar = page(facade.plan(season, true), "uses")->dump();
  EXPECT_NE(calendar.find("Used here for: how long the steps of batches take in its vessels."),
            std::string::npos)
      << calendar;
  EXPECT_EQ(calendar.find("the windows by degree-days"), std::string::npos);
  EXPECT_NE(calendar.find("windows = \\\"degree-days\\\""), std::string::npos) << calendar;
  season["season"]["windows"] = "degree-days";
  const std::string warmth = page(facade.plan(season, true), "uses")->dump();
  EXPECT_NE(warmth.find("the windows by degree-days"), std::string::npos) << warmth;
  EXPECT_EQ(warmth.find("To date crops by warmth"), std::string::npos);
}

// Farm 3, bean. The error of the temperatures is counted in a window by degree-days; what is seen
// takes it away again.
TEST_F(SeasonPlanWindows, AWindowByDegreeDaysIsWiderUntilSomethingIsSeen) {
  Json season = practice();
  const Json by_calendar = use_of(facade.plan(season), "3", "first-fruit");
  season["season"]["windows"] = "degree-days";
  const Json by_warmth = use_of(facade.plan(season), "3", "first-fruit");
  season["farms"][2]["fields"][0]["flower_or_swelling_on"] = "2027-05-03";
  const Json seen = use_of(facade.plan(season), "3", "first-fruit");
  EXPECT_EQ(by_warmth["road"], "degree-days");
  EXPECT_GT(days_wide(by_warmth), days_wide(by_calendar));
  EXPECT_LT(days_wide(seen), days_wide(by_warmth));
}

TEST_F(SeasonPlanWindows, AStationMovedByAltitudeStandsInForMonths) {
  Json season = practice();
  season["places"][0].erase("months");
  season["places"][0]["station"] = "nairobi";
  const Json plan = facade.plan(season, true);
  EXPECT_NE(page(plan, "uses")->dump().find("a listed station moved"), std::string::npos);
}

}  // namespace
}  // namespace wheyfield
