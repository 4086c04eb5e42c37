// The season plan takes the milk stage from the warmth of the place: what it forecasts in the warm
// and in the cool place, for raw and for heated milk, and until a group has batches of its own. The
// practice season is invented; hours come from data/readiness.toml, computed by the model.
#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "support/plan_scenario.h"
#include "support/small_season.h"

namespace wheyfield {
namespace {

using testing::Json;
using testing::page;
using testing::practice;

using SeasonReadiness = testing::PlanScenario;

calendar::Date date_of(const Json& iso) {
  return calendar::parse_date(iso.get<std::string>()).value();
}

// Farm 7 lies low, farm 19 high.
Json brewed_at(const std::string& farm, const std::string& milk) {
  Json season = practice();
  for (Json& vessel : season["vessels"]) {
    vessel["at"] = farm;
    vessel["milk"] = milk;
  }
  return season;
}

const Json& milk_step(const Json& batch) { return batch["steps"][2]; }

int days_until(const Json& step, const char* mark) {
  return date_of(step["ready"][mark]) - date_of(step["from"]);
}

// The plan from the latest first start that serves all.
Json cured(testing::Facade& facade, Json season) {
  const Json late = facade.plan(season);
  EXPECT_FALSE(late["cure_start"].is_null());
  season["season"]["first_start"] = late["cure_start"];
  return facade.plan(season, true);
}

// By hand, March: below, a bucket at 15.9 + 0.44 x 12.9 = 21.6 C, nine in ten of heated milk sour
// in 102 h, 5 days, strained at the meeting on the seventh. Above, at 10.4 + 0.44 x 14.8 = 16.9 C,
// in 233 h, 10 days (in February 11): the meeting on the seventh day is too early, the next on the
// fourteenth. So for the hand-out of 11 March milk goes in on 25 February in place of 4 March; with
// the rinse-water, which keeps its taught windows, 1 + 9 days before in place of 1 + 6.
TEST_F(SeasonReadiness, MovingTheBucketsToTheCoolPlaceMovesBatchStartsEarlier) {
  const Json warm = cured(facade, brewed_at("7", "heated"));
  const Json cool = cured(facade, brewed_at("19", "heated"));
  EXPECT_EQ(warm["batches"][0]["start"], "2027-02-25");
  EXPECT_EQ(cool["batches"][0]["start"], "2027-02-15");
  EXPECT_EQ(milk_step(warm["batches"][0])["from"], "2027-03-04");
  EXPECT_EQ(milk_step(cool["batches"][0])["from"], "2027-02-25");
  for (const Json& batch : warm["batches"]) {
    EXPECT_NEAR(milk_step(batch)["forecast_celsius"].get<double>(), 21.0, 1.0);
    EXPECT_EQ(days_until(milk_step(batch), "late"), 5);
  }
  for (const Json& batch : cool["batches"]) {
    EXPECT_NEAR(milk_step(batch)["forecast_celsius"].get<double>(), 16.5, 1.0);
    EXPECT_GE(days_until(milk_step(batch), "late"), 10);
  }
  EXPECT_TRUE(warm["shortages"].empty());
  EXPECT_TRUE(cool["shortages"].empty());
}

// Above, raw milk is sour within the week that passes between two meetings, heated milk is not.
TEST_F(SeasonReadiness, HeatedMilkIsBegunEarlierThanRawInTheCoolPlace) {
  const Json raw = cured(facade, brewed_at("19", "raw"));
  const Json heated = cured(facade, brewed_at("19", "heated"));
  EXPECT_EQ(raw["batches"][0]["start"], "2027-02-22");
  EXPECT_LT(heated["batches"][0]["start"].get<std::string>(),
            raw["batches"][0]["start"].get<std::string>());
  for (const Json& batch : raw["batches"]) EXPECT_LE(days_until(milk_step(batch), "late"), 5);
}

TEST_F(SeasonReadiness, ABatchSaysWhichForecastItGoesByAndOnWhatItRests) {
  const Json plan = facade.plan(practice(), true);
  const std::string batches = page(plan, "batches")->dump();
  // B1: milk on 11 March at 21.6 C. 36 and 59 h would be two and three days, 102 h are five.
  EXPECT_NE(batches.find("for a bucket of about 22 C, from Sun 14 Mar, likely Sun 14 Mar, nine in "
                         "ten by Tue 16 Mar."),
            std::string::npos)
      << batches;
  EXPECT_NE(batches.find("The published 3 days are the least until 3 batches of your own"),
            std::string::npos);
  EXPECT_EQ(batches.find("Souring milk (cool place: longer)"), std::string::npos);
  bool table = false, bulletin = false;
  for (const Json& source : plan["sources"])
    for (const Json& use : source["used_for"]) {
      table = table || (source["id"] == "computed-here" && use == "readiness.milk");
      bulletin = bulletin || (source["id"] == "ctahr-sa-8" && use == "step.milk");
    }
  EXPECT_TRUE(table);
  EXPECT_TRUE(bulletin);
}

// Rice rinse-water keeps the windows that are taught: which pH is ready is not published.
TEST_F(SeasonReadiness, OnlyTheMilkIsForecast) {
  const Json plan = facade.plan(practice());
  for (const Json& batch : plan["batches"])
    for (const Json& step : batch["steps"])
      EXPECT_EQ(step["forecast_celsius"].is_null(), step["step"] != "milk") << step;
}

// Raw milk at 28 C: 12.4, 18.2 and 26.9 h, two days at the most.
TEST(SeasonReadinessOfOwnBatches, ThreeRecordedBatchesLiftTheFloorOfThreeDays) {
  season::Season s =
      testing::season_of({testing::field("maize", 1, calendar::Date::from_civil(2027, 4, 5), 125)});
  s.places[0] = testing::steady_place("low", 28.0, 5);
  s.vessels[0].milk = season::Milk::raw;
  const auto with = [&](int recorded) {
    season::PlanRules rules = season::PlanRules::of(testing::bundle());
    rules.readiness.batches_recorded = recorded;
    reference_data::UsedSources used;
    return testing::value_or_abort(
        season::make_plan(s, testing::serum_recipe(), testing::crops(), testing::bundle(), rules,
                          season::BackScheduler(), season::BackScheduler(), {}, used));
  };
  for (const int recorded : {0, 2, 3, 10}) {
    const season::SeasonPlan plan = with(recorded);
    ASSERT_TRUE(plan.broken.empty());
    ASSERT_FALSE(plan.batches.batches.empty());
    const season::BatchStep& milk = plan.batches.batches[0].steps[2];
    EXPECT_EQ(milk.ready.early - milk.from, recorded < 3 ? 3 : 1) << recorded;
    EXPECT_EQ(milk.ready.likely - milk.from, recorded < 3 ? 3 : 1) << recorded;
    EXPECT_EQ(milk.ready.late - milk.from, recorded < 3 ? 3 : 2) << recorded;
  }
}

// A frosty place: 6 to 16 C is 10.4 C in the bucket, where heated milk is never sour in 600 h.
TEST_F(SeasonReadiness, WhereMilkIsNeverSourNoneIsPlannedAndThePlanSaysSo) {
  Json season = brewed_at("19", "heated");
  for (Json& month : season["places"][1]["months"]) {
    month["min"] = "6";
    month["max"] = "16";
  }
  const Json plan = facade.plan(season, true);
  EXPECT_TRUE(plan["batches"].empty());
  EXPECT_FALSE(plan["shortages"].empty());
  const Json cold = testing::problem(plan, "too-cold-all-season");
  EXPECT_EQ(cold["field"], "/vessels/0");
  EXPECT_EQ(cold["severity"], "notice");
  EXPECT_NE(cold["text"].get<std::string>().find("upper"), std::string::npos) << cold;
  const Json why = facade.ask("season.explain", {{"season", season}});
  EXPECT_TRUE(why["unavoidable"]["earliest_ready"].is_null());
}

// A cold February and March, then as warm as ever: the first day that works is named.
TEST_F(SeasonReadiness, WhereItIsTooColdOnlyAtFirstTheFirstDayThatWorksIsNamed) {
  Json season = brewed_at("19", "heated");
  for (std::size_t month : {0, 1}) {
    season["places"][1]["months"][month]["min"] = "2";
    season["places"][1]["months"][month]["max"] = "12";
  }
  const Json plan = facade.plan(season, true);
  const Json cold = testing::problem(plan, "too-cold-to-plan");
  ASSERT_FALSE(cold.is_null());
  const std::string text = cold["text"];
  ASSERT_FALSE(plan["batches"].empty());
  const std::string first = milk_step(plan["batches"][0])["from"];
  EXPECT_NE(text.find("2027-03-04"), std::string::npos) << text;
  EXPECT_GT(first, "2027-03-04");
}

}  // namespace
}  // namespace wheyfield
