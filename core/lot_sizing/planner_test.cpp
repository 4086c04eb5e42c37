#include "lot_sizing/planner.h"

#include <gtest/gtest.h>
#include <support/tiny_lots.h>

#include <algorithm>

#include "lot_sizing/limits.h"

namespace wheyfield::lot_sizing {
namespace {

// Wagner and Whitin, Dynamic Version of the Economic Lot Size Model, Management Science 5 (1958):
// the twelve-period example, its figures from memory; the optimum 864 follows from them.
TEST(Planner, TwelvePeriodsOfWagnerAndWhitinCost864) {
  const Units demand[] = {69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56};
  const Cost set_up[] = {85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114};
  Problem problem;
  problem.days = 12;
  Product product;
  for (int t = 0; t < 12; ++t) {
    product.due.push_back({t, t, demand[t], 100000});
    product.wait.push_back(t);  // holding a unit costs 1 a period
    Session session;
    session.start = session.ready = t;
    session.use_by = 12;
    session.setups.push_back({{}, 1, 1000, set_up[t]});
    product.sessions.push_back(session);
  }
  problem.products.push_back(product);
  const Planned planned = plan(problem);
  EXPECT_EQ(planned.bill.total(), 864);
  EXPECT_EQ(planned.bound, 864);
  EXPECT_EQ(planned.gap(), 0.0);
}

TEST(Planner, NoChoiceOfTinyProblemsLiesBelowTheBoundAndFewAreCheaper) {
  const int problems = testing::sanitized ? 150 : 2000;
  int best_found = 0;
  for (int seed = 1; seed <= problems; ++seed) {
    const Problem problem = testing::TinyLots(static_cast<std::uint64_t>(seed)).make();
    const Planned planned = plan(problem);
    const Cost best = testing::least_of_all(problem).total;
    ASSERT_TRUE(broken_limits(problem, planned.plan).empty()) << seed;
    ASSERT_EQ(bill_of(problem, planned.plan).total(), planned.bill.total()) << seed;
    ASSERT_GE(planned.bill.total(), best) << seed;
    ASSERT_LE(planned.bound, best) << seed;
    best_found += planned.bill.total() == best ? 1 : 0;
  }
  RecordProperty("best_found", best_found);
  EXPECT_GE(best_found, problems * 96 / 100) << best_found;
}

// Some dues are dearer to miss than others, so that a lot may pass one over to serve a later one.
TEST(Planner, WhatIsMissedUnequallyLiesNotBelowTheBoundsEither) {
  testing::Draw draw(31);
  int missed = 0, proven = 0;
  const int problems = testing::sanitized ? 150 : 2000;
  for (int seed = 1; seed <= problems; ++seed) {
    Problem problem = testing::TinyLots(static_cast<std::uint64_t>(seed)).make();
    for (Product& product : problem.products)
      for (Due& due : product.due) due.miss = draw.below(2) == 0 ? 500 : 4000;
    const Planned planned = plan(problem);
    const testing::LeastOfAll least = testing::least_of_all(problem);
    ASSERT_TRUE(broken_limits(problem, planned.plan).empty()) << seed;
    ASSERT_LE(planned.bound, least.total) << seed;
    ASSERT_LE(planned.missed_bound, least.missed) << seed;
    missed += least.missed > 0 ? 1 : 0;
    proven += planned.gap() == 0.0 ? 1 : 0;
  }
  RecordProperty("proven", proven);
  EXPECT_GT(missed, problems / 4);
  EXPECT_GT(proven, problems / 2);
}

TEST(Planner, ALotMayPassOverADueThatIsCheapToMiss) {
  Problem problem;
  problem.days = 14;
  Product product;
  product.due = {{5, 5, 1, 1000}, {6, 6, 1, 10}, {7, 7, 1, 1000}};
  product.wait = {0};
  Session session;
  session.start = 3;
  session.ready = 4;
  session.use_by = 12;
  session.setups.push_back({{}, 1, 2, 1});
  product.sessions.push_back(session);
  problem.products.push_back(product);
  const Planned planned = plan(problem);
  EXPECT_EQ(planned.bill.total(), 11);
  EXPECT_EQ(planned.missed_bound, 10);
  EXPECT_EQ(planned.bound, 11);
}

// One product, nothing shared with others, no later due that ends before an earlier one: the
// dynamic programme is exact, and says so.
TEST(Planner, OneProductWithVesselsOfItsOwnIsAlwaysProvenBest) {
  for (int seed = 1; seed <= testing::cases(2000); ++seed) {
    Problem problem = testing::TinyLots(static_cast<std::uint64_t>(seed)).make();
    problem.products.resize(1);
    problem.materials.clear();
    problem.supplies.clear();
    problem.cans = -1;
    for (Session& session : problem.products[0].sessions) session.supply = -1;
    for (Due& due : problem.products[0].due) due.last_use = due.collect;
    const Planned planned = plan(problem);
    ASSERT_EQ(planned.bill.total(), testing::least_of_all(problem).total) << seed;
    ASSERT_EQ(planned.gap(), 0.0) << seed;
  }
}

}  // namespace
}  // namespace wheyfield::lot_sizing
