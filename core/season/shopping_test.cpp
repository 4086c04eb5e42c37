#include "season/shopping.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <algorithm>

namespace wheyfield::season {
namespace {

using wheyfield::testing::bundle;
using wheyfield::testing::farm;
using wheyfield::testing::field;
using wheyfield::testing::money;
using wheyfield::testing::planned;
using wheyfield::testing::serum_recipe;
using wheyfield::testing::small_season;

struct Bill {
  double amount = 0.0;
  Money cost;
  int packs = 0;
};

Bill bill(const std::vector<PackChoice>& choices) {
  Bill all;
  for (const PackChoice& c : choices) {
    all.amount += c.pack.pack * c.count;
    all.cost += c.pack.price * c.count;
    all.packs += c.count;
  }
  return all;
}

// Every count of every pack up to what alone would cover the rest.
Bill by_trying_all(const std::vector<Price>& packs, double need, std::size_t from = 0) {
  if (need <= 1e-9) return {};
  if (from == packs.size()) return {0.0, Money::from_thousandths(1'000'000'000), 0};
  Bill best{0.0, Money::from_thousandths(2'000'000'000), 0};
  for (int count = 0;; ++count) {
    const double rest = need - packs[from].pack * count;
    Bill with = by_trying_all(packs, rest, from + 1);
    with.cost += packs[from].price * count;
    with.packs += count;
    if (with.cost < best.cost || (with.cost == best.cost && with.packs < best.packs)) best = with;
    if (rest <= 1e-9) return best;
  }
}

std::vector<Price> molasses() { return small_season().prices; }

std::vector<Price> molasses_packs() {
  std::vector<Price> packs = molasses();
  packs.resize(2);
  return packs;
}

TEST(SeasonShopping, TheCheapestPacksAreThoseFoundByTryingAll) {
  wheyfield::testing::Draw draw(5);
  for (int round = 0; round < 400; ++round) {
    std::vector<Price> packs;
    for (int i = draw.between(1, 4); i > 0; --i)
      packs.push_back({"x", draw.between(1, 40) / 4.0, "L", money(draw.between(1, 60))});
    const double need = draw.between(0, 80) / 4.0;
    const Bill found = bill(cheapest_packs(packs, need));
    const Bill best = by_trying_all(packs, need);
    ASSERT_GE(found.amount, need - 1e-9) << "round " << round;
    ASSERT_EQ(found.cost.thousandths(), best.cost.thousandths()) << "round " << round;
    ASSERT_EQ(found.packs, best.packs) << "round " << round;
  }
}

TEST(SeasonShopping, FifteenLitresOfMolassesAreOneCanBecauseEightSmallPacksCostTheSame) {
  const auto chosen = cheapest_packs(molasses_packs(), 15);
  ASSERT_EQ(chosen.size(), 1u);
  EXPECT_EQ(chosen[0].pack.pack, 20);
  EXPECT_EQ(chosen[0].count, 1);
  EXPECT_EQ(bill(chosen).cost.whole(), 1600);
}

TEST(SeasonShopping, FourteenLitresOfMolassesAreSevenSmallPacks) {
  const auto chosen = cheapest_packs(molasses_packs(), 14);
  ASSERT_EQ(chosen.size(), 1u);
  EXPECT_EQ(chosen[0].pack.pack, 2);
  EXPECT_EQ(chosen[0].count, 7);
  EXPECT_EQ(bill(chosen).cost.whole(), 1400);
}

TEST(SeasonShopping, TwentyThreeLitresOfMolassesAreACanAndTwoSmallPacks) {
  const auto chosen = cheapest_packs(molasses_packs(), 23);
  EXPECT_EQ(chosen.size(), 2u);
  EXPECT_EQ(bill(chosen).cost.whole(), 2000);
  EXPECT_EQ(bill(chosen).packs, 3);
}

TEST(SeasonShopping, NothingNeededIsNothingBought) {
  EXPECT_TRUE(cheapest_packs(molasses_packs(), 0).empty());
}

// One batch of 4 L: land preparation, seedling and later uses of 4 acres, dressed seed.
Season one_batch() {
  Season s = small_season();
  s.farms.push_back(
      farm("1", 100,
           {field("maize", 4, calendar::Date::from_civil(2027, 3, 22), 125, crop::Seed::dressed)}));
  s.serum_life_days = 120;
  s.milk[0].most = quantity::litres(4);
  return s;
}

const ShoppingLine* line(const Shopping& list, const std::string& item) {
  for (const ShoppingLine& l : list.lines)
    if (l.item == item) return &l;
  return nullptr;
}

TEST(SeasonShopping, ABatchOfFourLitresNeedsTwoOfMolassesAndTwoHundredGramsOfRice) {
  const Season s = one_batch();
  const SeasonPlan plan = planned(s);
  ASSERT_EQ(plan.batches.batches.size(), 1u);
  ASSERT_EQ(plan.batches.batches[0].stored_ml, 3500);
  const auto list = shopping(s, makings(s, serum_recipe(), plan), bundle());
  ASSERT_TRUE(list.has_value());
  // 3.2 L are due; brewed in half litres. Ratios of 7 L: 3.5 L molasses, 0.35 kg rice.
  EXPECT_NEAR(line(*list, "molasses")->need, 1.75, 1e-9);
  EXPECT_NEAR(line(*list, "rice")->need, 0.175, 1e-9);
  EXPECT_EQ(line(*list, "molasses")->cost.whole(), 200);
  EXPECT_EQ(line(*list, "ph-strips")->need, 4);
  EXPECT_EQ(line(*list, "milk"), nullptr);
  EXPECT_EQ(line(*list, "lid"), nullptr);
  // molasses 200, rice 110, strips 600, net 60, string 20, syringe 25, marker 40
  EXPECT_EQ(list->total.whole(), 1055);
  // The rinse-water is begun on Thursday 25 February; Tuesday 23 is the market before.
  EXPECT_EQ(line(*list, "rice")->buy_on.iso(), "2027-02-23");
}

TEST(SeasonShopping, WhatIsInHandIsNotBought) {
  Season s = one_batch();
  s.stock.push_back({"marker", 1, "piece", {}});
  s.stock.push_back({"molasses", 0.5, "L", {}});
  const auto list = shopping(s, makings(s, serum_recipe(), planned(s)), bundle());
  ASSERT_TRUE(list.has_value());
  EXPECT_TRUE(line(*list, "marker")->packs.empty());
  EXPECT_EQ(line(*list, "molasses")->in_hand, 0.5);
  EXPECT_EQ(list->total.whole(), 1055 - 40);
}

TEST(SeasonShopping, LidsAreBoughtForTheCansThatHaveNone) {
  Season s = one_batch();
  s.containers.push_back({quantity::litres(20), 6, 2});
  const auto list = shopping(s, makings(s, serum_recipe(), planned(s)), bundle());
  ASSERT_TRUE(list.has_value());
  EXPECT_EQ(line(*list, "lid")->need, 2);
  EXPECT_EQ(line(*list, "lid")->cost.whole(), 70);
}

TEST(SeasonShopping, EveryItemWithoutAPriceIsNamedOnce) {
  Season s = one_batch();
  s.prices.erase(s.prices.begin(), s.prices.begin() + 3);  // both molasses packs and the rice
  const auto list = shopping(s, makings(s, serum_recipe(), planned(s)), bundle());
  ASSERT_FALSE(list.has_value());
  std::vector<std::string> items;
  for (const outcome::Problem& p : list.error()) {
    EXPECT_EQ(p.code, "price-missing");
    EXPECT_EQ(p.field, "/prices");
    items.push_back(p.value);
  }
  std::sort(items.begin(), items.end());
  EXPECT_EQ(items, (std::vector<std::string>{"molasses", "rice"}));
}

TEST(SeasonShopping, APriceByWeightForWhatIsMeasuredInLitresIsRefused) {
  Season s = one_batch();
  s.prices[1].unit = "kg";
  const auto list = shopping(s, makings(s, serum_recipe(), planned(s)), bundle());
  ASSERT_FALSE(list.has_value());
  ASSERT_EQ(list.error().size(), 1u);
  EXPECT_EQ(list.error()[0].code, "price-unit");
  EXPECT_EQ(list.error()[0].field, "/prices/1/pack");
  EXPECT_EQ(list.error()[0].value, "kg");
}

TEST(SeasonShopping, ASeasonWithoutABatchNeedsNoPrices) {
  Season s = small_season();
  s.prices.clear();
  const auto list = shopping(s, makings(s, serum_recipe(), planned(s)), bundle());
  ASSERT_TRUE(list.has_value());
  EXPECT_TRUE(list->lines.empty());
  EXPECT_EQ(list->total.thousandths(), 0);
}

TEST(SeasonShopping, PacksCoverEveryNeedOnRandomSeasons) {
  int lines = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(40u); ++seed) {
    const Season s = wheyfield::testing::random_season(seed);
    const auto list =
        shopping(s, makings(s, serum_recipe(), wheyfield::testing::random_plan(seed)), bundle());
    ASSERT_TRUE(list.has_value()) << "seed " << seed;
    Money total;
    for (const ShoppingLine& l : list->lines) {
      const Bill b = bill(l.packs);
      ASSERT_GE(b.amount + l.in_hand, l.need - 1e-6) << "seed " << seed << " " << l.item;
      ASSERT_EQ(b.cost.thousandths(), l.cost.thousandths());
      total += b.cost;
      ++lines;
    }
    ASSERT_EQ(total.thousandths(), list->total.thousandths());
  }
  EXPECT_GT(lines, wheyfield::testing::cases(150));
}

}  // namespace
}  // namespace wheyfield::season
