// "How strong, how long does it keep, what does this smell mean, when may we harvest?" Asked of
// every recipe, as a trainer asks; and a bulletin of her own that cannot be right.
#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

Json shown(Facade& facade, const std::string& id, Json more = Json::object()) {
  more["recipe"] = id;
  more["pages"] = true;
  return facade.ask("recipe.show", more);
}

TEST(RecipeUseAsked, EveryRecipeAnswersInWordsAndWithSources) {
  Facade facade;
  ASSERT_EQ(testing::recipe_ids().size(), 9U);
  for (const std::string& id : testing::recipe_ids()) {
    const Json answer = shown(facade, id);
    ASSERT_TRUE(answer["problems"].empty()) << id << answer["problems"];
    const std::string text = answer["pages"].dump();
    for (const char* missing : {"[use.", "[quality.", "[harvest.", "[dilution.", "[keeping.",
                                "[content.", "[caution.", "[material.", "[step."})
      EXPECT_EQ(text.find(missing), std::string::npos) << id << missing;
    for (const char* never : {"edible", " wash", " flour", " skin ", "safe to eat"})
      EXPECT_EQ(text.find(never), std::string::npos) << id << never;
    EXPECT_FALSE(answer["signs"].empty()) << id;
    for (const char* table : {"dilutions", "keeping", "signs", "contents", "harvest"}) {
      const Json rows = answer[table];
      for (const Json& row : rows) {
        EXPECT_TRUE(row["kind"].is_string() && row["source"].is_string()) << id << row;
        EXPECT_NE(std::string("ABC-").find(row["grade"].get<std::string>()), std::string::npos);
      }
    }
    EXPECT_EQ(facade.ask("recipe.check", {{"recipe", id}})["sound"], true) << id;
  }
}

TEST(RecipeUseAsked, TheWeakestRowIsReadFirstWithItsGradeAndMillilitres) {
  Facade facade;
  const std::string serum = shown(facade, "lactic-serum")["pages"].dump();
  const auto weakest = serum.find("1:10,000, 2 mL in a can of 20 L, leaves or soil not said: ");
  const auto strongest = serum.find("1:50 to 1:33, 400 to 606 mL in a can of 20 L");
  ASSERT_NE(weakest, std::string::npos) << serum;
  ASSERT_NE(strongest, std::string::npos) << serum;
  EXPECT_LT(weakest, strongest);
  EXPECT_NE(serum.find("The strongest is 303 times as strong as the weakest"), std::string::npos);
  EXPECT_NE(serum.find("we give animals nothing of it"), std::string::npos);
}

// 1 April and 120 days is 30 July, and 90 days 30 June.
TEST(RecipeUseAsked, AfterTheLastUseTheEarliestHarvestIsADate) {
  Facade facade;
  const Json tea = shown(facade, "manure-tea", {{"last_used", "2027-04-01"}});
  EXPECT_EQ(tea["earliest_harvest"], "2027-07-30");
  EXPECT_EQ(tea["harvest"][0]["earliest"], "2027-07-30");
  EXPECT_EQ(tea["harvest"][1]["earliest"], "2027-06-30");
  EXPECT_NE(tea["pages"].dump().find("harvest no earlier than Fri 30 Jul"), std::string::npos);
  const Json own =
      shown(facade, "manure-tea", {{"last_used", "2027-04-01"}, {"local_days", "150 days"}});
  EXPECT_EQ(own["earliest_harvest"], "2027-08-29");
  EXPECT_NE(own["pages"].dump().find("150 days: your local rule"), std::string::npos);
  const Json shells = shown(facade, "eggshell-calcium", {{"last_used", "2027-04-01"}});
  EXPECT_TRUE(shells["earliest_harvest"].is_null());
  EXPECT_NE(shells["pages"].dump().find("no rule is known to count from"), std::string::npos);
  const Json wrong = shown(facade, "manure-tea", {{"last_used", "1 April"}});
  EXPECT_FALSE(wrong["problems"].empty());
  EXPECT_EQ(wrong["problems"][0]["field"], "/last_used");
}

// The serum's own days before a harvest are those that `dose harvest` goes by.
TEST(RecipeUseAsked, TheSerumWaitsAsLongHereAsAtTheDose) {
  Facade facade;
  const Json harvest = shown(facade, "lactic-serum")["harvest"];
  ASSERT_EQ(harvest.size(), 2U);
  EXPECT_EQ(harvest[0]["days"], testing::value("raw-eaten-gap-days"));
  EXPECT_EQ(harvest[1]["days"], testing::value("cooked-gap-days"));
}

