#include "season/stock.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <map>

namespace wheyfield::season {
namespace {

using wheyfield::testing::planned;

std::int64_t sum_of(const std::vector<StockChange>& changes, const std::string& what) {
  std::int64_t sum = 0;
  for (const StockChange& c : changes)
    if (c.what == what) sum += c.change_ml;
  return sum;
}

// What stands in the plan itself, lot by lot.
struct Ledger {
  std::int64_t in_hand = 0, made = 0, spare = 0, handed_out = 0, expired = 0;

  Ledger(const Season& season, const SeasonPlan& plan) {
    std::map<std::size_t, std::int64_t> drawn;
    for (const auto& draws : plan.batches.draws)
      for (const Draw& draw : draws) drawn[draw.lot] += draw.ml;
    for (const auto& [lot, ml] : drawn) handed_out += ml;
    for (std::size_t i = 0; i < plan.opening.size(); ++i) {
      in_hand += plan.opening[i].ml;
      if (plan.opening[i].use_by < season.to) expired += plan.opening[i].ml - drawn[i];
    }
    for (std::size_t i = 0; i < plan.batches.batches.size(); ++i) {
      const Batch& b = plan.batches.batches[i];
      (b.spare ? spare : made) += b.stored_ml;
      if (b.use_by < season.to) expired += b.stored_ml - drawn[plan.opening.size() + i];
    }
  }
};

TEST(SeasonStock, EndsAtInHandAndMadeLessHandedOutAndExpiredOnRandomSeasons) {
  int hand_outs = 0, expiries = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(40u); ++seed) {
    const Season season = wheyfield::testing::random_season(seed);
    const SeasonPlan& plan = wheyfield::testing::random_plan(seed);
    const auto changes = stock_changes(season, plan);
    const Ledger ledger(season, plan);
    ASSERT_EQ(sum_of(changes, "in-hand"), ledger.in_hand) << "seed " << seed;
    ASSERT_EQ(sum_of(changes, "ready"), ledger.made) << "seed " << seed;
    ASSERT_EQ(sum_of(changes, "spare-ready"), ledger.spare) << "seed " << seed;
    ASSERT_EQ(sum_of(changes, "hand-out") + sum_of(changes, "kept-for-seed"), -ledger.handed_out)
        << "seed " << seed;
    ASSERT_EQ(sum_of(changes, "past-use-by"), -ledger.expired) << "seed " << seed;
    const std::int64_t last = changes.empty() ? 0 : changes.back().balance_ml;
    ASSERT_EQ(last,
              ledger.in_hand + ledger.made + ledger.spare - ledger.handed_out - ledger.expired)
        << "seed " << seed;
    hand_outs += ledger.handed_out > 0 ? 1 : 0;
    expiries += ledger.expired > 0 ? 1 : 0;
  }
  EXPECT_GT(hand_outs, wheyfield::testing::cases(20));
  EXPECT_GT(expiries, wheyfield::testing::cases(10));
}

TEST(SeasonStock, NeverFallsBelowNothingAndFollowsTheDays) {
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(40u); ++seed) {
    const Season season = wheyfield::testing::random_season(seed);
    const auto changes = stock_changes(season, wheyfield::testing::random_plan(seed));
    std::int64_t balance = 0;
    for (std::size_t i = 0; i < changes.size(); ++i) {
      balance += changes[i].change_ml;
      ASSERT_GE(balance, 0) << "seed " << seed << " " << changes[i].date.iso();
      ASSERT_EQ(changes[i].balance_ml, balance) << "seed " << seed;
      ASSERT_LE(changes[i > 0 ? i - 1 : 0].date, changes[i].date) << "seed " << seed;
    }
  }
}

TEST(SeasonStock, SerumInHandLeavesTheDayAfterItsLife) {
  Season season = wheyfield::testing::small_season();
  season.stock.push_back({"serum", 1.5, "L", calendar::Date::from_civil(2027, 3, 1)});
  const auto changes = stock_changes(season, planned(season));
  ASSERT_EQ(changes.size(), 2u);
  EXPECT_EQ(changes[0].what, "in-hand");
  EXPECT_EQ(changes[0].balance_ml, 1500);
  EXPECT_EQ(changes[1].what, "past-use-by");
  EXPECT_EQ(changes[1].date.iso(), "2027-05-01");  // good through 30 April, 60 days after 1 March
  EXPECT_EQ(changes[1].balance_ml, 0);
}

TEST(SeasonStock, SerumGoodThroughTheLastDayOfTheSeasonDoesNotLeaveIt) {
  Season season = wheyfield::testing::small_season();
  season.stock.push_back({"serum", 1.5, "L", calendar::Date::from_civil(2027, 3, 1)});
  season.to = calendar::Date::from_civil(2027, 4, 30);
  EXPECT_EQ(stock_changes(season, planned(season)).back().balance_ml, 1500);
  season.to = season.to + 1;
  EXPECT_EQ(stock_changes(season, planned(season)).back().balance_ml, 0);
}

}  // namespace
}  // namespace wheyfield::season
