// The recipe commands as they are typed, over every recipe of the product.
#include <gtest/gtest.h>

#include "cli/commands.h"
#include "support/typed.h"

namespace wheyfield::cli {
namespace {

testing::Typed recipe_command(std::vector<std::string> given) {
  given.insert(given.begin(), "recipe");
  return testing::typed(std::move(given), {"2027-02-20", 180}, 400);
}

bool says(const testing::Typed& told, const std::string& part) {
  return told.out.find(part) != std::string::npos;
}

TEST(RecipeCommands, TheRecipesAreListedWithTheirDays) {
  const testing::Typed list = recipe_command({"list"});
  EXPECT_EQ(list.code, 0);
  for (const char* line :
       {"compost-heap: hot compost, about 22 days in a warm place and 25 in a cool one",
        "lactic-serum: lactic serum, about 11 days in a warm place and 15 in a cool one",
        "plant-juice: fermented plant juice, about 8 days in a warm place and 11 in a cool one"})
    EXPECT_TRUE(says(list, line)) << list.out;
}

TEST(RecipeCommands, EveryRecipeIsSoundAndShownInWords) {
  for (const char* id :
       {"compost-heap", "compost-tea", "eggshell-calcium", "fish-amino-acid", "fruit-juice",
        "lactic-serum", "manure-tea", "micro-organism-culture", "plant-juice"}) {
    EXPECT_EQ(recipe_command({"check", id}).code, 0) << id;
    const testing::Typed shown = recipe_command({"show", id});
    EXPECT_EQ(shown.code, 0);
    EXPECT_TRUE(says(shown, "What it is and is not")) << shown.out;
    EXPECT_FALSE(says(shown, "[")) << shown.out;  // no [missing.key]
  }
}

TEST(RecipeCommands, TheEarliestHarvestStandsOnThePage) {
  const testing::Typed tea = recipe_command({"show", "manure-tea", "--last-used", "2027-04-01"});
  EXPECT_EQ(tea.code, 0);
  EXPECT_TRUE(says(tea, "harvest no earlier than Fri 30 Jul")) << tea.out;
  EXPECT_TRUE(says(recipe_command({"show", "eggshell-calcium", "--last-used", "2027-04-01",
                                   "--local-days", "14 days"}),
                   "harvest no earlier than Thu 15 Apr"));
  EXPECT_NE(recipe_command({"show", "manure-tea", "--local-days", "soon"}).code, 0);
}

TEST(RecipeCommands, EachRecipeIsCandidAboutItselfOnly) {
  EXPECT_TRUE(says(recipe_command({"show", "lactic-serum"}), "milk serum"));
  EXPECT_FALSE(says(recipe_command({"show", "plant-juice"}), "milk serum"));
  EXPECT_FALSE(says(recipe_command({"show", "compost-heap"}), "milk serum"));
}

TEST(RecipeCommands, AHeapIsShownAtTheLeastSizeThatHeatsWithTheDaysOfItsTurning) {
  const testing::Typed heap = recipe_command({"show", "compost-heap"});
  for (const char* line : {"in: 545.324 kg fresh cattle manure", "out: 1,000 L fresh heap",
                           "out: about 500 L compost (400 to 600)",
                           "on days 4, 6, 8, 10, 12, 14, 16: about 10.5 hours in all",
                           "a heap below 1,000 L does not heat", "about 21.5 hours in all"})
    EXPECT_TRUE(says(heap, line)) << line << "\n" << heap.out;
  EXPECT_FALSE(says(heap, "This makes a heap"));
}

TEST(RecipeCommands, AHeapTooSmallToHeatIsToldOneThatJustHeatsIsNot) {
  const std::string told = "! This makes a heap of 200 L.";
  EXPECT_TRUE(says(recipe_command({"scale", "compost-heap", "--make", "100 L"}), told));
  EXPECT_TRUE(says(recipe_command({"scale", "compost-heap", "--vessel", "999 L"}), "This makes"));
  EXPECT_FALSE(says(recipe_command({"scale", "compost-heap", "--vessel", "1000 L"}), "This makes"));
  EXPECT_FALSE(says(recipe_command({"scale", "plant-juice", "--make", "1 L"}), "This makes"));
}

}  // namespace
}  // namespace wheyfield::cli
