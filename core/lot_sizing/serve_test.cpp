#include "lot_sizing/serve.h"

#include <gtest/gtest.h>
#include <support/draw.h>

#include <algorithm>
#include <functional>

namespace wheyfield::lot_sizing {
namespace {

struct Case {
  Product product;
  std::vector<Lot> lots;
};

// Lots of one life, dues on a few days, an allowance that falls and flattens.
Case small_case(std::uint64_t seed) {
  testing::Draw draw(seed);
  Case c;
  const int life = draw.between(2, 6);
  for (int lot = draw.between(1, 3); lot > 0; --lot) {
    const int ready = draw.between(0, 6);
    c.lots.push_back({ready, ready + life, draw.between(1, 3)});
  }
  for (int due = draw.between(1, 3); due > 0; --due) {
    const int collect = draw.between(1, 9);
    c.product.due.push_back(
        {collect, collect + draw.between(0, 3), draw.between(1, 3), draw.between(1, 2) * 100});
  }
  Cost wait = 0, fall = 0;
  for (int slack = 0; slack < 4; ++slack) {
    c.product.wait.insert(c.product.wait.begin(), wait);
    fall += draw.between(0, 3);
    wait += fall;
  }
  return c;
}

Cost cost_of(const Case& c, const Served& served) {
  Cost cost = 0;
  for (std::size_t d = 0; d < c.product.due.size(); ++d) {
    for (const Served::Draw& draw : served.draws[d])
      cost += c.product.waiting(c.product.due[d].collect - c.lots[draw.lot].ready) * draw.units;
    cost += c.product.due[d].miss * served.short_units[d];
  }
  return cost;
}

// Every way to give each unit due to one of the lots or to none.
Cost cheapest_sharing(const Case& c) {
  std::vector<std::size_t> units;
  for (std::size_t d = 0; d < c.product.due.size(); ++d)
    units.insert(units.end(), static_cast<std::size_t>(c.product.due[d].units), d);
  std::vector<Units> left;
  for (const Lot& lot : c.lots) left.push_back(lot.units);
  const std::function<Cost(std::size_t)> share = [&](std::size_t u) -> Cost {
    if (u == units.size()) return 0;
    const Due& due = c.product.due[units[u]];
    Cost best = due.miss + share(u + 1);
    for (std::size_t lot = 0; lot < c.lots.size(); ++lot) {
      if (left[lot] == 0 || c.lots[lot].ready > due.collect || c.lots[lot].use_by < due.last_use)
        continue;
      --left[lot];
      best = std::min(best, c.product.waiting(due.collect - c.lots[lot].ready) + share(u + 1));
      ++left[lot];
    }
    return best;
  };
  return share(0);
}

TEST(Serve, NoSharingOutOfTheSameLotsCostsLess) {
  int all_served = 0;
  for (int seed = 1; seed <= testing::cases(1000); ++seed) {
    const Case c = small_case(static_cast<std::uint64_t>(seed));
    const Served served = serve(c.product, c.lots);
    ASSERT_EQ(cost_of(c, served), cheapest_sharing(c)) << seed;
    all_served += std::all_of(served.short_units.begin(), served.short_units.end(),
                              [](Units units) { return units == 0; })
                      ? 1
                      : 0;
  }
  EXPECT_GT(all_served, testing::cases(1000) / 10);
}

TEST(Serve, GivesOutNoMoreThanThereIsAndCountsWhatIsShort) {
  for (int seed = 1; seed <= testing::cases(1000); ++seed) {
    const Case c = small_case(static_cast<std::uint64_t>(seed));
    const Served served = serve(c.product, c.lots);
    std::vector<Units> given(c.lots.size(), 0);
    for (std::size_t d = 0; d < c.product.due.size(); ++d) {
      Units sum = served.short_units[d];
      for (const Served::Draw& draw : served.draws[d]) {
        ASSERT_GT(draw.units, 0) << seed;
        ASSERT_LE(c.lots[draw.lot].ready, c.product.due[d].collect) << seed;
        ASSERT_GE(c.lots[draw.lot].use_by, c.product.due[d].last_use) << seed;
        given[draw.lot] += draw.units;
        sum += draw.units;
      }
      ASSERT_EQ(sum, c.product.due[d].units) << seed;
    }
    for (std::size_t lot = 0; lot < c.lots.size(); ++lot)
      ASSERT_LE(given[lot], c.lots[lot].units) << seed;
  }
}

}  // namespace
}  // namespace wheyfield::lot_sizing
