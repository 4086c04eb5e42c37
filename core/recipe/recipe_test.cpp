#include "recipe/recipe.h"

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <nlohmann/json.hpp>

namespace wheyfield::recipe {
namespace {

using nlohmann::json;

json written() { return testing::recipe_json("lactic-serum"); }

std::string first_problem(const json& recipe) {
  const auto read = parse(recipe, "/recipe");
  return read ? "" : read.error()[0].code + " " + read.error()[0].field;
}

TEST(RecipeParse, TheStepsAreReadInWorkingOrder) {
  std::string order;
  for (const Step& step : testing::lactic_serum().steps) order += step.id + " ";
  EXPECT_EQ(order, "soak stand milk strain mix ");
}

// Source: common practice: 1 + 5 + 5 days, the rest on the same day.
TEST(RecipeParse, TheLikelyWindowsInAWarmPlaceSumToElevenDays) {
  int days = 0;
  for (const Step& step : testing::lactic_serum().steps) days += step.warm.likely;
  EXPECT_EQ(days, 11);
}

TEST(RecipeParse, NoStepIsShorterInACoolPlaceAndTheWaitingStepsAreWindows) {
  int windows = 0;
  for (const Step& step : testing::lactic_serum().steps) {
    EXPECT_GE(step.cool.early, step.warm.early) << step.id;
    EXPECT_GE(step.cool.likely, step.warm.likely) << step.id;
    EXPECT_GE(step.cool.late, step.warm.late) << step.id;
    windows += step.warm.early < step.warm.late && step.cool.early < step.cool.late;
  }
  EXPECT_EQ(windows, 2);
}

TEST(RecipeParse, APartOfADayIsRefusedNeverCutOff) {
  json recipe = written();
  recipe["steps"][1]["windows"]["warm"]["likely"] = 4.5;
  EXPECT_EQ(first_problem(recipe), "not-a-count /recipe/steps/1/windows/warm/likely");
  recipe = written();
  recipe["steps"][1]["windows"]["cool"]["keeps"] = 1e300;
  EXPECT_EQ(first_problem(recipe), "not-a-count /recipe/steps/1/windows/cool/keeps");
  recipe = written();
  recipe["steps"][0]["tasks"][0]["day"] = 0.5;
  EXPECT_EQ(first_problem(recipe), "not-a-count /recipe/steps/0/tasks/0/day");
}

TEST(RecipeParse, OnlyTheMilkStandsInASeasonVessel) {
  const Recipe serum = testing::lactic_serum();
  EXPECT_EQ(serum.steps[static_cast<std::size_t>(serum.vessel_step())].id, "milk");
}

TEST(RecipeParse, EveryByProductHasARecordedFateThatIsACaution) {
  int by_products = 0;
  for (const Material& material : testing::lactic_serum().materials) {
    if (material.role != Role::by_product) continue;
    ++by_products;
    EXPECT_EQ(testing::bundle().cautions().count(material.fate), 1u) << material.id;
  }
  EXPECT_EQ(by_products, 4);  // soaked rice, surface film, starch sediment, curd
}

TEST(RecipeParse, EveryCautionNamedByAStepOrTaskExists) {
  for (const Step& step : testing::lactic_serum().steps) {
    for (const std::string& id : step.cautions)
      EXPECT_EQ(testing::bundle().cautions().count(id), 1u) << id;
    for (const TaskTemplate& task : step.tasks)
      for (const std::string& id : task.cautions)
        EXPECT_EQ(testing::bundle().cautions().count(id), 1u) << id;
  }
}

TEST(RecipeParse, TheMilkIsCalledForTheDayBefore) {
  for (const Step& step : testing::lactic_serum().steps)
    for (const TaskTemplate& task : step.tasks)
      if (task.id == "milk-call") {
        EXPECT_EQ(task.day, -1);
        EXPECT_FALSE(task.at_end);
        EXPECT_EQ(task.who, Who::trainer);
        return;
      }
  FAIL() << "no task calls for milk";
}

TEST(RecipeParse, AMissingNumberIsNamedWithItsPlace) {
  json recipe = written();
  recipe["steps"][2]["windows"]["warm"].erase("late");
  EXPECT_EQ(first_problem(recipe), "data-missing /recipe/steps/2/windows/warm/late");
  recipe = written();
  recipe["steps"][0]["takes"][1].erase("ratio");
  EXPECT_EQ(first_problem(recipe).rfind("data-missing /recipe/steps/0/takes/1/ratio", 0), 0u);
  recipe = written();
  recipe["steps"][4].erase("labour_hours");
  EXPECT_EQ(first_problem(recipe).rfind("data-missing /recipe/steps/4/labour_hours", 0), 0u);
}

TEST(RecipeParse, ARangeThatDoesNotHoldItsValueIsRefused) {
  json recipe = written();
  recipe["steps"][3]["gives"][0]["ratio"]["high"] = 0.4;
  EXPECT_EQ(first_problem(recipe), "data-range /recipe/steps/3/gives/0/ratio");
}

TEST(RecipeParse, AnUnknownWordIsRefusedAndTheKnownOnesAreListed) {
  json recipe = written();
  recipe["materials"][0]["role"] = "spice";
  const auto read = parse(recipe, "/recipe");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error()[0].code, "recipe-word-unknown");
  EXPECT_EQ(read.error()[0].field, "/recipe/materials/0/role");
  EXPECT_NE(read.error()[0].details.at("known").find("by-product"), std::string::npos);
}

TEST(RecipeParse, SomethingThatIsNoRecipeIsRefused) {
  for (const json& text : {json(), json(7), json::array(), json("lactic-serum"), json::object()})
    EXPECT_EQ(first_problem(text), "data-missing /recipe/id");
}

}  // namespace
}  // namespace wheyfield::recipe
