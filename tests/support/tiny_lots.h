// Lot-sizing problems so small that every choice can be looked at.
#pragma once

#include <algorithm>
#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

#include "lot_sizing/bill.h"
#include "lot_sizing/limits.h"
#include "lot_sizing/problem.h"
#include "support/draw.h"

namespace wheyfield::testing {

class TinyLots {
 public:
  explicit TinyLots(std::uint64_t seed) : draw_(seed) {}

  lot_sizing::Problem make() {
    lot_sizing::Problem p;
    p.days = 14;
    for (int k = draw_.between(1, 2); k > 0; --k)
      p.resources.push_back({"vessel", std::vector<int>(14, draw_.between(1, 2))});
    for (int s = draw_.between(0, 1); s > 0; --s) p.supplies.push_back(draw_.between(2, 6));
    if (draw_.between(0, 2) == 0) p.cans = draw_.between(1, 3);
    for (int r = draw_.between(1, 2); r > 0; --r) p.products.push_back(product(p));
    if (draw_.between(0, 1) == 1) {
      lot_sizing::Material material;
      for (std::size_t r = 0; r < p.products.size(); ++r)
        material.per_unit.push_back(draw_.between(0, 3));
      material.packs = {{2, draw_.between(1, 5)}, {5, draw_.between(4, 9)}};
      p.materials.push_back(material);
    }
    return p;
  }

 private:
  lot_sizing::Product product(const lot_sizing::Problem& p) {
    lot_sizing::Product made;
    for (int d = draw_.between(1, 3); d > 0; --d) {
      const int collect = draw_.between(4, 13);
      made.due.push_back({collect, collect + draw_.between(0, 3), draw_.between(1, 3), 500});
    }
    const int life = draw_.between(3, 9);
    if (p.cans < 0 && draw_.between(0, 2) == 0) {
      const int ready = draw_.between(0, 5);
      made.stock.push_back({ready, ready + life, draw_.between(1, 2)});
    }
    for (int s = draw_.between(1, 3); s > 0; --s) made.sessions.push_back(session(p, life));
    for (int slack = 0; slack < 3; ++slack) made.wait.push_back(std::max(0, 4 - 3 * slack));
    made.units_per_can = draw_.between(1, 3);
    return made;
  }

  lot_sizing::Session session(const lot_sizing::Problem& p, int life) {
    lot_sizing::Session s;
    s.start = draw_.between(0, 6);
    s.ready = s.start + draw_.between(1, 5);
    s.use_by = s.ready + life;
    s.per_unit = draw_.between(1, 4);
    if (!p.supplies.empty() && draw_.between(0, 1) == 1) {
      s.supply = 0;
      s.supply_per_unit = draw_.between(1, 2);
    }
    for (int k = draw_.between(1, 2); k > 0; --k) {
      lot_sizing::Setup setup;
      const auto resource = draw_.below(p.resources.size());
      setup.takes.push_back({static_cast<int>(resource), s.start, s.ready, 1});
      setup.most = draw_.between(2, 4);
      setup.least = draw_.between(1, 2);
      setup.cost = draw_.between(0, 20);
      s.setups.push_back(setup);
    }
    return s;
  }

  Draw draw_;
};

// The least cost, and the least that is missed, of all there are.
struct LeastOfAll {
  lot_sizing::Cost total = lot_sizing::never;
  lot_sizing::Cost missed = lot_sizing::never;
};

// Every choice of sessions, setups and sizes.
inline LeastOfAll least_of_all(const lot_sizing::Problem& problem) {
  LeastOfAll least;
  lot_sizing::Plan plan;
  std::vector<std::pair<std::size_t, std::size_t>> sessions;
  for (std::size_t r = 0; r < problem.products.size(); ++r)
    for (std::size_t s = 0; s < problem.products[r].sessions.size(); ++s)
      sessions.emplace_back(r, s);
  const std::function<void(std::size_t)> choose = [&](std::size_t i) {
    if (i == sessions.size()) {
      if (!lot_sizing::broken_limits(problem, plan).empty()) return;
      const lot_sizing::Bill bill = lot_sizing::bill_of(problem, plan);
      least.total = std::min(least.total, bill.total());
      least.missed = std::min(least.missed, bill.missed);
      return;
    }
    choose(i + 1);
    const auto [r, s] = sessions[i];
    const auto& setups = problem.products[r].sessions[s].setups;
    for (std::size_t k = 0; k < setups.size(); ++k)
      for (lot_sizing::Units units = setups[k].least; units <= setups[k].most; ++units) {
        plan.held.push_back({r, s, k, units});
        choose(i + 1);
        plan.held.pop_back();
      }
  };
  choose(0);
  return least;
}

}  // namespace wheyfield::testing
