// Have the rains begun? From a rain book, by a rule that is named.
#include <gtest/gtest.h>

#include <map>

#include "calendar/date.h"
#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class OnsetOfRains : public ::testing::Test {
 protected:
  // Days counted from 1 March 2027 as day 1; what is not named is dry.
  static Json rain(int days, const std::map<int, double>& wet) {
    Json list = Json::array();
    for (int i = 1; i <= days; ++i) {
      const auto found = wet.find(i);
      list.push_back({{"date", (calendar::Date::from_civil(2027, 3, 1) + (i - 1)).iso()},
                      {"mm", found == wet.end() ? 0.0 : found->second}});
    }
    return list;
  }
  Json ask(const Json& list, const char* rule = "two-days", const char* earliest = "2027-03-01") {
    return facade.ask("crop.onset",
                      {{"rain", list}, {"rule", rule}, {"earliest", earliest}, {"pages", true}});
  }
  Facade facade{"2027-06-01"};
};

// Worked out by hand: 21 mm on days 5 and 6, the longest dry run after it is 7 days.
TEST_F(OnsetOfRains, TwoWetDaysWithoutALongDryRunAreTheOnset) {
  const Json answer = ask(rain(60, {{5, 12}, {6, 9}, {14, 3}, {22, 3}, {30, 3}, {36, 3}}));
  EXPECT_EQ(answer["state"], "onset");
  EXPECT_EQ(answer["day"], "2027-03-06");
  EXPECT_EQ(answer["watch_to"], "2027-04-05");
  EXPECT_EQ(answer["longest_dry_run"], 7);
  EXPECT_NE(answer["pages"].dump().find("The rains have begun on Sat 6 Mar"), std::string::npos);
  EXPECT_EQ(answer["pages"].dump().find("\"["), std::string::npos) << answer["pages"].dump();
}

// The same, but the third rain comes four days later: eleven dry days.
TEST_F(OnsetOfRains, OneStormThatOnlyLookedLikeItIsAFalseStart) {
  const Json answer = ask(rain(60, {{5, 12}, {6, 9}, {18, 3}, {22, 3}, {30, 3}, {36, 3}}));
  EXPECT_EQ(answer["state"], "false-start");
  EXPECT_EQ(answer["false_starts"], Json::array({"2027-03-06"}));
  EXPECT_EQ(answer["longest_dry_run"], 11);
  EXPECT_NE(answer["text"].get<std::string>().find("Wait for the next rain"), std::string::npos);
}

TEST_F(OnsetOfRains, UntilTheDaysToWatchHavePassedItIsProvisional) {
  const Json answer = ask(rain(20, {{5, 12}, {6, 9}, {14, 3}}));
  EXPECT_EQ(answer["state"], "provisional");
  EXPECT_EQ(ask(rain(20, {{5, 3}}))["state"], "none");
  EXPECT_TRUE(ask(rain(20, {{5, 3}}))["day"].is_null());
}

// 1-10 March 30 mm, 11-20 March 15 mm, 21-31 March 21 mm.
TEST_F(OnsetOfRains, WhatTheOtherRulesSayStandsBeside) {
  const Json answer = ask(rain(31, {{3, 30}, {12, 15}, {25, 21}}), "dekad-each");
  EXPECT_EQ(answer["state"], "false-start");
  ASSERT_EQ(answer["beside"].size(), 5u);
  std::string total;
  for (const Json& other : answer["beside"])
    if (other["rule"] == "dekad-total") total = other["state"];
  EXPECT_EQ(total, "onset");
  EXPECT_TRUE(answer["longest_dry_run"].is_null()) << "this rule watches no dry run";
}

TEST_F(OnsetOfRains, ARuleOfTenDaysDoesNotNameADay) {
  const auto text = [&](const Json& list) {
    return ask(list, "dekad-total")["text"].get<std::string>();
  };
  EXPECT_EQ(text(rain(31, {{3, 30}, {12, 15}, {25, 21}})),
            "The rains have begun in the ten days from Mon 1 Mar.");
  EXPECT_NE(text(rain(20, {{3, 30}})).find("in the ten days from Mon 1 Mar"), std::string::npos);
  EXPECT_NE(text(rain(31, {{3, 30}})).find("in the ten days from Mon 1 Mar"), std::string::npos);
  EXPECT_EQ(text(rain(31, {})), "The rains have not begun.");
  EXPECT_TRUE(problem(ask(rain(31, {{5, 12}})), "seen-after-today").is_null());
}

TEST_F(OnsetOfRains, RainOfDaysToComeIsAskedAboutOnce) {
  Facade early{"2027-03-20"};
  const Json answer = early.ask(
      "crop.onset",
      {{"rain", rain(31, {{5, 12}, {6, 9}})}, {"rule", "two-days"}, {"earliest", "2027-03-01"}});
  ASSERT_EQ(answer["problems"].size(), 1u);
  const Json asked = problem(answer, "seen-after-today");
  EXPECT_EQ(asked["severity"], "question");
  EXPECT_EQ(asked["field"], "/rain/20/date");
  EXPECT_EQ(asked["value"], "2027-03-21");
  EXPECT_EQ(answer["day"], "2027-03-06");
}

TEST_F(OnsetOfRains, AMonthLeftOutIsNotTakenForDry) {
  Json list = rain(92, {{5, 12}, {6, 9}});
  list.erase(list.begin() + 31, list.begin() + 61);
  const Json answer = ask(list);
  const Json refused = problem(answer, "rain-month-missing");
  EXPECT_EQ(refused["value"], "2027-04");
  EXPECT_EQ(refused["field"], "/rain/31/date");
  EXPECT_FALSE(answer.contains("state"));
}

TEST_F(OnsetOfRains, BadRainIsNamedByItsRow) {
  Json gap = rain(30, {});
  gap.erase(7);
  EXPECT_EQ(problem(ask(gap), "rain-gap")["value"], "2027-03-08");
  Json twice = rain(30, {});
  twice.push_back(twice[2]);
  EXPECT_EQ(problem(ask(twice), "rain-day-twice")["field"], "/rain/30/date");
  Json blank = rain(30, {});
  blank[3].erase("mm");
  const Json unread = problem(ask(blank), "missing-mm");
  EXPECT_EQ(unread["field"], "/rain/3/mm");
  EXPECT_NE(unread["cure"].get<std::string>().find("0 for a dry day"), std::string::npos);
  EXPECT_EQ(problem(ask(rain(30, {{4, -1}})), "rain-out-of-range")["field"], "/rain/3/mm");
  EXPECT_FALSE(problem(ask(Json::array()), "rain-missing").is_null());
}

TEST_F(OnsetOfRains, TheRuleAndTheEarliestDayAreNeverGuessed) {
  const Json list = rain(30, {{5, 12}, {6, 9}});
  const Json unknown = problem(ask(list, "two-dais"), "onset-rule-unknown");
  EXPECT_NE(unknown["cure"].get<std::string>().find("\"two-days\""), std::string::npos);
  EXPECT_NE(unknown["expected"].get<std::string>().find("dekad-each"), std::string::npos);
  const Json bare = facade.ask("crop.onset", {{"rain", list}});
  EXPECT_FALSE(problem(bare, "missing-rule").is_null());
  EXPECT_FALSE(problem(bare, "missing-earliest").is_null());
  EXPECT_FALSE(problem(ask(list, "two-days", "2027-06-01"), "earliest-outside-rain").is_null());
}

}  // namespace
}  // namespace wheyfield