TEST(RecipeUseAsked, TheCandidWordsStandOnTheirPages) {
  Facade facade;
  const auto says = [&](const char* id, const char* part) {
    EXPECT_NE(shown(facade, id)["pages"].dump().find(part), std::string::npos) << id << part;
  };
  says("micro-organism-culture", "not verified by controlled experiments");
  says("fish-amino-acid", "pure protein is 16 % nitrogen");
  says("manure-tea", "Never on leaves that are eaten raw");
  says("eggshell-calcium", "cover open or of cloth");
  says("eggshell-calcium", "no metal vessel");
  says("fish-amino-acid", "rats");
  says("fish-amino-acid", "Knives cut fingers");
  says("fruit-juice", "Wood ash is alkaline");
  says("fruit-juice", "Never taste as a test");
  says("micro-organism-culture", "Mould gives off dust");
  says("micro-organism-culture", "No source was found that says it in days");
}

// A definition of her own with one printed number in it: code, field, value, expected, cure.
class OwnBulletin : public ::testing::Test {
 protected:
  void refused(const Json& definition, const char* code, const char* field, const char* value,
               const char* expected) {
    const Json answer = facade.ask("recipe.check", {{"definition", definition}});
    const Json found = problem(answer, code);
    ASSERT_FALSE(found.is_null()) << code << answer["problems"].dump(1);
    EXPECT_EQ(found["field"], std::string("/definition") + field);
    EXPECT_EQ(found["value"], value);
    const std::string text = found["text"];
    EXPECT_NE(text.find(expected), std::string::npos) << text;
    EXPECT_EQ(text.find("[cure."), std::string::npos) << text;
    EXPECT_EQ(text.find("[problem."), std::string::npos) << text;
  }
  static Json definition(const std::string& id) {
    return Json::parse(testing::recipe_json(id).dump());
  }
  Facade facade;
};

TEST_F(OwnBulletin, TwoAndAHalfLitresFromTwoKilograms) {
  Json fruit = definition("fruit-juice");
  fruit["steps"][2]["gives"][0]["ratio"]["high"] = 1.25;
  refused(fruit, "recipe-yield-above-inputs", "/steps/2/gives/0/ratio", "raw-fruit-juice",
          "No vessel gives more than was put in");
}

TEST_F(OwnBulletin, NinetyPercentNitrogenInFish) {
  Json fish = definition("fish-amino-acid");
  const Json ninety = {{"value", 90}, {"low", 90},           {"high", 90},
                       {"unit", "%"}, {"kind", "published"}, {"source", "ati-faa-2021"},
                       {"page", ""}};
  fish["contents"] = Json::array({{{"nutrient", "nitrogen"}, {"percent", ninety}}});
  refused(fish, "recipe-nitrogen-impossible", "/contents/0/percent", "90",
          "At most 16 % nitrogen was expected");
}

TEST_F(OwnBulletin, OneToFiveOnLeaves) {
  Json juice = definition("plant-juice");
  juice["strength_parts"] = 5;
  refused(juice, "recipe-too-strong", "/strength_parts", "1:5", "no stronger than 1:250");
  juice = definition("plant-juice");
  juice["dilutions"][3]["parts"]["low"] = 5;
  refused(juice, "recipe-dilution-impossible", "/dilutions/3/parts", "1:5",
          "No stronger than 1:27 was expected");
}

TEST_F(OwnBulletin, PhTwoOfMilkSerum) {
  Json serum = definition("lactic-serum");
  serum["ph"]["value"] = 2;
  serum["ph"]["low"] = 2;
  refused(serum, "recipe-ph-impossible", "/ph", "2", "pH 3 .. 9");
}

TEST_F(OwnBulletin, AShelfLifeOfNobody) {
  Json juice = definition("plant-juice");
  juice["keeping"][0]["days"]["kind"] = "assumption";
  refused(juice, "recipe-keeping-own", "/keeping/0/days", "assumption", "Keeping needs a source");
}

TEST_F(OwnBulletin, AStepWithoutAVessel) {
  Json tea = definition("manure-tea");
  tea["steps"][0].erase("vessel");
  const Json missing = facade.ask("recipe.check", {{"definition", tea}});
  EXPECT_EQ(problem(missing, "data-missing")["field"], "/definition/steps/0/vessel") << missing;
  tea["steps"][0]["vessel"] = "none";
  refused(tea, "recipe-vessel-missing", "/steps/0/vessel", "steep-manure", "no vessel is named");
}

TEST_F(OwnBulletin, AStepThatNeedsItself) {
  Json fruit = definition("fruit-juice");
  fruit["steps"][1]["takes"][0]["material"] = "fruit-juice";
  refused(fruit, "recipe-cycle", "/steps/1/takes", "fruit-juice", "before any step gives it");
}

}  // namespace
}  // namespace wheyfield
