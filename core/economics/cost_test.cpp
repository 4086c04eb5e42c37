#include "economics/cost.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <cstdlib>

namespace wheyfield::economics {
namespace {

using namespace season;
using wheyfield::testing::bundle;
using wheyfield::testing::farm;
using wheyfield::testing::field;
using wheyfield::testing::planned;
using wheyfield::testing::serum_recipe;

struct Counted {
  Season season;
  SeasonPlan plan;
  SeasonCost cost;
};

Counted counted(const Season& season, const SeasonPlan& plan) {
  Counted all{season, plan, {}};
  const auto list = shopping(all.season, makings(all.season, serum_recipe(), all.plan), bundle());
  if (!list) std::abort();
  all.cost = season_cost(all.season, serum_recipe(), all.plan, *list, 0.01);
  return all;
}

Counted counted(const Season& season) { return counted(season, planned(season)); }

// The part of a use's serum that the plan draws for it.
double share_served(const SeasonPlan& plan, const FieldUse& of) {
  double drawn = 0.0;
  for (const PlannedUse& use : plan.uses)
    if (use.due.farm == of.farm && use.due.field == of.field && use.due.use.id == of.use.id)
      for (const Draw& draw : use.draws) drawn += static_cast<double>(draw.ml);
  return of.serum_ml > 0 ? drawn / static_cast<double>(of.serum_ml) : 1.0;
}

// 4 acres of dressed maize: four uses of 800 mL, one batch of 3.5 L.
Counted by_hand() {
  Season s = wheyfield::testing::small_season();
  s.serum_life_days = 120;
  s.farms.push_back(
      farm("1", 100,
           {field("maize", 4, calendar::Date::from_civil(2027, 3, 22), 125, crop::Seed::dressed)}));
  return counted(s);
}

TEST(EconomicsCost, ABatchOfThreeAndAHalfLitresIsCountedByHand) {
  const SeasonCost cost = by_hand().cost;
  EXPECT_DOUBLE_EQ(cost.litres_made, 3.5);
  EXPECT_EQ(cost.bought.thousandths(), 1'055'000);
  EXPECT_EQ(cost.milk.thousandths(), 175'000);    // 3.5 L at 50
  EXPECT_NEAR(cost.labour_hours, 4.8, 1e-9);      // 0.3 + 0.5 + 2 + 1.5 + 0.5
  EXPECT_EQ(cost.labour.thousandths(), 210'000);  // 4.8 h of a day of 8 h at 350
  EXPECT_EQ(cost.cans, 80);                       // four times 400 L
  EXPECT_EQ(cost.water.thousandths(), 400'000);   // 80 cans at 5
  EXPECT_EQ(cost.total().thousandths(), 1'840'000);
  EXPECT_EQ(cost.cash().thousandths(), 1'055'000);
}

TEST(EconomicsCost, ALitreLeavesTheWaterOutAndAnAcreCountsIt) {
  const Counted all = by_hand();
  EXPECT_EQ(all.cost.per_litre_made().thousandths(), 411'429);             // 1440 / 3.5 = 411.42857
  EXPECT_EQ(all.cost.per_acre(all.season.area()).thousandths(), 460'000);  // 1840 / 4
  EXPECT_DOUBLE_EQ(all.cost.litres_handed_out, 3.2);                       // 0.3 L is left over
  EXPECT_EQ(all.cost.per_litre_handed_out().thousandths(), 450'000);       // 1440 / 3.2
}

// Two fields of dressed maize, a quarter acre (25 L, a can and a quarter) and 0.15 acre (15 L): two
// cans and one for each of the four uses, paid whole.
TEST(EconomicsCost, CansOfWaterAreWholeForEachUseOfAField) {
  Season s = wheyfield::testing::small_season();
  s.serum_life_days = 120;
  const auto maize = [](double acres) {
    return field("maize", acres, calendar::Date::from_civil(2027, 3, 22), 125, crop::Seed::dressed);
  };
  s.farms.push_back(farm("1", 100, {maize(0.25), maize(0.15)}));
  const SeasonCost cost = counted(s).cost;
  EXPECT_EQ(cost.cans, 12);
  EXPECT_EQ(cost.water.thousandths(), 60'000);  // 12 cans at 5
}

TEST(EconomicsCost, NothingMadeCostsNothingALitre) {
  const SeasonCost cost = counted(wheyfield::testing::small_season()).cost;
  EXPECT_EQ(cost.per_litre_made().thousandths(), 0);
  EXPECT_EQ(cost.per_litre_handed_out().thousandths(), 0);
  EXPECT_EQ(cost.per_acre(quantity::Area()).thousandths(), 0);
  EXPECT_EQ(cost.total().thousandths(), 0);
}

// Prices in whole currency, added as plain numbers: a litre of milk to a litre of serum, the steps'
// hours written out, packs counted from the list.
TEST(EconomicsCost, ASecondRoadGivesTheSameMoneyOnRandomSeasons) {
  int with_batches = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(40u); ++seed) {
    const Counted all =
        counted(wheyfield::testing::random_season(seed), wheyfield::testing::random_plan(seed));
    const auto list = shopping(all.season, makings(all.season, serum_recipe(), all.plan), bundle());
    double bought = 0, milk = 0, litres = 0, water = 0, carried = 0;
    for (const ShoppingLine& line : list->lines)
      for (const PackChoice& choice : line.packs)
        bought += choice.count * choice.pack.price.amount();
    for (const Batch& b : all.plan.batches.batches) {
      litres += static_cast<double>(b.stored_ml) / 1000.0;
      for (const BatchStep& step : b.steps)
        if (serum_recipe().steps[step.step].id == "milk")
          milk += static_cast<double>(b.stored_ml) / 1000.0 *
                  all.season.milk_on(step.from)->price.amount();
    }
    for (const FieldUse& use : wheyfield::testing::uses_of(all.season)) {
      if (use.hand_out != HandOut::volume) continue;
      const Farm& f = all.season.farms[use.farm];
      const bool sown_without = !use.use.required && [&] {
        for (const PlannedUse& p : all.plan.uses)
          if (p.due.farm == use.farm && p.due.field == use.field && p.due.use.id == use.use.id)
            return !p.planned;
        return false;
      }();
      if (sown_without) continue;
      const double mix = quantity::in_litres(use.mix) * share_served(all.plan, use);
      double cans = 0;
      for (double left = mix; left > (cans == 0 ? 0.0 : 0.2); left -= 20.0) ++cans;
      carried += cans;
      water += cans * all.season.places[f.place].can_carried.amount();
    }
    const double batches = static_cast<double>(all.plan.batches.batches.size());
    const double labour = batches * 4.8 / 8.0 * 350.0;
    ASSERT_NEAR(all.cost.bought.amount(), bought, 1e-6) << "seed " << seed;
    ASSERT_NEAR(all.cost.milk.amount(), milk, 0.0005 * batches + 1e-6) << "seed " << seed;
    ASSERT_NEAR(all.cost.labour.amount(), labour, 0.001) << "seed " << seed;
    ASSERT_NEAR(all.cost.water.amount(), water, 1e-6) << "seed " << seed;
    ASSERT_NEAR(static_cast<double>(all.cost.cans), carried, 1e-6) << "seed " << seed;
    ASSERT_NEAR(all.cost.litres_made, litres, 1e-9) << "seed " << seed;
    if (litres > 0) {
      ++with_batches;
      ASSERT_NEAR(all.cost.per_litre_made().amount(), (bought + milk + labour) / litres, 0.01);
    }
  }
  EXPECT_GT(with_batches, wheyfield::testing::cases(20));
}

}  // namespace
}  // namespace wheyfield::economics
