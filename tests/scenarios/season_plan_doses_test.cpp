// What each field takes, in caps, cans and litres, and the water it is mixed with.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::crop_uses;
using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanDoses = testing::PlanScenario;

// A blank row for each of the 24 farms: three runs, their mean and what comes out, and what the
// plan counts until then.
TEST_F(SeasonPlanDoses, TheRehearsalSheetHasABlankRowForEachFarm) {
  const Json plan = facade.plan(practice(), true);
  const Json* sheet = page(plan, "rehearsal");
  ASSERT_NE(sheet, nullptr);
  const Json* table = nullptr;
  for (const Json& block : (*sheet)["blocks"])
    if (block["kind"] == "table") table = &block;
  ASSERT_NE(table, nullptr);
  ASSERT_EQ((*table)["rows"].size(), 24u);
  ASSERT_EQ((*table)["columns"].size(), 9u);
  for (const Json& row : (*table)["rows"])
    for (std::size_t blank = 2; blank < 8; ++blank) EXPECT_EQ(row[blank], "_____");
  EXPECT_EQ((*table)["rows"][0][8], "100 measured");  // farm 1 of the practice season
}

// Common practice: an acre takes 200 mL in 100 L of water, five 20 L cans.
TEST_F(SeasonPlanDoses, AnAcreTakesTwoHundredMillilitresInFiveCans) {
  const Json plan = facade.plan(practice());
  const Json uses = crop_uses(plan, "16", "maize");
  ASSERT_EQ(uses.size(), 4u);  // dressed seed is never soaked
  for (const Json& use : uses) {
    EXPECT_EQ(use["serum_ml"], 200);
    EXPECT_NEAR(use["mix_l"].get<double>() / 20.0, 5.0, 1e-9);
  }
}

// Practice season item 10.
TEST_F(SeasonPlanDoses, RoundTheStemShowsPlantsCansAndTheSameFieldByKnapsack) {
  const Json plan = facade.plan(practice());
  for (const Json& dose : plan["doses"]) {
    if (dose["farm"] != "6" || dose["method"] != "round-stem") continue;
    EXPECT_EQ(dose["plants"], 2810);
    EXPECT_DOUBLE_EQ(dose["mix_l"], 562.0);
    EXPECT_EQ(dose["full_loads"], 28);
    EXPECT_EQ(dose["serum_ml"], 1124);
    EXPECT_EQ(dose["usual_ml"], 50);
    return;
  }
  FAIL() << "no dose line for farm 6 round the stem";
}

TEST_F(SeasonPlanDoses, AFarmSeesItsOwnCapAndCan) {
  const Json plan = facade.plan(practice());
  int own = 0, unmeasured = 0;
  for (const Json& dose : plan["doses"]) {
    const std::string text = dose["text"];
    if (dose["farm"] == "12") {
      ++own;
      EXPECT_NE(text.find("8 caps of 5 mL (40 mL) in 20 L"), std::string::npos) << text;
    }
    if (dose["farm"] == "14") {
      ++unmeasured;
      EXPECT_TRUE(dose["caps"].is_null());
      EXPECT_NE(text.find("measure it first"), std::string::npos) << text;
    }
  }
  EXPECT_EQ(own, 1);
  EXPECT_EQ(unmeasured, 2);
  const std::string doses = page(facade.plan(practice(), true), "doses")->dump();
  EXPECT_NE(doses.find("not measured has its dose in mL, by syringe"), std::string::npos);
  EXPECT_EQ(doses.find("has no dose line"), std::string::npos);
}

TEST_F(SeasonPlanDoses, ACanPouredAtALitreASquareMetreIsShownAsFortyTimesTheUsualPlan) {
  Json season = practice();
  season["farms"][0]["method"] = "can";
  season["farms"][0]["mix_rate"] = "1 L/m2";
  const Json plan = facade.plan(season, true);
  const Json use = crop_uses(plan, "1", "maize")[0];
  EXPECT_NEAR(use["serum_ml"].get<double>(), 8094, 1.0);  // 8.1 L an acre a use
  EXPECT_NEAR(use["serum_ml"].get<double>() / use["usual_ml"].get<double>(), 40.5, 0.1);
  EXPECT_NE(page(plan, "uses")->dump().find("203 cans to carry, as many trips"), std::string::npos);
}

// Practice season item 16: the lower tap is chlorinated, the upper river is not.
TEST_F(SeasonPlanDoses, ChlorinatedTapWaterForMixingStandsTheDayBefore) {
  const Json plan = facade.plan(practice(), true);
  const auto stands = [](const Json& line) {
    return line["text"].get<std::string>().find("stand the tap water open for 24 hours") !=
           std::string::npos;
  };
  int lower = 0;
  for (const Json& dose : plan["doses"]) {
    EXPECT_EQ(stands(dose), std::stoi(dose["farm"].get<std::string>()) <= 14) << dose["text"];
    lower += stands(dose);
  }
  EXPECT_GT(lower, 10);
  for (const Json& line : plan["soaks"])
    EXPECT_EQ(stands(line), std::stoi(line["farm"].get<std::string>()) <= 14) << line["text"];
  const auto said = [&](const std::string& task, const std::string& day) {
    for (const Json& one : plan["tasks"])
      if (one["task"] == task && one["date"] == day)
        for (const Json& caution : one["cautions"])
          if (caution == "mix-water-stands") return true;
    return false;
  };
  EXPECT_TRUE(said("hand-out-by-seed", "2027-03-18"));
  EXPECT_TRUE(said("hand-out", "2027-04-01"));
  EXPECT_NE(page(plan, "meeting-2027-03-18")->dump().find("the day before mixing"),
            std::string::npos);
  bool marked = false;
  for (const Json& source : plan["sources"])
    for (const Json& used_for : source["used_for"])
      marked = marked || (used_for == "water-stand-hours" && source["kind"] == "common-practice");
  EXPECT_TRUE(marked);
}

TEST_F(SeasonPlanDoses, RiverWaterIsMixedWithoutStanding) {
  Json season = practice();
  season["water"][0]["kind"] = "river";
  const std::string plan = facade.plan(season, true).dump();
  EXPECT_EQ(plan.find("stand the tap water"), std::string::npos);
  EXPECT_EQ(plan.find("mix-water-stands"), std::string::npos);
}

TEST_F(SeasonPlanDoses, ADoseLineSaysOfAWeedkillerSprayerAllThatTheCautionSays) {
  const Json plan = facade.plan(practice());
  std::string caution;
  for (const Json& one : plan["cautions"])
    if (one["id"] == "sprayer-weedkiller") caution = one["text"];
  for (const char* said : {"another way", "soap and water", "lance and hose"})
    EXPECT_NE(caution.find(said), std::string::npos) << said;
  int warned = 0;
  for (const Json& dose : plan["doses"]) {
    const std::string farm = dose["farm"], text = dose["text"];
    const bool held = (farm == "4" || farm == "2" || farm == "6" || farm == "9" || farm == "13") &&
                      dose["method"] == "knapsack";
    EXPECT_EQ(text.find(caution) != std::string::npos, held) << text;
    EXPECT_EQ(text.find("last held weedkiller") != std::string::npos, held) << text;
    warned += held;
  }
  EXPECT_GE(warned, 5);
}

}  // namespace
}  // namespace wheyfield
