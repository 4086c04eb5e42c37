// The heap's log against rules, and the two formulas that go with it.
#include "compost/heap_log.h"

#include <gtest/gtest.h>

#include "compost/turning.h"
#include "embedded.h"

namespace wheyfield::compost {
namespace {

using calendar::Date;

const Date built = Date::from_civil(2027, 3, 11);

// Day 1 to `days`, each at `celsius`, turned on the days of the 18-day calendar.
HeapLog steady(int days, double celsius) {
  HeapLog log{built, {}};
  for (int day = 1; day <= days; ++day)
    log.days.push_back({built + day, celsius, day >= 4 && day <= 16 && day % 2 == 0, {}});
  return log;
}

std::vector<HeatRule> rules() {
  const auto data = reference_data::ReferenceData::parse(embedded::data_json());
  return *read_heat_rules(*data);
}

HeatRule rule(const std::string& id) {
  for (const HeatRule& one : rules())
    if (one.id == id) return one;
  return {};
}

// 40 CFR 257, Appendix II: windrow, 55 C or more on 15 days and five turnings.
TEST(HeapLog, FifteenDaysAtFiftyFiveAndFiveTurningsMeetTheWindrowRule) {
  const RuleVerdict verdict = judge(rule("windrow"), steady(18, 55.0), {});
  EXPECT_EQ(verdict.verdict, Verdict::met);
  EXPECT_EQ(verdict.days, 18);
  EXPECT_EQ(verdict.turnings, 7);
  EXPECT_EQ(judge(rule("windrow"), steady(18, 54.9), {}).verdict, Verdict::not_met);
  EXPECT_EQ(judge(rule("windrow"), steady(14, 60.0), {}).verdict, Verdict::not_met);
}

TEST(HeapLog, FourTurningsAreNotEnoughAndATurningBeforeTheHeatDoesNotCount) {
  HeapLog log = steady(18, 60.0);
  for (HeapDay& day : log.days) day.turned = day.turned && day.date - built <= 10;
  EXPECT_EQ(judge(rule("windrow"), log, {}).turnings, 4);
  EXPECT_EQ(judge(rule("windrow"), log, {}).verdict, Verdict::not_met);
  log.days.insert(log.days.begin(), HeapDay{built, 25.0, true, {}});
  EXPECT_EQ(judge(rule("windrow"), log, {}).turnings, 4);
  EXPECT_EQ(log.turnings(), 5);
}

TEST(HeapLog, DaysNobodyReadLeaveItOpenAndAreNamed) {
  HeapLog log = steady(18, 60.0);
  for (const int day : {1, 2, 3, 9}) log.days[static_cast<std::size_t>(day) - 1].celsius.reset();
  const RuleVerdict verdict = judge(rule("windrow"), log, {});
  EXPECT_EQ(verdict.verdict, Verdict::cannot_say);
  EXPECT_EQ(verdict.days, 14);
  EXPECT_EQ(verdict.longest_run, 9);
  EXPECT_EQ(verdict.open, (std::vector<Date>{built + 1, built + 2, built + 3, built + 9}));
  // Enough days read: what was not read does not matter.
  EXPECT_EQ(judge(rule("who-2006"), log, {}).verdict, Verdict::met);
  // Even if all of them had been hot: too few.
  for (int day = 10; day <= 14; ++day) log.days[static_cast<std::size_t>(day) - 1].celsius = 40.0;
  EXPECT_EQ(judge(rule("windrow"), log, {}).verdict, Verdict::not_met);
}

TEST(HeapLog, ADayWithoutARowIsADayNobodyRead) {
  HeapLog log = steady(5, 60.0);
  log.days.erase(log.days.begin() + 2);
  EXPECT_EQ(log.unread(), (std::vector<Date>{built + 3}));
}

// 7 CFR 205.203(c)(2): 131 to 170 F, and a first C:N of 25 to 40.
TEST(HeapLog, TheOrganicRuleAsksForTheFirstRatioAndHasAnUpperEnd) {
  EXPECT_NEAR((170.0 - 32.0) / 1.8, *rule("us-organic").celsius_most, 0.05);
  EXPECT_NEAR((131.0 - 32.0) / 1.8, rule("us-organic").celsius, 0.05);
  EXPECT_EQ(judge(rule("us-organic"), steady(18, 60.0), 30.0).verdict, Verdict::met);
  EXPECT_EQ(judge(rule("us-organic"), steady(18, 60.0), 41.0).verdict, Verdict::not_met);
  const RuleVerdict open = judge(rule("us-organic"), steady(18, 60.0), {});
  EXPECT_EQ(open.verdict, Verdict::cannot_say);
  EXPECT_TRUE(open.ratio_unknown);
  EXPECT_EQ(judge(rule("us-organic"), steady(18, 78.0), 30.0).days, 0);
}

TEST(HeapLog, TheWorldHealthRuleIsAboveFiftyAndNotAtIt) {
  EXPECT_EQ(judge(rule("who-2006"), steady(7, 50.0), {}).verdict, Verdict::not_met);
  EXPECT_EQ(judge(rule("who-2006"), steady(7, 50.1), {}).verdict, Verdict::met);
}

// D = 131,700,000 / 10^(0.14 t) as a state code prints it; values worked out here.
TEST(HeapLog, HotterIsShorterByTheTimeTemperatureLine) {
  const auto days = [](double celsius) { return days_at(celsius, 131.7e6, 0.14); };
  EXPECT_NEAR(days(50.0), 13.170, 5e-4);
  EXPECT_NEAR(days(55.0), 2.6278, 5e-5);
  EXPECT_NEAR(days(60.0), 0.52431, 5e-6);
  EXPECT_NEAR(days(65.0) * 24.0, 2.51, 5e-3);
  EXPECT_NEAR(days(70.0) * 24.0, 0.50, 5e-3);
}

// 15 % ash that becomes 30 %: 58.8 % of the dry matter is gone (worked out).
TEST(HeapLog, AshThatDoublesTellsWhatIsGone) {
  EXPECT_NEAR(dry_matter_lost(15.0, 30.0), 0.588, 5e-4);
  EXPECT_EQ(dry_matter_lost(20.0, 20.0), 0.0);
}

TEST(HeapLog, ShrinkageIsByTheFirstAndTheLastHeight) {
  HeapLog log = steady(18, 60.0);
  EXPECT_FALSE(log.shrinkage().has_value());
  log.days.front().height = 1.5;
  EXPECT_FALSE(log.shrinkage().has_value());
  log.days[8].height = 1.0;
  log.days.back().height = 0.9;
  EXPECT_NEAR(*log.shrinkage(), 0.4, 1e-12);
}

TEST(HeapTurning, TheEighteenDayWayTurnsSevenTimes) {
  EXPECT_EQ(turning_days({4, 2, 7, 18}), (std::vector<int>{4, 6, 8, 10, 12, 14, 16}));
}

}  // namespace
}  // namespace wheyfield::compost
