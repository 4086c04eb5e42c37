#include "recipe/check.h"

#include <functional>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::recipe {
namespace {

using Mistake = std::function<void(Recipe&)>;

Recipe sound_recipe(const char* id) {
  return testing::value_or_abort(parse(testing::recipe_json(id), "/recipe"));
}

// A real recipe with one mistake planted: the check says `code` at `field`.
void expect_refused(const char* code, const std::string& field, const Mistake& plant,
                    const char* id = "lactic-serum") {
  Recipe recipe = sound_recipe(id);
  plant(recipe);
  std::string told;
  for (const outcome::Problem& problem : check(recipe)) {
    if (problem.code == code && problem.field == field) return;
    told += problem.code + " " + problem.field + "; ";
  }
  ADD_FAILURE() << code << " " << field << " not told, but: " << told;
}

Step& step(Recipe& recipe, const std::string& id) {
  for (Step& step : recipe.steps)
    if (step.id == id) return step;
  std::abort();
}

Material& material(Recipe& recipe, const std::string& id) {
  for (Material& material : recipe.materials)
    if (material.id == id) return material;
  std::abort();
}

std::string place(const std::string& id) {
  const Recipe recipe = testing::lactic_serum();
  for (std::size_t i = 0; i < recipe.materials.size(); ++i)
    if (recipe.materials[i].id == id) return "/materials/" + std::to_string(i);
  return "";
}

TEST(RecipeCheck, TheRecipesOfTheProductAreSound) {
  for (const std::string& id : testing::recipe_ids())
    for (const outcome::Problem& problem : check(sound_recipe(id.c_str())))
      ADD_FAILURE() << id << " " << problem.code << " " << problem.field << " " << problem.value;
}

// A page of 2011 prints 2.5 L from 1 kg fruit and 1 kg sugar: 3.1 kg out of 2 kg.
TEST(RecipeCheck, MoreJuiceThanWasPutInIsRefusedEvenAtTheHighEnd) {
  const auto printed = [](Recipe& r) { step(r, "strain").gives[0].ratio.high = 2.5 / 2.0; };
  expect_refused("recipe-yield-above-inputs", "/steps/2/gives/0/ratio", printed, "fruit-juice");
  const auto told = [](Recipe& r) {
    step(r, "strain").gives[0].ratio = {1.25, 1.0, 1.3, "L/L", {}};
  };
  expect_refused("recipe-mass-balance", "/steps/2", told, "fruit-juice");
}

TEST(RecipeCheck, LitresThatStandForDaysNeedAVesselAHeapOfManureDoesNot) {
  expect_refused(
      "recipe-vessel-missing", "/steps/1/vessel",
      [](Recipe& r) { step(r, "ferment-fruit").vessel = VesselNeed::none; }, "fruit-juice");
  EXPECT_EQ(sound_recipe("compost-heap").steps[0].vessel, VesselNeed::none);
  EXPECT_TRUE(check(sound_recipe("compost-heap")).empty());
}

TEST(RecipeCheck, AStepThatTakesItsOwnProductIsACycleInASiblingToo) {
  expect_refused(
      "recipe-cycle", "/steps/1/takes",
      [](Recipe& r) { step(r, "ferment-fish").takes[0].material = "fish-liquid"; },
      "fish-amino-acid");
}

TEST(RecipeCheck, BatchesAreNamedByOneCapitalLetter) {
  for (const char* letter : {"", "b", "BB", "1", "É"})
    expect_refused("recipe-impossible", "/letter", [letter](Recipe& r) { r.letter = letter; });
}

TEST(RecipeCheck, APageForNoProductIsImpossible) {
  expect_refused("recipe-impossible", "/shown_for", [](Recipe& r) { r.shown_for = 0.0; });
}

TEST(RecipeCheck, AHeapThatNeedsNothingToHeatIsImpossible) {
  for (double low : {0.0, -1.0})
    expect_refused(
        "recipe-impossible", "/steps/2/least_fill",
        [low](Recipe& r) { step(r, "heat").least_fill->low = low; }, "compost-heap");
}

TEST(RecipeCheck, AHeapThatMayHoldNothingOrLessThanWhatHeatsIsImpossible) {
  const Mistake mistakes[] = {[](Recipe& r) { step(r, "heat").most_fill->low = 0.0; },
                              [](Recipe& r) { step(r, "heat").most_fill->value = 999.0; },
                              [](Recipe& r) { step(r, "heat").least_fill->value = 1501.0; },
                              [](Recipe& r) {
                                step(r, "heat").least_fill.reset();
                                step(r, "heat").most_fill->low = -1.0;
                              }};
  for (const Mistake& mistake : mistakes)
    expect_refused("recipe-impossible", "/steps/2/most_fill", mistake, "compost-heap");
}

TEST(RecipeCheck, AHeapMayBeBoundedToTheOneSizeThatHeatsOrToNoLeast) {
  Recipe heap = sound_recipe("compost-heap");
  step(heap, "heat").most_fill->value = step(heap, "heat").least_fill->value;
  EXPECT_TRUE(check(heap).empty());
  step(heap, "heat").least_fill.reset();
  EXPECT_TRUE(check(heap).empty());
}

TEST(RecipeCheck, ATurningThatTakesLessThanNoTimeIsImpossible) {
  expect_refused(
      "recipe-impossible", "/steps/2/tasks/7/hours",
      [](Recipe& r) { step(r, "heat").tasks[7].hours->low = -0.1; }, "compost-heap");
}

TEST(RecipeCheck, WhatGoesOffNeedsNoFateButCannotBeMoreThanCameIn) {
  expect_refused(
      "recipe-mass-balance", "/steps/2",
      [](Recipe& r) {
        step(r, "heat").gives[1].remainder = false;
        step(r, "heat").gives[1].ratio = {0.3, 0.2, 0.4, "kg/L", {}};
      },
      "compost-heap");
  expect_refused(
      "recipe-mass-balance", "/steps/2",
      [](Recipe& r) {
        step(r, "heat").gives.pop_back();
        r.materials.pop_back();
      },
      "compost-heap");
}

TEST(RecipeCheck, AMaterialThatIsNotListedIsRefused) {
  expect_refused("recipe-material-unknown", "/steps/2/takes/0/material",
                 [](Recipe& r) { step(r, "milk").takes[0].material = "goat-milk"; });
}

TEST(RecipeCheck, AStepThatNeedsWhatALaterStepGivesIsACycle) {
  expect_refused("recipe-cycle", "/steps/2/takes", [](Recipe& r) {
    Flow flow = step(r, "milk").takes[1];
    flow.material = "raw-serum";
    step(r, "milk").takes.push_back(flow);
  });
}

TEST(RecipeCheck, AStepThatNeedsItsOwnOutputIsACycle) {
  expect_refused("recipe-cycle", "/steps/2/takes",
                 [](Recipe& r) { step(r, "milk").takes[1].material = "soured-milk"; });
}

TEST(RecipeCheck, StepsInTheWrongOrderAreACycle) {
  expect_refused("recipe-cycle", "/steps/0/takes",
                 [](Recipe& r) { std::swap(r.steps[0], r.steps[1]); });
}

TEST(RecipeCheck, AProductThatNoStepGivesIsNeverMade) {
  expect_refused("recipe-never-made", "/product", [](Recipe& r) { r.steps.pop_back(); });
}

TEST(RecipeCheck, AByProductThatNoStepGivesIsNeverMade) {
  expect_refused("recipe-never-made", place("surface-film"), [](Recipe& r) {
    step(r, "stand").gives.erase(step(r, "stand").gives.begin() + 1);
  });
}

TEST(RecipeCheck, AnInputThatNoStepTakesIsNeverUsed) {
  expect_refused("recipe-never-used", place("molasses"),
                 [](Recipe& r) { step(r, "mix").takes.pop_back(); });
}

TEST(RecipeCheck, AMaterialGivenByTwoStepsIsMadeTwice) {
  expect_refused("recipe-made-twice", "/steps/4/gives",
                 [](Recipe& r) { step(r, "mix").gives.push_back(step(r, "strain").gives[0]); });
}

TEST(RecipeCheck, MoreSerumThanMilkBreaksTheMassBalance) {
  expect_refused("recipe-mass-balance", "/steps/3", [](Recipe& r) {
    step(r, "strain").gives[0].ratio = {1.2, 1.0, 1.4, "L/L", {}};
  });
}

TEST(RecipeCheck, MassThatGoesNowhereBreaksTheBalance) {
  expect_refused("recipe-mass-balance", "/steps/3",
                 [](Recipe& r) { step(r, "strain").gives.pop_back(); });
  expect_refused("recipe-mass-balance", "/steps/4", [](Recipe& r) {
    step(r, "mix").gives[0].ratio = {1.0, 0.9, 1.1, "L/L", {}};
  });
}

TEST(RecipeCheck, AMeasuredYieldWithoutRangeIsRefused) {
  expect_refused("recipe-range-missing", "/steps/3/gives/0/ratio", [](Recipe& r) {
    Sourced& ratio = step(r, "strain").gives[0].ratio;
    ratio.low = ratio.high = ratio.value;
  });
}

TEST(RecipeCheck, ARatioOfNothingOrLessIsImpossible) {
  for (double low : {0.0, -0.1})
    expect_refused("recipe-impossible", "/steps/2/takes/1/ratio",
                   [low](Recipe& r) { step(r, "milk").takes[1].ratio.low = low; });
}

TEST(RecipeCheck, ALitreAsLightAsAirOrAsHeavyAsIronIsImpossible) {
  expect_refused("recipe-impossible", place("milk") + "/density",
                 [](Recipe& r) { material(r, "milk").density->low = 0.19; });
  expect_refused("recipe-impossible", place("milk") + "/density",
                 [](Recipe& r) { material(r, "milk").density->high = 3.1; });
}

TEST(RecipeCheck, DaysOutOfOrderOrBeyondAYearAreImpossible) {
  const Mistake mistakes[] = {[](Recipe& r) { step(r, "milk").warm.early = 6; },
                              [](Recipe& r) { step(r, "milk").warm.late = 4; },
                              [](Recipe& r) { step(r, "milk").warm.keeps = 6; },
                              [](Recipe& r) { step(r, "milk").warm.early = -1; },
                              [](Recipe& r) { step(r, "milk").warm.keeps = 401; }};
  for (const Mistake& mistake : mistakes)
    expect_refused("recipe-impossible", "/steps/2/windows/warm", mistake);
  expect_refused("recipe-impossible", "/steps/1/windows/cool",
                 [](Recipe& r) { step(r, "stand").cool.late = 2; });
}

TEST(RecipeCheck, AForecastIsOfAStepInAVesselAndInWholeDays) {
  expect_refused("recipe-impossible", "/steps/2/forecast/published_least",
                 [](Recipe& r) { step(r, "milk").forecast->published_least.value = 2.5; });
  expect_refused("recipe-impossible", "/steps/2/forecast/published_least",
                 [](Recipe& r) { step(r, "milk").forecast->published_least.value = 8; });
  expect_refused("recipe-impossible", "/steps/2/forecast/least_until_batches",
                 [](Recipe& r) { step(r, "milk").forecast->least_until_batches.value = -1; });
  expect_refused("recipe-impossible", "/steps/1/forecast",
                 [](Recipe& r) { step(r, "stand").forecast = step(r, "milk").forecast; });
}

TEST(RecipeCheck, WorkBelowZeroHoursIsImpossible) {
  expect_refused("recipe-impossible", "/steps/0/labour_hours",
                 [](Recipe& r) { step(r, "soak").labour_hours.low = -0.1; });
}

TEST(RecipeCheck, AVesselFilledOverItsBrimOrWithoutFillLimitIsRefused) {
  const Mistake mistakes[] = {[](Recipe& r) { step(r, "milk").fill_fraction->high = 1.01; },
                              [](Recipe& r) { step(r, "milk").fill_fraction->low = 0.0; },
                              [](Recipe& r) { step(r, "milk").fill_fraction.reset(); }};
  for (const Mistake& mistake : mistakes)
    expect_refused("recipe-fill-limit", "/steps/2/fill_fraction", mistake);
}

TEST(RecipeCheck, AByProductWithoutFateIsRefused) {
  for (const char* id : {"soaked-rice", "surface-film", "starch-sediment", "curd"})
    expect_refused("recipe-fate-missing", place(id) + "/fate",
                   [id](Recipe& r) { material(r, id).fate.clear(); });
}

TEST(RecipeCheck, AMaterialInLitresWithoutDensityCannotBeWeighed) {
  expect_refused("recipe-density-missing", place("raw-serum") + "/density",
                 [](Recipe& r) { material(r, "raw-serum").density.reset(); });
}

TEST(RecipeCheck, SeveralMistakesAreAllTold) {
  Recipe recipe = testing::lactic_serum();
  material(recipe, "curd").fate.clear();
  material(recipe, "milk").density.reset();
  step(recipe, "milk").fill_fraction.reset();
  EXPECT_GE(check(recipe).size(), 3u);
}

}  // namespace
}  // namespace wheyfield::recipe
