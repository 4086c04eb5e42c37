#include "programme/weekdays.h"

#include <gtest/gtest.h>
#include <support/draw.h>

namespace wheyfield::programme {
namespace {

DayChoice drawn(testing::Draw& draw, int groups, int days, int spare, int costs) {
  DayChoice choice;
  choice.visits.assign(static_cast<std::size_t>(days), 0);
  for (int i = 0; i < groups + spare; ++i)
    ++choice.visits[draw.below(static_cast<std::uint64_t>(days))];
  for (int g = 0; g < groups; ++g) {
    auto& row = choice.worth.emplace_back();
    for (int d = 0; d < days; ++d)
      if (draw.below(6) == 0)
        row.emplace_back();
      else
        row.emplace_back(Worth{draw.between(0, 2) / 2, draw.between(0, 3) / 3,
                               draw.between(-costs, costs), draw.between(0, 1)});
  }
  return choice;
}

// Every way to place the groups.
std::optional<Worth> by_trying_all(const DayChoice& choice, std::size_t group,
                                   std::vector<std::size_t> left) {
  if (group == choice.worth.size()) return Worth{};
  std::optional<Worth> best;
  for (std::size_t d = 0; d < left.size(); ++d) {
    if (left[d] == 0 || !choice.worth[group][d]) continue;
    --left[d];
    if (auto rest = by_trying_all(choice, group + 1, left)) {
      const Worth all = *rest + *choice.worth[group][d];
      if (!best || all < *best) best = all;
    }
    ++left[d];
  }
  return best;
}

TEST(Weekdays, AgreeWithTryingAllOfSmallCases) {
  testing::Draw draw(11);
  int impossible = 0;
  for (int i = 0; i < testing::cases(2000); ++i) {
    const DayChoice choice =
        drawn(draw, draw.between(0, 6), draw.between(1, 4), draw.between(-1, 2), 4);
    const auto chosen = choose_days(choice);
    const auto best = by_trying_all(choice, 0, choice.visits);
    ASSERT_EQ(chosen.has_value(), best.has_value());
    if (!chosen) {
      ++impossible;
      continue;
    }
    EXPECT_TRUE(chosen->total == *best);
    std::vector<std::size_t> held(choice.visits.size(), 0);
    Worth total;
    for (std::size_t g = 0; g < chosen->day.size(); ++g) {
      ++held[chosen->day[g]];
      ASSERT_TRUE(choice.worth[g][chosen->day[g]]);
      total += *choice.worth[g][chosen->day[g]];
    }
    EXPECT_TRUE(total == chosen->total);
    for (std::size_t d = 0; d < held.size(); ++d) EXPECT_LE(held[d], choice.visits[d]);
    EXPECT_FALSE(chosen->total < own_best_days(choice).total);
  }
  EXPECT_GT(impossible, testing::cases(20));
}

// Of many groups: no round of moves between days, the free visits among them, gains anything. That
// is the whole condition of a cheapest flow.
TEST(Weekdays, OfManyGroupsCannotBeBetteredByAnyRoundOfMoves) {
  testing::Draw draw(12);
  for (int i = 0; i < testing::cases(20); ++i) {
    const std::size_t days = 6;
    const DayChoice choice = drawn(draw, 200, static_cast<int>(days), 9, 1000);
    const auto chosen = choose_days(choice);
    if (!chosen) continue;
    std::vector<std::size_t> held(days, 0);
    for (const std::size_t d : chosen->day) ++held[d];
    std::vector<std::vector<std::optional<Worth>>> way(days,
                                                       std::vector<std::optional<Worth>>(days));
    for (std::size_t g = 0; g < 200; ++g)
      for (std::size_t to = 0; to < days; ++to) {
        if (!choice.worth[g][to]) continue;
        const Worth adds = *choice.worth[g][to] - *choice.worth[g][chosen->day[g]];
        auto& best = way[chosen->day[g]][to];
        if (!best || adds < *best) best = adds;
      }
    for (std::size_t via = 0; via < days; ++via)
      for (std::size_t from = 0; from < days; ++from)
        for (std::size_t to = 0; to < days; ++to)
          if (way[from][via] && way[via][to]) {
            const Worth sum = *way[from][via] + *way[via][to];
            if (!way[from][to] || sum < *way[from][to]) way[from][to] = sum;
          }
    for (std::size_t from = 0; from < days; ++from)
      for (std::size_t to = 0; to < days; ++to)
        if (way[from][to] && (from == to || held[to] < choice.visits[to])) {
          EXPECT_FALSE(*way[from][to] < Worth{}) << from << " to " << to;
        }
  }
}

TEST(Weekdays, LitresCountBeforeMoneyAndAMoveOnlyWhenItGains) {
  DayChoice choice;
  choice.visits = {1, 1};
  choice.worth = {{Worth{0, 0, 10, 0}, Worth{5, 0, 1, 1}},
                  {Worth{0, 0, 10, 0}, Worth{0, 0, 900, 1}}};
  const auto chosen = choose_days(choice);
  ASSERT_TRUE(chosen);
  EXPECT_EQ(chosen->day, (std::vector<std::size_t>{0, 1}));
  choice.visits = {2, 2};
  choice.worth = {{Worth{0, 0, 10, 1}, Worth{0, 0, 10, 0}}};
  EXPECT_EQ(choose_days(choice)->day.front(), 1u);
}

TEST(Weekdays, OfNoGroupsAreNone) {
  EXPECT_TRUE(choose_days({{}, {2}})->day.empty());
  EXPECT_FALSE(choose_days({{{Worth{}}}, {0}}));
}

}  // namespace
}  // namespace wheyfield::programme
