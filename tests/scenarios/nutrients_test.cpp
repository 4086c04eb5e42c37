// What goes off a field and what comes back: ranges, and the candid line of the serum.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class NutrientBalance : public ::testing::Test {
 protected:
  Json ask(Json more = Json::object()) {
    Json body{{"crop", "maize"}, {"area", "1 ha"}, {"harvest", "3 t"}, {"pages", true}};
    body.update(more);
    return facade.ask("nutrients.balance", body);
  }
  Facade facade;
};

// The middle of the Ontario table: 3 t of maize take 43.8 kg of nitrogen; compost with 1.5 % of its
// dry matter and 40 % water holds as much in 4.9 t, and sets it free in one year in 24 t.
TEST_F(NutrientBalance, MaizeIsMatchedByTonnesOfCompostAndNotBySerum) {
  const Json answer = ask({{"serum", "2 L"}, {"compost", "5 t"}});
  EXPECT_NEAR(answer["compost_to_match"]["holds_kg"].get<double>(), 4867, 1);
  EXPECT_NEAR(answer["compost_to_match"]["frees_kg"].get<double>(), 24333, 1);
  EXPECT_LT(answer["serum_part"].get<double>(), 0.0003);
  EXPECT_NEAR(answer["taken"]["n"]["low"].get<double>(), 24.9, 1e-6);  // the tropical set
  EXPECT_NEAR(answer["taken"]["n"]["high"].get<double>(), 57.3, 1e-6);
  const Json& compost = answer["brought"][0];
  EXPECT_EQ(compost["what"], "compost");
  EXPECT_NEAR(compost["n"]["low"].get<double>(), 20.0, 1e-6);
  EXPECT_NEAR(answer["left"]["n"]["low"].get<double>(),
              compost["n"]["low"].get<double>() + 0.003 - 57.3, 1e-6);
  const std::string page = answer["pages"].dump();
  EXPECT_NE(page.find("about zero. It feeds no crop."), std::string::npos);
  EXPECT_NE(page.find("cannot be told from these tables"), std::string::npos);
  EXPECT_NE(page.find("not advice on how much to spread"), std::string::npos);
}

TEST_F(NutrientBalance, SerumAloneLeavesLessThanItTakesAndItsUsualDoseIsSaid) {
  const Json answer = ask();
  EXPECT_TRUE(answer["usual_serum"].get<bool>());
  EXPECT_NEAR(answer["brought"][0]["amount"].get<double>(), 2.471, 0.001);  // 1 L an acre
  EXPECT_LT(answer["left"]["n"]["high"].get<double>(), -20);
  const std::string page = answer["pages"].dump();
  EXPECT_NE(page.find("No serum was told"), std::string::npos);
  EXPECT_NE(page.find("More nitrogen goes off this field"), std::string::npos);
}

TEST_F(NutrientBalance, ManureCarriesItsCautionAndMoreOfItNeverLeavesLess) {
  double before = -1e9;
  for (const char* mass : {"1 t", "5 t", "20 t", "200 t"}) {
    const Json answer = ask({{"manure", mass}, {"manure_is", "cattle-manure"}});
    const double left = answer["left"]["n"]["low"].get<double>();
    EXPECT_GT(left, before);
    before = left;
    EXPECT_NE(answer["cautions"].dump().find("raw-manure"), std::string::npos);
    EXPECT_TRUE(answer["brought"][0]["first_year_n"].is_null());  // no figure is known
  }
  EXPECT_NE(ask({{"manure", "200 t"}, {"manure_is", "cattle-manure"}})["pages"].dump().find(
                "More nitrogen comes to this field"),
            std::string::npos);
}

TEST_F(NutrientBalance, ALegumeAndACropWithoutAFigure) {
  const Json cowpea = ask({{"crop", "cowpea"}, {"harvest", "800 kg"}});
  EXPECT_NEAR(cowpea["taken"]["n"]["high"].get<double>(), 0.8 * 40.9 * 0.25, 1e-6);
  EXPECT_NE(cowpea["pages"].dump().find("from the air"), std::string::npos);
  const Json pods = ask({{"crop", "green-bean"}});
  EXPECT_TRUE(pods["taken"]["n"].is_null());
  EXPECT_TRUE(pods["left"]["n"].is_null());
  EXPECT_TRUE(pods["compost_to_match"].is_null());
  EXPECT_NE(pods["pages"].dump().find("not known"), std::string::npos);
}

TEST_F(NutrientBalance, SlipsAreRefusedWithTheirCure) {
  EXPECT_EQ(problem(ask({{"harvest", "3000 t"}}), "harvest-out-of-range")["field"], "/harvest");
  EXPECT_EQ(problem(ask({{"compost", "5 kg"}}), "spread-out-of-range")["field"], "/compost");
  EXPECT_FALSE(problem(ask({{"manure", "5 t"}}), "missing-manure_is").is_null());
  EXPECT_FALSE(problem(ask({{"manure_is", "hen-manure"}}), "missing-manure").is_null());
  const Json okra = problem(ask({{"crop", "okra"}}), "removal-unknown");
  EXPECT_NE(okra["cure"].get<std::string>().find("maize"), std::string::npos);
  EXPECT_FALSE(problem(ask({{"area", ""}}), "missing-area").is_null());
  EXPECT_FALSE(problem(ask({{"harvest", ""}}), "missing-harvest").is_null());
}

TEST_F(NutrientBalance, OfAFarmOfTheJournalTheFieldIsKnown) {
  facade.say("journal.import", {{"season", testing::practice()}});
  const Json answer =
      facade.ask("nutrients.balance", {{"farm", "1"}, {"crop", "maize"}, {"harvest", "1 t"}});
  EXPECT_NEAR(answer["area_m2"].get<double>(), 4046.856, 0.001);  // an acre
}

}  // namespace
}  // namespace wheyfield
