#include "recipe/recipe.h"

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <nlohmann/json.hpp>

namespace wheyfield::recipe {
namespace {

using nlohmann::json;

json written() { return testing::recipe_json("lactic-serum"); }

Recipe parsed_recipe(const std::string& id) {
  return testing::value_or_abort(parse(testing::recipe_json(id), "/recipe"));
}

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

TEST(RecipeParse, EveryRecipeNamesItsBatchesByALetterOfItsOwn) {
  std::string letters;
  for (const std::string& id : testing::recipe_ids()) letters += parsed_recipe(id).letter;
  EXPECT_EQ(letters, "HTESFBMCP") << "the letters of the files in their order";
  json recipe = written();
  recipe.erase("letter");
  EXPECT_EQ(first_problem(recipe), "data-missing /recipe/letter");
}

TEST(RecipeParse, CompostStandsInNoCansSerumAndJuiceDo) {
  EXPECT_FALSE(parsed_recipe("compost-heap").stored());
  EXPECT_TRUE(parsed_recipe("lactic-serum").stored());
  EXPECT_TRUE(parsed_recipe("plant-juice").stored());
}

TEST(RecipeParse, AHeapIsToldFromABucketAndHasALeastAndAMostFill) {
  const auto stands = [](const char* id) {
    const Recipe recipe = parsed_recipe(id);
    return recipe.steps[static_cast<std::size_t>(recipe.vessel_step())];
  };
  EXPECT_EQ(stands("compost-heap").kind, VesselKind::heap);
  ASSERT_TRUE(stands("compost-heap").least_fill);
  EXPECT_EQ(stands("compost-heap").least_fill->value, 1000.0);
  EXPECT_EQ(stands("compost-heap").least_fill->unit, "L");
  ASSERT_TRUE(stands("compost-heap").most_fill);
  EXPECT_EQ(stands("compost-heap").most_fill->value, 1500.0);  // 1 m x 1 m x 1.5 m
  EXPECT_EQ(stands("compost-heap").most_fill->unit, "L");
  EXPECT_EQ(stands("plant-juice").kind, VesselKind::bucket);
  EXPECT_FALSE(stands("plant-juice").least_fill);
  EXPECT_FALSE(stands("plant-juice").most_fill);
  EXPECT_EQ(stands("lactic-serum").kind, VesselKind::bucket);  // where nothing is said
}

TEST(RecipeParse, AKindOfVesselNobodyKnowsAndAFillLimitWithoutSourceAreRefused) {
  json recipe = testing::recipe_json("compost-heap");
  recipe["steps"][2]["vessel_kind"] = "pit";
  EXPECT_EQ(first_problem(recipe), "recipe-word-unknown /recipe/steps/2/vessel_kind");
  recipe = testing::recipe_json("compost-heap");
  recipe["steps"][2]["least_fill"].erase("source");
  EXPECT_EQ(first_problem(recipe), "data-missing /recipe/steps/2/least_fill/source");
  recipe = testing::recipe_json("compost-heap");
  recipe["steps"][2]["least_fill"]["low"] = 1200;
  EXPECT_EQ(first_problem(recipe), "data-range /recipe/steps/2/least_fill");
  recipe = testing::recipe_json("compost-heap");
  recipe["steps"][2]["most_fill"].erase("kind");
  EXPECT_EQ(first_problem(recipe), "data-missing /recipe/steps/2/most_fill/kind");
}

// By hand: spreading 2 h, bringing 1.5 h, building 6 h, looking 0.5 h, seven turnings of 1.5 h,
// measuring 1 h; juice 2 + 0.5 + 1 + 0.5 h;
// serum 0.3 + 0.5 + 2 + 1.5 + 0.5 h.
TEST(RecipeParse, TheWorkOfABatchIsThatOfItsStepsAndOfTasksThatCountForThemselves) {
  EXPECT_NEAR(labour_hours(parsed_recipe("compost-heap")), 21.5, 1e-9);
  EXPECT_NEAR(labour_hours(parsed_recipe("plant-juice")), 4.0, 1e-9);
  EXPECT_NEAR(labour_hours(parsed_recipe("lactic-serum")), 4.8, 1e-9);
  json recipe = testing::recipe_json("compost-heap");
  recipe["steps"][2]["tasks"][1]["hours"].erase("high");
  EXPECT_EQ(first_problem(recipe), "data-missing /recipe/steps/2/tasks/1/hours/high");
}

// Source: common practice: turned on days 4, 6 .. 16, ready on day 18.
TEST(RecipeParse, TheHeapIsTurnedSevenTimesEverySecondDayFromDayFour) {
  const Recipe heap = parsed_recipe("compost-heap");
  const Step& stands = heap.steps[static_cast<std::size_t>(heap.vessel_step())];
  std::string days;
  for (const TaskTemplate& task : stands.tasks)
    if (task.id == "turn-heap" && task.hours) days += std::to_string(task.day) + " ";
  EXPECT_EQ(days, "4 6 8 10 12 14 16 ");
  EXPECT_EQ(stands.warm.likely, 18);
}

// Work before the first step would be asked for before a batch starts.
TEST(RecipeParse, TheHeapAndTheJuiceAskForNothingBeforeTheirFirstDay) {
  for (const char* id : {"compost-heap", "plant-juice"}) {
    const Recipe recipe = parsed_recipe(id);
    for (const bool cool : {false, true}) {
      int day = 0;
      for (const Step& step : recipe.steps) {
        const int end = day + (cool ? step.cool : step.warm).early;
        for (const TaskTemplate& task : step.tasks)
          EXPECT_GE((task.at_end ? end : day) + task.day, 0) << id << " " << task.id;
        day = end;
      }
    }
  }
}

TEST(RecipeParse, EveryCautionARecipeNamesExists) {
  for (const std::string& id : testing::recipe_ids()) {
    const Recipe recipe = parsed_recipe(id);
    EXPECT_FALSE(recipe.cautions.empty()) << id;
    std::vector<std::string> all = recipe.cautions;
    for (const Step& step : recipe.steps) {
      all.insert(all.end(), step.cautions.begin(), step.cautions.end());
      for (const TaskTemplate& task : step.tasks)
        all.insert(all.end(), task.cautions.begin(), task.cautions.end());
    }
    for (const Material& material : recipe.materials)
      if (material.role == Role::by_product) all.push_back(material.fate);
    for (const std::string& caution : all)
      EXPECT_EQ(testing::bundle().cautions().count(caution), 1u) << id << " " << caution;
  }
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
