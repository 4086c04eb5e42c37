#include "lot_sizing/bill.h"

#include <gtest/gtest.h>
#include <support/draw.h>

#include <algorithm>
#include <functional>

#include "lot_sizing/limits.h"

namespace wheyfield::lot_sizing {
namespace {

Material molasses(std::int64_t in_hand = 0) {
  return {"molasses", {5}, in_hand, {{20, 1600}, {2, 200}}};
}

// 5 for each unit: 4 units take 20, one large pack or ten small ones.
TEST(Bill, WholePacksCoverTheNeed) {
  EXPECT_EQ(packs_for(molasses(), {0}), 0);
  EXPECT_EQ(packs_for(molasses(), {1}), 600);    // 5: three small packs
  EXPECT_EQ(packs_for(molasses(), {4}), 1600);   // 20: one large pack, not 2,000 in small ones
  EXPECT_EQ(packs_for(molasses(), {5}), 2200);   // 25
  EXPECT_EQ(packs_for(molasses(18), {4}), 200);  // 2 beyond what is in hand
}

TEST(Bill, NothingIsCheaperThanTheChosenPacks) {
  for (int seed = 1; seed <= testing::cases(500); ++seed) {
    testing::Draw draw(static_cast<std::uint64_t>(seed));
    Material material{"m", {1}, 0, {}};
    for (int pack = draw.between(1, 3); pack > 0; --pack)
      material.packs.push_back({draw.between(1, 9), draw.between(0, 20)});
    const int need = draw.between(0, 200);
    std::vector<Cost> cost(static_cast<std::size_t>(need) + 1, never);
    cost[0] = 0;
    for (std::size_t n = 1; n < cost.size(); ++n)
      for (const Pack& pack : material.packs)
        cost[n] = std::min(cost[n],
                           pack.price + cost[n - std::min(n, static_cast<std::size_t>(pack.size))]);
    ASSERT_EQ(packs_for(material, {need}), cost.back()) << seed;
  }
}

// One session of 4 units ready on day 3 for 5 units on day 5: 10 to hold it, 2 a unit, 3 a unit for
// two days of slack, 100 for the unit that is missed, 1,600 for the molasses of 4 units.
TEST(Bill, AddsUpByHand) {
  Problem problem;
  problem.days = 6;
  problem.resources.push_back({"drum", {1, 1, 1, 1, 1, 1}});
  Product product;
  product.due.push_back({5, 6, 5, 100});
  product.wait = {9, 6, 3};
  product.sessions.push_back({0, 3, 9, 2, -1, 0, {{{{0, 0, 3, 1}}, 1, 4, 10}}});
  problem.products.push_back(product);
  problem.materials.push_back(molasses());
  const Bill bill = bill_of(problem, {{{0, 0, 0, 4}}});
  EXPECT_EQ(bill.sessions, 10);
  EXPECT_EQ(bill.units, 8);
  EXPECT_EQ(bill.waiting, 12);
  EXPECT_EQ(bill.missed, 100);
  EXPECT_EQ(bill.packs, 1600);
  EXPECT_EQ(bill.total(), 1730);
  EXPECT_EQ(bill.short_units, 1);
}

TEST(Limits, NameWhatIsBroken) {
  Problem problem;
  problem.days = 6;
  problem.resources.push_back({"drum", {1, 1, 0, 1, 1, 1}});
  problem.supplies = {5};
  problem.cans = 1;
  Product product;
  product.due = {{5, 6, 5, 100}};
  product.units_per_can = 2;
  product.sessions.push_back({0, 3, 9, 2, 0, 2, {{{{0, 0, 3, 1}}, 2, 4, 10}}});
  problem.products.push_back(product);
  const auto broken = [&](const Held& held) { return broken_limits(problem, {{held}}); };
  const std::vector<Broken> all = broken({0, 0, 0, 4});
  ASSERT_EQ(all.size(), 4u);
  EXPECT_EQ(all[0], (Broken{Limit::resource, 0, 2}));  // no drum on day 2
  EXPECT_EQ(all[1], (Broken{Limit::supply, 0, 0}));    // 8 of 5
  EXPECT_EQ(all[2], (Broken{Limit::cans, 0, 3}));      // two cans on days 3 and 4
  EXPECT_EQ(all[3], (Broken{Limit::cans, 0, 4}));
  EXPECT_EQ(broken({0, 0, 0, 1}).front(), (Broken{Limit::lot_size, 0, 0}));
  EXPECT_EQ(broken({0, 0, 1, 2}).front(), (Broken{Limit::no_such_session, 0, 0}));
  EXPECT_EQ(broken_limits(problem, {{{0, 0, 0, 2}, {0, 0, 0, 2}}}).front(),
            (Broken{Limit::held_twice, 1, 0}));
}

}  // namespace
}  // namespace wheyfield::lot_sizing
