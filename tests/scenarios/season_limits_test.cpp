// Seasons at the edge: what cannot be planned is said, nothing hangs, nothing is guessed.
#include <gtest/gtest.h>

#include <support/beside.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

class SeasonLimits : public ::testing::Test {
 protected:
  Facade facade;
  Json season = practice();
};

// Half a spoon of milk stands at the line: not a millilitre of serum comes of it.
TEST_F(SeasonLimits, NoVesselLargeEnough) {
  for (Json& vessel : season["vessels"]) vessel["fill_line"] = "0.001 mL";
  const Json answer = facade.plan(season);
  const Json found = problem(answer, "no-vessel-fits");
  ASSERT_FALSE(found.is_null()) << answer["problems"];
  EXPECT_EQ(found["field"], "/vessels");
  EXPECT_EQ(found["severity"], "error");
  EXPECT_FALSE(answer.contains("batches"));
}

// Every hand-out lies before the first day on which any batch could be ready.
TEST_F(SeasonLimits, DueBeforeTheEarliestReadyDayIsSaidWithThatDay) {
  season["season"]["first_start"] = "2027-08-20";
  const Json plan = facade.plan(season);
  EXPECT_TRUE(plan["batches"].empty());
  EXPECT_FALSE(plan["shortages"].empty());
  const Json why = facade.ask("season.explain", {{"season", season}, {"pages", true}});
  // Proven on a grid of 10 mL a hand-out.
  const Json& unavoidable = why["unavoidable"];
  const auto days = static_cast<std::int64_t>(unavoidable["days"].size());
  EXPECT_GT(unavoidable["at_least_ml"].get<std::int64_t>(),
            unavoidable["short_ml"].get<std::int64_t>() - 10 * days);
  season["season"]["first_start"] = "2027-07-20";
  const Json later = facade.ask("season.explain", {{"season", season}, {"pages", true}});
  EXPECT_GT(later["unavoidable"]["earliest_ready"], "2027-07-31");
  EXPECT_NE(later["pages"].dump().find("The earliest that any batch can be ready is"),
            std::string::npos);
}

// The group meets on no day on which a batch could be emptied: helpers are agreed on before.
TEST_F(SeasonLimits, AMeetingDayNeverInsideAWindow) {
  season["season"]["first_start"] = "2027-02-11";
  season["milk"][0]["day"] = season["milk"][1]["day"] = "any";
  Json none = Json::array();
  for (auto day = calendar::parse_date("2027-02-11").value();
       day < calendar::parse_date("2027-08-31").value(); day = day + 7)
    if ((day - calendar::parse_date("2027-02-11").value()) % 28 != 0) none.push_back(day.iso());
  season["meetings"]["none_on"] = none;
  const Json plan = facade.plan(season);
  ASSERT_TRUE(plan.contains("batches")) << plan["problems"];
  ASSERT_FALSE(plan["batches"].empty());
  int helped = 0;
  for (const Json& task : plan["tasks"]) helped += task["task"] == "agree-helpers" ? 1 : 0;
  EXPECT_GT(helped, 0);
}

TEST_F(SeasonLimits, AColdPlaceWhereNothingIsReadyInTimeIsPlannedByItsSlowWindows) {
  for (Json& place : season["places"])
    for (Json& month : place["months"]) {
      month["min"] = "2.0";
      month["max"] = "9.0";
    }
  season["season"]["first_start"] = "2027-02-11";
  const Json plan = facade.plan(season);
  ASSERT_TRUE(plan.contains("batches")) << plan["problems"];
  for (const Json& batch : plan["batches"])
    for (const Json& step : batch["steps"]) EXPECT_EQ(step["place"], "cool");
}

TEST_F(SeasonLimits, ZeroPricesMakeACheapPlanAndNotABrokenOne) {
  for (Json& price : season["prices"]) price["price"] = "0";
  for (Json& milk : season["milk"]) milk["price"] = "0";
  season["labour"]["day"] = "0";
  const Json plan = facade.plan(season), priced = facade.plan(practice());
  ASSERT_TRUE(plan.contains("batches")) << plan["problems"];
  EXPECT_EQ(plan["plan"]["cost"], 0.0);
  EXPECT_EQ(plan["plan"]["gap"], 0.0);
  EXPECT_EQ(plan["shortages"][0]["short_ml"], priced["shortages"][0]["short_ml"]);
}

TEST_F(SeasonLimits, TenThousandFieldsOnOneDay) {
  const Json field = {{"crop", "maize"},    {"area", "0.5 acre"},
                      {"sowing", "direct"}, {"sown_on", "2027-03-22"},
                      {"seed", "own"},      {"harvest_after", "125 days"}};
  Json farm = season["farms"][0];
  farm["fields"] = Json::array();
  const int fields = testing::sanitized ? 1000 : 10000;
  for (int i = 0; i < fields; ++i) farm["fields"].push_back(field);
  season["farms"] = Json::array({farm});
  season["absences"] = Json::array();
  for (Json& vessel : season["vessels"]) {
    vessel["at"] = farm["code"];
    vessel["size"] = "20000 L";
    vessel["fill_line"] = "13000 L";
  }
  for (Json& milk : season["milk"]) milk["most"] = "4000 L";
  season["containers"] = Json::array();
  const Json plan = facade.ask("season.plan", {{"season", season}});
  ASSERT_TRUE(plan.contains("batches")) << plan["problems"].dump().substr(0, 2000);
  EXPECT_EQ(plan["season"]["fields"], fields);
  EXPECT_FALSE(plan["batches"].empty());
  EXPECT_TRUE(plan["plan"]["gap"].is_number());
}

}  // namespace
}  // namespace wheyfield
