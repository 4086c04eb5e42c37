#include "lot_sizing/waiting.h"

#include <gtest/gtest.h>
#include <support/draw.h>

#include <algorithm>
#include <cmath>

namespace wheyfield::lot_sizing {
namespace {

constexpr double thousand_million = 1e9;

Chances some_chances(testing::Draw& draw) {
  Chances chances;
  chances.failed = draw.between(0, million);
  std::int32_t left = million;
  for (std::size_t late = 1; late < chances.late.size(); ++late) {
    chances.late[late] = draw.between(0, left / 2);
    left -= chances.late[late];
  }
  chances.late[0] = left;
  return chances;
}

// 1 - P by the other road, forwards in fractions: the share of chains whose lot should be ready on
// each day, and of those that have come well by it.
std::vector<double> story(const Chances& chances, int lead, int horizon) {
  const auto days = static_cast<std::size_t>(horizon) + 1;
  const double failed = chances.failed / 1e6;
  std::vector<double> due(days, 0.0), missed(days, 1.0);
  due[0] = 1.0;
  for (std::size_t day = 0; day < days; ++day)
    for (std::size_t late = 0; late < chances.late.size() && day + late < days; ++late) {
      const double share = due[day] * chances.late[late] / 1e6;
      for (std::size_t s = day + late; s < days; ++s) missed[s] -= share * (1.0 - failed);
      const std::size_t again = day + late + static_cast<std::size_t>(lead);
      if (again < days) due[again] += share * failed;
    }
  return missed;
}

// Height over day `at` of the lowest chord between any two points: the envelope by its definition.
double lowest_chord(const std::vector<double>& points, std::size_t at) {
  double lowest = points[at];
  for (std::size_t a = 0; a < at; ++a)
    for (std::size_t b = at + 1; b < points.size(); ++b) {
      const double part = static_cast<double>(at - a) / static_cast<double>(b - a);
      lowest = std::min(lowest, points[a] + part * (points[b] - points[a]));
    }
  return lowest;
}

TEST(Waiting, WithoutDelayTheChanceIsOnePowerOfTheFailureShareForEachReBrewThatFits) {
  const std::vector<std::int64_t> missed = chance_missed({100'000, {million, 0, 0, 0}}, 12, 40);
  for (int slack = 0; slack <= 40; ++slack)
    EXPECT_EQ(missed[static_cast<std::size_t>(slack)],
              std::llround(thousand_million * std::pow(0.1, 1 + slack / 12)))
        << slack;
}

TEST(Waiting, WithoutFailuresTheChanceIsThatOfALongerDelay) {
  EXPECT_EQ(chance_missed({0, {700'000, 150'000, 100'000, 50'000}}, 12, 4),
            (std::vector<std::int64_t>{300'000'000, 150'000'000, 50'000'000, 0, 0}));
}

TEST(Waiting, TheChanceIsThatOfTheStoryAndNeverRisesOnRandomChances) {
  testing::Draw draw(1);
  for (int i = 0; i < testing::cases(400); ++i) {
    const Chances chances = some_chances(draw);
    const int lead = draw.between(1, 20), horizon = draw.between(0, 50);
    const std::vector<std::int64_t> missed = chance_missed(chances, lead, horizon);
    const std::vector<double> told = story(chances, lead, horizon);
    ASSERT_EQ(missed.size(), told.size());
    for (int slack = 0; slack <= horizon; ++slack) {
      const auto at = static_cast<std::size_t>(slack);
      // Every level rounds by half a part of a thousand million, twice.
      EXPECT_NEAR(static_cast<double>(missed[at]), thousand_million * told[at], 2.0 + slack / lead)
          << "case " << i << " slack " << slack;
      if (slack > 0) {
        EXPECT_LE(missed[at], missed[at - 1]) << "case " << i << " slack " << slack;
      }
    }
  }
}

TEST(Waiting, TheAllowanceNeverRisesAndFallsLessAndLessOnRandomChances) {
  testing::Draw draw(2);
  for (int i = 0; i < testing::cases(2000); ++i) {
    const Chances chances = some_chances(draw);
    const int lead = draw.between(1, 20), horizon = draw.between(0, 50);
    const Cost miss = draw.between(0, i % 2 ? 50 : 5'000'000);
    const std::vector<Cost> wait = waiting_allowance(chances, lead, horizon, miss);
    ASSERT_EQ(wait.size(), static_cast<std::size_t>(horizon) + 1);
    EXPECT_GE(wait.back(), 0);
    for (std::size_t s = 1; s < wait.size(); ++s) {
      EXPECT_LE(wait[s], wait[s - 1]) << "case " << i << " slack " << s;
      if (s > 1) {
        EXPECT_LE(wait[s - 1] - wait[s], wait[s - 2] - wait[s - 1])
            << "case " << i << " slack " << s;
      }
    }
  }
}

TEST(Waiting, TheAllowanceIsTheEnvelopeBelowTheExpectedCostToTheRounding) {
  testing::Draw draw(3);
  for (int i = 0; i < testing::cases(200); ++i) {
    const Chances chances = some_chances(draw);
    const int lead = draw.between(1, 15), horizon = draw.between(0, 30);
    const Cost miss = draw.between(1, 5'000'000);
    std::vector<double> expected;
    for (const double chance : story(chances, lead, horizon))
      expected.push_back(static_cast<double>(miss) * chance);
    const std::vector<Cost> wait = waiting_allowance(chances, lead, horizon, miss);
    for (std::size_t s = 0; s < wait.size(); ++s) {
      const double envelope = lowest_chord(expected, s);
      EXPECT_LE(static_cast<double>(wait[s]), envelope + 1.0) << "case " << i << " slack " << s;
      // Whole thousandths a day: a stretch of n days is off by a quarter of n at most.
      EXPECT_GE(static_cast<double>(wait[s]), envelope - 1.0 - 0.25 * horizon)
          << "case " << i << " slack " << s;
    }
    EXPECT_NEAR(static_cast<double>(wait.front()), expected.front(), 1.0);
    EXPECT_NEAR(static_cast<double>(wait.back()), expected.back(), 1.0);
  }
}

TEST(Waiting, AUnitOfSixMoneyWithinTwoReBrewLeadsCostsLessInAStraightLineAndThenNothingMore) {
  // p = 0.1, R = 2, no delay: P = 0.1 0.1 0.01 0.01 0.001; the envelope goes straight from day 0 to
  // day 2 and from there to day 4: 600, 330, 60, 33, 6.
  EXPECT_EQ(waiting_allowance({100'000, {million, 0, 0, 0}}, 2, 4, 6000),
            (std::vector<Cost>{600, 330, 60, 33, 6}));
}

TEST(Waiting, ACostBeyondAnyPlanDoesNotOverflow) {
  EXPECT_EQ(waiting_allowance({million, {million, 0, 0, 0}}, 1, 3, 4'000'000'000'000'000),
            (std::vector<Cost>(4, 4'000'000'000'000'000)));
}

}  // namespace
}  // namespace wheyfield::lot_sizing
