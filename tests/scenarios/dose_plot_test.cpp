// A trial plot by syringe, its plain-water twin, and the rehearsal that measures the farm.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DosePlot : public ::testing::Test {
 protected:
  Json ask(Json more = Json::object()) {
    Json body{{"size", "10 x 5 m"}, {"strength", "1:500"}, {"pages", true}};
    body.update(more);
    return facade.ask("dose.plot", body);
  }
  Facade facade;
};

// Computed by hand: 50 m2 at 100 L an acre are 50 / 4046.86 x 100 = 1.2355 L, a five-hundredth of
// it 2.471 mL, on 0.1 mL marks 2.5 mL.
TEST_F(DosePlot, FiftySquareMetresTakeTwoAndAHalfMillilitres) {
  const Json answer = ask();
  EXPECT_NEAR(answer["water_l"].get<double>(), 1.2355, 5e-5);
  EXPECT_NEAR(answer["serum_ml"].get<double>(), 2.471, 5e-4);
  EXPECT_EQ(answer["syringe_ml"], 2.5);
  EXPECT_EQ(answer["rate_from"], "assumed");
  EXPECT_EQ(problem(answer, "rate-assumed")["severity"], "notice");
  EXPECT_NE(answer["pages"].dump().find("2.5 mL by syringe into 1.24 L"), std::string::npos);
}

TEST_F(DosePlot, PlainWaterComesFirstAndBothGetTheSameWater) {
  const Json steps = ask()["steps"];
  ASSERT_EQ(steps.size(), 2u);
  EXPECT_EQ(steps[0]["plot"], "plain-water");
  EXPECT_EQ(steps[0]["syringe_ml"], 0.0);
  EXPECT_EQ(steps[1]["plot"], "serum");
  EXPECT_EQ(steps[0]["water_l"], steps[1]["water_l"]);
}

// 1.3, 1.2, 1.25 L on the plot itself: 1.25 L on 50 m2 are 250 L/ha; on 100 m2 125 L/ha.
TEST_F(DosePlot, ARehearsalWithPlainWaterGivesTheFarmsOwnLitres) {
  const Json used{"1.3 L", "1.2 L", "1.25 L"};
  const Json answer = ask({{"used", used}});
  EXPECT_EQ(answer["rate_from"], "rehearsal");
  EXPECT_NEAR(answer["litres_per_ha"].get<double>(), 250, 1e-6);
  EXPECT_NEAR(answer["serum_ml_per_100_m2"].get<double>(), 5, 1e-6);
  EXPECT_EQ(answer["syringe_ml"], 2.5);
  EXPECT_TRUE(answer["problems"].empty()) << answer["problems"].dump();
  const Json wide = ask({{"used", used}, {"area", "100 m2"}});
  EXPECT_NEAR(wide["litres_per_ha"].get<double>(), 125, 1e-6);
}

TEST_F(DosePlot, CapsAreNoFieldOfATrialPlot) {
  EXPECT_EQ(problem(ask({{"cap", "20 mL"}}), "key-unknown")["value"], "cap");
}

TEST_F(DosePlot, MistakesAreNamedWithFieldAndCure) {
  EXPECT_EQ(problem(ask({{"size", "10 m"}}), "size-unreadable")["field"], "/size");
  const Json rough = problem(ask({{"syringe_step", "2 mL"}}), "plot-dose-small");
  EXPECT_EQ(rough["field"], "/syringe_step");
  EXPECT_EQ(problem(ask({{"used", {"1.2 L", "0 L"}}}), "not-above-zero")["field"], "/used/1");
  EXPECT_EQ(problem(ask({{"used", {"1.2 L"}}, {"rate", "200 L/ha"}}), "rate-or-rehearsal")["field"],
            "/rate");
  EXPECT_EQ(problem(ask({{"area", "50 m2"}}), "missing-used")["field"], "/used");
  EXPECT_EQ(problem(ask({{"rate", "1 L/ha"}}), "mix-rate-out-of-range")["field"], "/rate");
  // 1.8 L and 1.2 L are 40 % of their mean apart.
  const Json apart = problem(ask({{"used", {"1.8 L", "1.2 L", "1.5 L"}}}), "runs-apart");
  EXPECT_EQ(apart["field"], "/used");
  EXPECT_EQ(apart["severity"], "question");
}

TEST_F(DosePlot, ARehearsalThatWasNotTheSameJobGivesNoDose) {
  const Json answer = ask({{"used", {"1.8 L", "1.2 L", "1.5 L"}}});
  for (const char* name : {"litres_per_ha", "litres_per_acre", "serum_ml_per_100_m2", "water_l",
                           "serum_ml", "syringe_ml", "steps"})
    EXPECT_TRUE(answer[name].is_null()) << name;
  EXPECT_EQ(answer["rehearsal"]["litres_per_ha"], Json({360.0, 240.0, 300.0}));
  EXPECT_NE(answer["pages"].dump().find("They lie 40 % apart"), std::string::npos);
  EXPECT_EQ(answer["pages"].dump().find("mix_rate"), std::string::npos);
}

}  // namespace
}  // namespace wheyfield
