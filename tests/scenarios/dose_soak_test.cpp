// Right before sowing: water, serum, how long at most, and when.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DoseSoak : public ::testing::Test {
 protected:
  Json ask(const char* crop, const char* mass, Json more = Json::object()) {
    Json body{
        {"crop", crop}, {"mass", mass}, {"seed_is", "own"}, {"strength", "1:500"}, {"pages", true}};
    body.update(more);
    return facade.ask("dose.soak", body);
  }
  Facade facade;
};

// 20 kg of maize: 20 L, 40 mL (computed); maize bears 24 h (Harris et al. 1999), 12 h are taught.
TEST_F(DoseSoak, TwentyKilosOfMaizeTakeTwentyLitresForAtMostTwelveHours) {
  const Json answer = ask("maize", "20 kg");
  EXPECT_EQ(answer["water_l"], 20.0);
  EXPECT_EQ(answer["serum_ml"], 40.0);
  EXPECT_EQ(answer["hours_at_most"], 12.0);
  EXPECT_EQ(answer["crop_hours"], 24.0);
}

// Harris et al. 1999, abstract: 10 h for chickpea, below the taught 12 h. 1.5 L/kg for legumes.
TEST_F(DoseSoak, ChickpeaStopsAtTenHours) {
  const Json answer = ask("chickpea", "2 kg");
  EXPECT_EQ(answer["hours_at_most"], 10.0);
  EXPECT_EQ(answer["water_l"], 3.0);
  EXPECT_TRUE(answer["seed_splits"].get<bool>());
  bool published = false;
  for (const Json& source : answer["sources"])
    published = published || (source["id"] == "harris-1999" && source["kind"] == "published");
  EXPECT_TRUE(published);
}

TEST_F(DoseSoak, BeansMayBeSownDryAsWell) {
  EXPECT_TRUE(ask("bean", "1 kg")["or_none"].get<bool>());
  EXPECT_NE(ask("bean", "1 kg")["pages"].dump().find("Sowing it dry is taught as well"),
            std::string::npos);
}

// Six hours from the evening before would end in the night.
TEST_F(DoseSoak, AShortSoakIsPutInOnTheMorningOfSowing) {
  const Json bean = ask("bean", "1 kg"), maize = ask("maize", "1 kg");
  EXPECT_EQ(bean["put_in"], "morning-of-sowing");
  EXPECT_NE(bean["pages"].dump().find("morning of sowing, at 6:00, and take it out by 12:00"),
            std::string::npos);
  EXPECT_EQ(bean["pages"].dump().find("evening"), std::string::npos);
  EXPECT_EQ(maize["put_in"], "evening-before");
  EXPECT_NE(maize["pages"].dump().find("not before 19:00, and take it out by 7:00"),
            std::string::npos);
}

TEST_F(DoseSoak, BoughtSeedIsReadFirstAndSoakedSeedIsNoFood) {
  const Json bought = ask("maize", "1 kg", {{"seed_is", "bought"}}), own = ask("maize", "1 kg");
  EXPECT_NE(bought["pages"].dump().find("read the packet"), std::string::npos);
  EXPECT_EQ(own["pages"].dump().find("read the packet"), std::string::npos);
  EXPECT_NE(own["pages"].dump().find("not food"), std::string::npos);
  EXPECT_EQ(own["pages"].dump().find("wind"), std::string::npos);
}

TEST_F(DoseSoak, ATuberIsNotSoakedEvenWhenNobodySaysHowItIsSown) {
  const Json refused = problem(ask("potato", "5 kg"), "soak-not-seed");
  EXPECT_EQ(refused["field"], "/crop");
  EXPECT_EQ(refused["value"], "potato");
}

TEST_F(DoseSoak, DressedSeedIsNeverSoaked) {
  const Json answer = ask("maize", "20 kg", {{"seed_is", "dressed"}});
  const Json refused = problem(answer, "seed-dressed");
  EXPECT_EQ(refused["severity"], "error");
  EXPECT_EQ(refused["field"], "/seed_is");
  EXPECT_FALSE(answer.contains("hours_at_most"));
}

TEST_F(DoseSoak, MistakesAreNamedWithFieldAndCure) {
  EXPECT_EQ(problem(ask("potato", "5 kg", {{"sowing", "tuber"}}), "soak-not-seed")["field"],
            "/sowing");
  const Json unknown = problem(ask("maise", "5 kg"), "soak-crop-unknown");
  EXPECT_EQ(unknown["field"], "/crop");
  EXPECT_NE(unknown["cure"].get<std::string>().find("\"maize\""), std::string::npos);
  EXPECT_EQ(problem(ask("maize", "5 L"), "unit-other-kind")["field"], "/mass");
  EXPECT_EQ(problem(ask("maize", "0 kg"), "not-above-zero")["field"], "/mass");
  EXPECT_EQ(problem(ask("maize", "20000000 kg"), "seed-mass-out-of-range")["field"], "/mass");
  EXPECT_EQ(problem(ask("maize", "5 kg", {{"seed_is", "painted"}}), "choice-unknown")["value"],
            "painted");
  // All at once: crop, seed and strength.
  const Json all = ask("maise", "5 kg", {{"seed_is", "dressed"}, {"strength", "500"}});
  for (const char* code : {"soak-crop-unknown", "seed-dressed", "strength-unreadable"})
    EXPECT_FALSE(problem(all, code).is_null()) << code;
}

}  // namespace
}  // namespace wheyfield
