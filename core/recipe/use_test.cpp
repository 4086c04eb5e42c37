#include "recipe/use.h"

#include <set>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "recipe/recipe.h"

namespace wheyfield::recipe {
namespace {

using nlohmann::json;

Use use_of(const std::string& id) {
  return testing::value_or_abort(parse(testing::recipe_json(id), "/recipe")).use;
}

std::string grade_of(const Origin& origin) {
  return testing::bundle().sources().at(origin.source).grade;
}

struct Taught {
  const char* recipe;
  double weak, strong;
  const char* on;
  const char* source;
  const char* grade;
};

// Each source's own row. Check values: the trade notes of this project on the lactic serum, plant
// juice, fruit juice, fish amino acid, micro-organisms, teas and eggshells, by the sources they
// name; a spoon of 15 mL in a litre is 1:67, two are 1:33, in ten litres 1:333. The rows from ppm
// thin 300 to 400 ppm (week) and 800 to 1000 ppm (month) to 75 to 100 ppm.
TEST(RecipeUse, EverySourceKeepsItsOwnDilutionAndItsGrade) {
  const Taught taught[] = {
      {"lactic-serum", 10000, 10000, "not-said", "lab-seller", "C"},
      {"lactic-serum", 2000, 2000, "not-said", "lab-seller", "C"},
      {"lactic-serum", 1000, 1000, "leaves", "ctahr-sa-8", "B"},
      {"lactic-serum", 1000, 1000, "soil", "ctahr-sa-8", "B"},
      {"lactic-serum", 500, 500, "leaves", "common-practice", "-"},
      {"lactic-serum", 500, 500, "drinking-water", "lab-page-india", "C"},
      {"lactic-serum", 50, 50, "not-said", "lab-trainer-blog", "C"},
      {"lactic-serum", 50, 33, "not-said", "lab-course", "C"},
      {"plant-juice", 1000, 500, "not-said", "common-practice", "-"},
      {"plant-juice", 670, 505, "not-said", "fpj-summary", "C"},
      {"plant-juice", 500, 500, "not-said", "fpj-handbook-text", "C"},
      {"plant-juice", 67, 27, "leaves", "fpj-pechay", "B"},
      {"fruit-juice", 333, 333, "not-said", "ffj-handout", "C"},
      {"fruit-juice", 100, 50, "not-said", "ffj-farm-school", "C"},
      {"fruit-juice", 67, 67, "not-said", "ffj-school-handout", "C"},
      {"fruit-juice", 33, 33, "not-said", "ffj-description", "C"},
      {"fruit-juice", 33, 33, "not-said", "concoction-sheet", "C"},
      {"fish-amino-acid", 1000, 1000, "not-said", "faa-page-india", "C"},
      {"fish-amino-acid", 1000, 1000, "not-said", "faa-page-garden", "C"},
      {"fish-amino-acid", 50, 50, "seed", "fish-germination-2019", "A"},
      {"fish-amino-acid", 33, 33, "not-said", "ati-faa-2021", "B"},
      {"micro-organism-culture", 1000, 500, "not-said", "common-practice", "-"},
      {"micro-organism-culture", 33, 33, "not-said", "imo-forum", "C"},
      {"compost-tea", 12, 7, "not-said", "tea-bulletin-2008", "B"},
      {"compost-tea", 10, 10, "not-said", "tea-news-kenya", "C"},
      {"compost-tea", 4, 2, "not-said", "tea-bulletin-2008", "B"},
      {"compost-tea", 2, 2, "not-said", "ifoam-manual-2003", "B"},
      {"manure-tea", 12, 7, "not-said", "tea-bulletin-2008", "B"},
      {"manure-tea", 10, 10, "not-said", "tea-news-kenya", "C"},
      {"manure-tea", 9, 9, "not-said", "tea-blog-malawi", "C"},
      {"manure-tea", 4, 2, "not-said", "tea-bulletin-2008", "B"},
      {"manure-tea", 2, 2, "not-said", "ifoam-manual-2003", "B"},
      {"eggshell-calcium", 1000, 1000, "not-said", "calcium-page-1", "C"},
      {"eggshell-calcium", 7, 7, "not-said", "calcium-page-2", "C"},
  };
  std::size_t rows = 0;
  std::map<std::string, std::size_t> at;
  for (const Taught& row : taught) {
    const Use use = use_of(row.recipe);
    const std::size_t place = at[row.recipe]++;
    ASSERT_LT(place, use.dilutions.size()) << row.recipe;
    const Dilution& one = use.dilutions[place];
    EXPECT_EQ(one.parts.high, row.weak) << row.recipe << " " << place;
    EXPECT_EQ(one.parts.low, row.strong) << row.recipe << " " << place;
    EXPECT_STREQ(place_word(one.on), row.on) << row.recipe << " " << place;
    EXPECT_EQ(one.parts.origin.source, row.source) << row.recipe << " " << place;
    EXPECT_EQ(grade_of(one.parts.origin), row.grade) << row.recipe << " " << place;
  }
  for (const std::string& id : testing::recipe_ids()) rows += use_of(id).dilutions.size();
  EXPECT_EQ(rows, std::size(taught)) << "a row without a check value";
}

// Thirty-fold is said of 1:33 to 1:1000; the weakest taught of the serum is ten times weaker yet.
TEST(RecipeUse, TheSpreadOfTheSourcesIsToldNotAveraged) {
  EXPECT_NEAR(use_of("lactic-serum").spread(), 10000.0 / 33, 1e-9);
  EXPECT_GE(1000.0 / 33, 30.0);
  EXPECT_NEAR(use_of("eggshell-calcium").spread(), 1000.0 / 7, 1e-9);  // 140-fold
  EXPECT_GE(use_of("eggshell-calcium").spread(), 140.0);
  EXPECT_NEAR(use_of("fruit-juice").spread(), 333.0 / 33, 1e-9);  // ten-fold
  EXPECT_EQ(use_of("compost-heap").spread(), 1.0);
}

TEST(RecipeUse, TheWeakestStandsFirst) {
  for (const std::string& id : testing::recipe_ids()) {
    const Use use = use_of(id);
    for (std::size_t i = 1; i < use.dilutions.size(); ++i)
      EXPECT_GE(use.dilutions[i - 1].parts.high, use.dilutions[i].parts.high) << id;
  }
}

// What a recipe itself goes by is no stronger than the weakest half of what is taught for it.
TEST(RecipeUse, ARecipeGoesByTheCautiousSideOfItsSources) {
  for (const std::string& id : testing::recipe_ids()) {
    const Use use = use_of(id);
    if (!use.strength) continue;
    std::size_t stronger = 0;
    for (const Dilution& one : use.dilutions) stronger += one.parts.low <= use.strength->parts;
    EXPECT_GE(2 * stronger, use.dilutions.size()) << id;
  }
}

// No shelf life of ours, and nothing published that is no publication.
TEST(RecipeUse, KeepingIsSomebodyElsesWord) {
  for (const std::string& id : testing::recipe_ids())
    for (const Keeping& one : use_of(id).keeping) {
      EXPECT_NE(one.days.origin.kind, "assumption") << id;
      EXPECT_NE(one.days.origin.kind, "computed") << id;
    }
  EXPECT_STREQ(store_word(use_of("lactic-serum").keeping[0].store), "refrigerated");  // 2 weeks
  EXPECT_EQ(use_of("lactic-serum").keeping[0].days.value, 14.0);
  EXPECT_TRUE(use_of("micro-organism-culture").keeping.empty()) << "no source says days";
}

// 7 CFR 205.203(c)(1), from memory: 120 days where the edible part touches the soil, else 90.
TEST(RecipeUse, RawManureAndItsTeaWait120And90Days) {
  const std::set<std::pair<std::string, int>> rule{{"touches-soil", 120}, {"off-soil", 90}};
  for (const char* id : {"manure-tea", "compost-tea", "compost-heap"}) {
    std::set<std::pair<std::string, int>> told;
    for (const HarvestGap& gap : use_of(id).harvest) {
      told.insert({gap.where, gap.days});
      EXPECT_EQ(gap.origin.source, "cfr-205-203") << id;
      EXPECT_EQ(gap.origin.kind, "memory") << id;
    }
    EXPECT_EQ(told, rule) << id;
  }
}

// By the calendar: 1 April and 120 days is 30 July.
TEST(RecipeUse, TheLongestWaitCountsAndWithoutAnyNobodyCanSay) {
  const calendar::Date last = calendar::parse_date("2027-04-01").value();
  const Use tea = use_of("manure-tea"), shells = use_of("eggshell-calcium");
  EXPECT_EQ(earliest_harvest(tea, last, std::nullopt)->iso(), "2027-07-30");
  EXPECT_EQ(earliest_harvest(tea, last, 30)->iso(), "2027-07-30") << "shorter local rule";
  EXPECT_EQ(earliest_harvest(tea, last, 150)->iso(), "2027-08-29");
  EXPECT_FALSE(earliest_harvest(shells, last, std::nullopt));
  EXPECT_EQ(earliest_harvest(shells, last, 14)->iso(), "2027-04-15");
}

TEST(RecipeUse, EverySignHasACauseAndTheFourVerdictsAreInUse) {
  std::set<Advice> verdicts;
  for (const std::string& id : testing::recipe_ids()) {
    EXPECT_FALSE(use_of(id).signs.empty()) << id;
    for (const Sign& sign : use_of(id).signs) {
      EXPECT_FALSE(sign.causes.empty()) << id << " " << sign.sign;
      verdicts.insert(sign.verdict);
    }
  }
  EXPECT_EQ(verdicts.size(), 4U);
}

// Bulletin: 300 to 400 ppm after a week, 800 to 1000 after a month; 10,000 ppm are 1 %.
TEST(RecipeUse, TheTeaHoldsAsMuchNitrogenAsWasMeasured) {
  const Use tea = use_of("manure-tea");
  ASSERT_EQ(tea.contents.size(), 2U);
  EXPECT_DOUBLE_EQ(tea.contents[0].percent.low * 10000, 300);
  EXPECT_DOUBLE_EQ(tea.contents[0].percent.high * 10000, 400);
  EXPECT_DOUBLE_EQ(tea.contents[1].percent.high * 10000, 1000);
}

// By hand: 50 g of acetic acid are 0.833 mol, which take 0.416 mol of calcium carbonate: 41.7 g,
// 16.7 g of it calcium, and 18.3 g of carbon dioxide (molar masses 60.05, 100.09, 40.08, 44.01).
TEST(RecipeUse, AVinegarDissolvesNoMoreShellThanItsAcid) {
  const double shells = 50.0 / 60.05 / 2;
  const Use use = use_of("eggshell-calcium");
  EXPECT_NEAR(use.contents[0].percent.value, shells * 40.08 / 1030 * 100, 0.05);
  const Recipe recipe =
      testing::value_or_abort(parse(testing::recipe_json("eggshell-calcium"), "/recipe"));
  EXPECT_NEAR(recipe.steps[1].gives[1].ratio.value, shells * 44.01 / 1000, 0.001);
}

TEST(RecipeUse, MistakesAreNamedWhereTheyStand) {
  const auto first = [](const char* id, const auto& plant) {
    json recipe = testing::recipe_json(id);
    plant(recipe);
    const auto read = parse(recipe, "/recipe");
    return read ? "" : read.error()[0].code + " " + read.error()[0].field;
  };
  EXPECT_EQ(first("manure-tea", [](json& r) { r["dilutions"][0]["on"] = "roots"; }),
            "recipe-word-unknown /recipe/dilutions/0/on");
  EXPECT_EQ(first("manure-tea", [](json& r) { r["dilutions"][1].erase("parts"); }).substr(0, 12),
            "data-missing");
  EXPECT_EQ(first("manure-tea", [](json& r) { r["harvest"][0]["days"] = 90.5; }),
            "not-a-count /recipe/harvest/0/days");
  EXPECT_EQ(first("manure-tea", [](json& r) { r["signs"][0]["verdict"] = "eat"; }),
            "recipe-word-unknown /recipe/signs/0/verdict");
  EXPECT_EQ(first("manure-tea", [](json& r) { r["signs"][0]["causes"] = json::array(); }),
            "data-missing /recipe/signs/0");
  EXPECT_EQ(first("plant-juice", [](json& r) { r["keeping"][0]["store"] = "shelf"; }),
            "recipe-word-unknown /recipe/keeping/0/store");
  EXPECT_EQ(first("plant-juice", [](json& r) { r.erase("strength_on"); }).substr(0, 12),
            "data-missing");
  EXPECT_EQ(first("lactic-serum", [](json& r) { r["ph"]["low"] = 9; }), "data-range /recipe/ph");
}

}  // namespace
}  // namespace wheyfield::recipe
