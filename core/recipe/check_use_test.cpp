#include "recipe/check_use.h"

#include <functional>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::recipe {
namespace {

std::vector<outcome::Problem> found_in(const std::string& id,
                                       const std::function<void(Recipe&)>& plant) {
  Recipe recipe = testing::value_or_abort(parse(testing::recipe_json(id), "/recipe"));
  plant(recipe);
  return check_use(recipe, UseLimits::of(testing::bundle()));
}

// One mistake planted in a recipe: exactly it is told, with what was written and what was expected.
void expect_one(const std::string& id, const std::function<void(Recipe&)>& plant, const char* code,
                const char* field, const char* value, const char* limit) {
  const auto problems = found_in(id, plant);
  ASSERT_EQ(problems.size(), 1U) << code;
  EXPECT_EQ(problems[0].code, code);
  EXPECT_EQ(problems[0].field, field);
  EXPECT_EQ(problems[0].value, value);
  EXPECT_EQ(problems[0].details.at("limit"), limit);
}

TEST(RecipeCheckUse, TheRecipesOfTheProductCanBe) {
  for (const std::string& id : testing::recipe_ids())
    for (const outcome::Problem& problem : found_in(id, [](Recipe&) {}))
      ADD_FAILURE() << id << " " << problem.code << " " << problem.field;
}

// The judgement of this project on molasses and acid on leaves: no stronger than 1:250.
TEST(RecipeCheckUse, ARecipeOfItsOwnGoesNoStrongerThanOneTo250OnLeaves) {
  expect_one(
      "lactic-serum", [](Recipe& r) { r.use.strength->parts = 249; }, "recipe-too-strong",
      "/strength_parts", "1:249", "1:250");
  EXPECT_TRUE(found_in("lactic-serum", [](Recipe& r) { r.use.strength->parts = 250; }).empty());
  EXPECT_TRUE(found_in("lactic-serum", [](Recipe& r) {
                r.use.strength = Strength{50, Place::soil};
              }).empty());
  expect_one(
      "manure-tea", [](Recipe& r) { r.use.strength->parts = 0.5; }, "recipe-impossible",
      "/strength_parts", "0.5", ">= 1");
}

// 37.5 mL in a litre, 1:27, is the strongest that a trial put on leaves (pechay, Laguna 2021-22).
TEST(RecipeCheckUse, ABulletinsOneToFiveOnLeavesIsAMisprint) {
  const auto taught = [](double parts, Place on) {
    return [=](Recipe& r) {
      r.use.dilutions.front().parts.low = parts;
      r.use.dilutions.front().on = on;
    };
  };
  expect_one("eggshell-calcium", taught(5, Place::leaves), "recipe-dilution-impossible",
             "/dilutions/0/parts", "1:5", "1:27");
  EXPECT_TRUE(found_in("eggshell-calcium", taught(27, Place::leaves)).empty());
  EXPECT_TRUE(found_in("eggshell-calcium", taught(5, Place::soil)).empty());
  expect_one("eggshell-calcium", taught(0.2, Place::soil), "recipe-dilution-impossible",
             "/dilutions/0/parts", "1:0.2", "1:1");
}

// Shown weakest first, but told by its place in her file.
TEST(RecipeCheckUse, ADilutionIsNamedByItsPlaceInTheFile) {
  nlohmann::json file = testing::recipe_json("plant-juice");
  std::swap(file["dilutions"][0], file["dilutions"][3]);  // the trial's leaves, 1:67 to 1:27
  file["dilutions"][0]["parts"]["low"] = 5;
  const Recipe recipe = testing::value_or_abort(parse(file, "/recipe"));
  const auto problems = check_use(recipe, UseLimits::of(testing::bundle()));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].field, "/dilutions/0/parts");
}

// Protein is 16 % nitrogen; two e-extension texts print 90 % for fish amino acid.
TEST(RecipeCheckUse, NinetyPercentNitrogenIsImpossible) {
  const auto printed = [](double percent) {
    return [=](Recipe& r) {
      r.use.contents.push_back({"nitrogen", {percent, percent, percent, "%", {}}, ""});
    };
  };
  expect_one("fish-amino-acid", printed(90), "recipe-nitrogen-impossible", "/contents/0/percent",
             "90", "16");
  EXPECT_TRUE(found_in("fish-amino-acid", printed(16)).empty());
  expect_one("fish-amino-acid", printed(-1), "recipe-impossible", "/contents/0/percent", "-1",
             "0 .. 100");
}

// Sour whey averages 4.1 (Cornell 2017); hand-outs copy "pH of 2".
TEST(RecipeCheckUse, AMilkSerumOfPhTwoIsImpossible) {
  expect_one(
      "lactic-serum", [](Recipe& r) { r.use.ph->low = 2.0; }, "recipe-ph-impossible", "/ph", "2",
      "3 .. 9");
  expect_one(
      "lactic-serum", [](Recipe& r) { r.steps[2].forecast->ready_ph.low = 2.0; },
      "recipe-ph-impossible", "/steps/2/forecast/ready_ph", "2", "3 .. 9");
}

TEST(RecipeCheckUse, AShelfLifeOfOurOwnIsRefused) {
  for (const char* kind : {"assumption", "computed"})
    expect_one(
        "plant-juice", [&](Recipe& r) { r.use.keeping[1].days.origin.kind = kind; },
        "recipe-keeping-own", "/keeping/1/days", kind, "");
  expect_one(
      "plant-juice", [](Recipe& r) { r.use.keeping[0].days.high = 4000; }, "recipe-impossible",
      "/keeping/0/days", "30", "0 .. 3650");
}

TEST(RecipeCheckUse, NoHarvestWaitsLessThanNoDay) {
  expect_one(
      "manure-tea", [](Recipe& r) { r.use.harvest[1].days = -1; }, "recipe-impossible",
      "/harvest/1/days", "-1", "0 .. 3650");
}

}  // namespace
}  // namespace wheyfield::recipe
