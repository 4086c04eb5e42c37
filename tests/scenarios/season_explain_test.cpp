// "You are 3 L short: why, and what cures it?" and "How sure is this plan?"
#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

Json explained(Facade& facade, const Json& season) {
  return facade.ask("season.explain", {{"season", season}, {"pages", true}});
}

// PRACTICE item 18: all land preparation of the lower farms is short; more milk or buckets cannot
// help; the first start of 25 February cures it.
TEST(SeasonExplain, TheShortWeekIsProvenAndItsCureWrittenIntoTheFileMakesThePlanFeasible) {
  Facade facade;
  Json season = practice();
  const Json why = explained(facade, season);
  EXPECT_EQ(why["unavoidable"]["short_ml"], 3623);
  EXPECT_EQ(why["unavoidable"]["at_least_ml"], 3620);
  EXPECT_EQ(why["unavoidable"]["days"][0]["collect_on"], "2027-03-11");
  // Started on Thursday 4 March, poured a week later, emptied at the meeting of 18 March.
  EXPECT_EQ(why["unavoidable"]["earliest_ready"], "2027-03-18");
  EXPECT_NE(why["pages"].dump().find("can be ready is Thu 18 Mar"), std::string::npos);
  std::string not_alone;
  for (const Json& one : why["unavoidable"]["not_enough_alone"])
    not_alone += one["limit"].get<std::string>() + " ";
  EXPECT_EQ(not_alone, "milk vessel life ");
  ASSERT_FALSE(why["cures"].empty());
  const Json& cure = why["cures"][0];
  EXPECT_EQ(cure["short_after"], 0);
  EXPECT_EQ(cure["change"][0]["first_start"], "2027-02-25");
  season["season"]["first_start"] = cure["change"][0]["first_start"];
  const Json plan = facade.plan(season);
  EXPECT_TRUE(plan["shortages"].empty());
  EXPECT_EQ(plan["season"]["feasible"], true);
  EXPECT_EQ(explained(facade, season)["unavoidable"]["short_ml"], 0);
}

TEST(SeasonExplain, ThePlanAndItsExplanationNameTheSameStart) {
  Facade facade;
  for (const char* name : {"practice", "practice-cool"}) {
    const Json season = practice(name);
    const Json plan = facade.plan(season);
    const Json why = explained(facade, season);
    bool named = false;
    for (const Json& cure : why["cures"])
      for (const Json& change : cure["change"])
        named |= change.value("first_start", "") == plan["cure_start"];
    EXPECT_TRUE(named) << name << " " << plan["cure_start"] << " " << why["cures"];
  }
}

TEST(SeasonExplain, AtMostThreeCuresCheapestFirst) {
  Facade facade;
  Json season = practice();
  season["season"]["first_start"] = "2027-02-25";
  season["milk"][0]["most"] = "2 L";
  const Json why = explained(facade, season);
  ASSERT_GT(why["unavoidable"]["short_ml"], 0) << "half the milk is too little";
  ASSERT_FALSE(why["cures"].empty());
  EXPECT_LE(why["cures"].size(), 3U);
  double before = 0.0;
  for (const Json& cure : why["cures"]) {
    if (cure["change"][0]["what"] == "one-more-vessel") break;
    EXPECT_GE(cure["cost"], before);
    before = cure["cost"];
  }
}

TEST(SeasonRisk, SaysForEveryHandOutHowOftenItComesInTime) {
  Facade facade;
  const Json risk = facade.ask("season.risk", {{"season", practice()}, {"seasons", 4000}});
  EXPECT_EQ(risk["on_time"]["seasons"], 4000);
  EXPECT_EQ(risk["failure"]["own"], false);
  EXPECT_EQ(risk["failure"]["missing"], 10);
  ASSERT_FALSE(risk["days"].empty());
  EXPECT_EQ(risk["days"][0]["collect_on"], "2027-03-11");
  EXPECT_EQ(risk["days"][0]["on_time"], 0.0) << "it is short in every season";
  for (const Json& day : risk["days"]) {
    EXPECT_GE(day["on_time"], 0.0);
    EXPECT_LE(day["on_time"], 1.0);
  }
}

TEST(SeasonRisk, AnotherSeedIsAnotherChanceAndTheSameSeedTheSame) {
  Facade facade;
  const Json body = {{"season", practice()}, {"seasons", 500}};
  Json other = body;
  other["seed"] = 2;
  const Json one = facade.ask("season.risk", body);
  EXPECT_EQ(one["on_time"], Facade("2027-02-20").ask("season.risk", body)["on_time"]);
  EXPECT_NE(one["on_time"], facade.ask("season.risk", other)["on_time"]);
}

TEST(SeasonRisk, TenOwnBatchesReplaceTheGuess) {
  Facade facade;
  facade.say("journal.import", {{"season", practice()}});
  for (int i = 1; i <= 10; ++i) {
    const std::string label = "K" + std::to_string(i);
    facade.note("batch", {{"label", label}, {"vessel", "A"}});
    if (i <= 2)
      facade.note("lost", {{"batch", label}});
    else
      facade.note("made", {{"batch", label}, {"product", "serum"}, {"amount", "4 L"}});
  }
  const Json risk = facade.ask("season.risk", {{"seasons", 500}, {"pages", true}});
  EXPECT_EQ(risk["failure"]["own"], true);
  EXPECT_NEAR(risk["failure"]["share"], 2.5 / 11.0, 1e-6);
  EXPECT_NE(risk["pages"].dump().find("10 of your own batches"), std::string::npos);
}

TEST(SeasonRisk, NoSeasonsOrTooManyAreRefused) {
  Facade facade;
  for (const int seasons : {0, 2000000}) {
    const Json risk = facade.ask("season.risk", {{"season", practice()}, {"seasons", seasons}});
    EXPECT_FALSE(problem(risk, seasons == 0 ? "seasons-out-of-range" : "not-a-count").is_null())
        << risk["problems"];
  }
}

}  // namespace
}  // namespace wheyfield
