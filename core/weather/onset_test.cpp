#include "weather/onset.h"

#include <string>
#include <utility>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::weather {
namespace {

using calendar::Date;
using State = Onset::State;

// Day 1 is 1 March.
const Date day1 = Date::from_civil(2027, 3, 1);

RainSeries rain(int days, std::vector<std::pair<int, double>> wet) {
  RainSeries series{day1, std::vector<double>(static_cast<std::size_t>(days), 0.0)};
  for (const auto& [day, mm] : wet) series.mm[static_cast<std::size_t>(day - 1)] = mm;
  return series;
}

const std::vector<OnsetRule>& rules() {
  static const auto all = testing::value_or_abort(read_onset_rules(testing::bundle()));
  return all;
}

Onset onset(const RainSeries& series, const char* rule, Date earliest = day1) {
  return testing::value_or_abort(onset_of_rains(series, *find_onset_rule(rules(), rule), earliest));
}

// The series and both answers were worked out by hand: longest dry runs 7 and, moved, 11 days.
const std::vector<std::pair<int, double>> good{{5, 12}, {6, 9}, {14, 3}, {22, 3}, {30, 3}, {36, 3}};
const std::vector<std::pair<int, double>> late{{5, 12}, {6, 9}, {18, 3}, {22, 3}, {30, 3}, {36, 3}};

TEST(WeatherOnset, TwoWetDaysAndNoLongDryRunAreTheOnset) {
  const Onset found = onset(rain(60, good), "two-days");
  EXPECT_EQ(found.state, State::onset);
  EXPECT_EQ(found.day - day1 + 1, 6);
  EXPECT_EQ(found.longest_dry_run, 7);
  EXPECT_TRUE(found.false_starts.empty());
}

TEST(WeatherOnset, ElevenDryDaysMakeItAFalseStart) {
  const Onset found = onset(rain(60, late), "two-days");
  EXPECT_EQ(found.state, State::false_start);
  EXPECT_EQ(found.longest_dry_run, 11);
  ASSERT_EQ(found.false_starts.size(), 1u);
  EXPECT_EQ(found.false_starts[0] - day1 + 1, 6);
}

TEST(WeatherOnset, AfterAFalseStartTheSearchGoesOn) {
  auto again = late;
  again.insert(again.end(), {{40, 25}, {45, 2}, {50, 2}, {55, 2}, {60, 2}, {65, 2}, {70, 2}});
  const Onset found = onset(rain(75, again), "two-days");
  EXPECT_EQ(found.state, State::onset);
  EXPECT_EQ(found.day - day1 + 1, 40);
  EXPECT_EQ(found.false_starts.size(), 1u);
}

TEST(WeatherOnset, UntilThirtyDaysHavePassedTheAnswerIsProvisional) {
  for (int days = 6; days <= 60; ++days) {
    const Onset found = onset(rain(days, {good.begin(), good.begin() + 2}), "two-days");
    EXPECT_EQ(found.state, days < 6 + 10 ? State::provisional : State::false_start) << days;
    EXPECT_EQ(found.watch_to - day1 + 1, 36) << days;
  }
  EXPECT_EQ(onset(rain(40, good), "two-days").state, State::onset);
  EXPECT_EQ(onset(rain(36, good), "two-days").state, State::onset);
  RainSeries open = rain(36, good);
  open.mm.pop_back();
  EXPECT_EQ(onset(open, "two-days").state, State::provisional);
}

// A run of exactly 8 dry days after the pair: longer than 7, shorter than 10.
TEST(WeatherOnset, TheStricterRulesRefuseADrySpellLongerThanSevenDays) {
  const std::vector<std::pair<int, double>> eight{{5, 12}, {6, 9},  {15, 3},
                                                  {22, 3}, {29, 3}, {36, 3}};
  EXPECT_EQ(onset(rain(60, eight), "two-days").state, State::onset);
  EXPECT_EQ(onset(rain(60, eight), "three-days-30").state, State::false_start);
  EXPECT_EQ(onset(rain(60, eight), "three-days-30").false_starts.size(), 1u);
  EXPECT_EQ(onset(rain(60, good), "three-days-30").state, State::onset);
  // The spell comes after 21 days: only the longer watch sees it.
  const std::vector<std::pair<int, double>> dry_end{{5, 12}, {6, 9}, {13, 3}, {20, 3}, {27, 3}};
  EXPECT_EQ(onset(rain(60, dry_end), "three-days-21").state, State::onset);
  EXPECT_EQ(onset(rain(60, dry_end), "three-days-30").state, State::false_start);
}

TEST(WeatherOnset, ThreeDaysMayGatherWhatTwoDoNot) {
  const auto spread = rain(60, {{5, 8}, {6, 6}, {7, 6}, {14, 3}, {22, 3}, {30, 3}, {37, 3}});
  EXPECT_EQ(onset(spread, "three-days-30").day - day1 + 1, 7);
  EXPECT_EQ(onset(spread, "two-days").state, State::none);
}

TEST(WeatherOnset, RainBeforeTheEarliestDayDoesNotCount) {
  EXPECT_EQ(onset(rain(60, good), "two-days", day1 + 5).state, State::none);
  EXPECT_EQ(onset(rain(60, good), "two-days", day1 + 4).day - day1 + 1, 6);
}

// 1-10 March 30 mm, 11-20 March 15, 21-31 March 21: 36 together, but not 20 each.
TEST(WeatherOnset, TheDekadRuleHasTwoReadingsAndTheyCanDisagree) {
  const auto march = rain(31, {{3, 30}, {12, 15}, {25, 21}});
  EXPECT_EQ(onset(march, "dekad-each").state, State::false_start);
  const Onset total = onset(march, "dekad-total");
  EXPECT_EQ(total.state, State::onset);
  EXPECT_EQ(total.day, day1);
  EXPECT_EQ(total.watch_to.iso(), "2027-03-31");
  EXPECT_EQ(onset(rain(30, {{3, 30}, {12, 15}, {25, 21}}), "dekad-total").state,
            State::provisional);
  EXPECT_EQ(onset(rain(25, {{3, 30}, {12, 15}}), "dekad-total").state, State::provisional)
      << "the last ten days may still bring it to 20";
  EXPECT_EQ(onset(rain(31, {{3, 30}, {12, 20}, {25, 21}}), "dekad-each").state, State::onset);
}

// Each list adds up to its rule's amount in tenths of a millimetre; as binary fractions it misses
// it by a rounding.
TEST(WeatherOnset, RainThatReachesTheAmountExactlyCounts) {
  const Onset spell = onset(rain(12, {{3, 0.9}, {4, 15.2}, {5, 3.9}}), "three-days-30");
  EXPECT_EQ(spell.state, State::provisional);
  EXPECT_EQ(spell.day - day1 + 1, 5);
  const std::vector<std::pair<int, double>> dekads{
      {1, 11.6},  {3, 1.7},  {5, 4.5},  {7, 2.7},  {9, 4.5},   {11, 1.1}, {13, 1.1},
      {15, 16.4}, {17, 1.4}, {21, 1.1}, {23, 1.1}, {25, 16.4}, {27, 1.4}};
  EXPECT_EQ(onset(rain(31, dekads), "dekad-each").state, State::onset);
  const std::vector<std::pair<int, double>> together{dekads.begin(), dekads.begin() + 9};
  EXPECT_EQ(onset(rain(31, together), "dekad-total").state, State::onset);
  const Onset all = onset(rain(14, {{1, 8.1},
                                    {2, 6.9},
                                    {3, 8.5},
                                    {4, 2.2},
                                    {5, 4.5},
                                    {6, 39.7},
                                    {7, 8.0},
                                    {8, 5.4},
                                    {9, 78.2},
                                    {10, 8.2},
                                    {11, 7.7},
                                    {12, 22.6}}),
                          "accumulated");
  EXPECT_EQ(all.day - day1 + 1, 12);
  EXPECT_EQ(onset(rain(12, {{3, 0.9}, {4, 15.2}, {5, 3.8}}), "three-days-30").state, State::none);
}

TEST(WeatherOnset, DekadsBeginOnThe1stThe11thAndThe21st) {
  const auto series = rain(61, {{12, 30}, {22, 25}, {33, 25}, {45, 1}});
  EXPECT_EQ(onset(series, "dekad-each", day1 + 1).day.iso(), "2027-03-11");
  EXPECT_EQ(onset(series, "dekad-each", day1 + 1).watch_to.iso(), "2027-04-10");
}

TEST(WeatherOnset, AccumulatedRainNeedsNoWatching) {
  const auto series = rain(60, {{2, 90}, {20, 90}, {33, 19}, {34, 1}});
  const Onset found = onset(series, "accumulated");
  EXPECT_EQ(found.state, State::onset);
  EXPECT_EQ(found.day - day1 + 1, 34);
  EXPECT_EQ(onset(series, "accumulated", day1 + 2).state, State::none);
}

// Another road: the rule in its own words, tried on every day of random years.
TEST(WeatherOnset, TheFirstDayThatKeepsTheRuleIsFoundInRandomSeasons) {
  testing::Draw draw(20270401);
  for (int round = 0; round < 200; ++round) {
    RainSeries series = rain(120, {});
    for (double& mm : series.mm)
      if (draw.below(4) == 0) mm = draw.real(0.2, 25.0);
    int expected = 0;
    for (int d = 1; d <= 90 && !expected; ++d) {
      const auto mm = [&](int day) {
        return day < 1 ? 0.0 : series.mm[static_cast<std::size_t>(day - 1)];
      };
      bool keeps = mm(d) >= 0.85 && mm(d - 1) + mm(d) >= 20.0;
      for (int first = d + 1; first + 9 <= d + 30; ++first) {
        bool dry = true;
        for (int k = 0; k < 10; ++k) dry = dry && mm(first + k) < 0.85;
        keeps = keeps && !dry;
      }
      if (keeps) expected = d;
    }
    if (!expected) continue;
    const Onset found = onset(series, "two-days");
    ASSERT_EQ(found.day - day1 + 1, expected) << round;
    ASSERT_EQ(found.state, State::onset) << round;
  }
}

std::string refused(const std::vector<RainDay>& days) {
  const auto series = rain_from_days(days);
  if (series) return "";
  const outcome::Problem& first = series.error()[0];
  return first.code + " " + first.field + " " + first.value;
}

TEST(WeatherRain, AMissingMonthADayLeftOutAndASlipAreRefused) {
  std::vector<RainDay> days;
  for (int i = 0; i < 120; ++i) days.push_back({day1 + i, i % 5 ? 0.0 : 6.0});
  const auto whole = rain_from_days(days);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->mm.size(), 120u);
  auto gap = days;
  gap.erase(gap.begin() + 10, gap.begin() + 12);
  EXPECT_EQ(refused(gap), "rain-gap /rain/10/day 2027-03-11");
  auto month = days;
  month.erase(month.begin() + 31, month.begin() + 61);
  EXPECT_EQ(refused(month), "rain-month-missing /rain/31/day 2027-04");
  auto nearly = days;
  nearly.erase(nearly.begin() + 32, nearly.begin() + 61);
  EXPECT_EQ(refused(nearly), "rain-gap /rain/32/day 2027-04-02");
  auto more = days;
  more.erase(more.begin() + 20, more.begin() + 70);
  EXPECT_EQ(refused(more), "rain-month-missing /rain/20/day 2027-04");
  auto twice = days;
  twice[8].day = twice[7].day;
  EXPECT_EQ(refused(twice), "rain-day-twice /rain/8/day 2027-03-08");
  auto below = days;
  below[3].mm = -1;
  EXPECT_EQ(refused(below), "rain-out-of-range /rain/3/mm -1.0");
  EXPECT_EQ(refused({}), "rain-missing /rain ");
  const auto outside = onset_of_rains(*whole, rules().front(), day1 - 1);
  ASSERT_FALSE(outside);
  EXPECT_EQ(outside.error()[0].code, "earliest-outside-rain");
}

}  // namespace
}  // namespace wheyfield::weather
