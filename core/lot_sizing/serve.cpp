#include "lot_sizing/serve.h"

#include <algorithm>
#include <numeric>

namespace wheyfield::lot_sizing {
namespace {

bool may_serve(const Lot& lot, const Due& due) {
  return lot.ready <= due.collect && lot.use_by >= due.last_use;
}

template <class Before>
std::vector<std::size_t> ordered(std::size_t count, Before before) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), before);
  return order;
}

// First in, first out: lots by ready day, each to the earliest collecting day it may serve. Serves
// as much in all as can be served (Glover's rule for convex bipartite graphs).
Served first_in_first_out(const std::vector<Due>& due, const std::vector<Lot>& lots) {
  std::vector<Units> need;
  for (const Due& d : due) need.push_back(d.units);
  const auto by_ready = ordered(lots.size(), [&](std::size_t a, std::size_t b) {
    return lots[a].ready != lots[b].ready ? lots[a].ready < lots[b].ready
                                          : lots[a].use_by < lots[b].use_by;
  });
  const auto by_collect = ordered(due.size(), [&](std::size_t a, std::size_t b) {
    return due[a].collect != due[b].collect ? due[a].collect < due[b].collect
                                            : due[a].last_use < due[b].last_use;
  });
  Served served;
  served.draws.resize(due.size());
  for (const std::size_t lot : by_ready) {
    Units left = lots[lot].units;
    for (const std::size_t d : by_collect) {
      if (left == 0) break;
      if (need[d] == 0 || !may_serve(lots[lot], due[d])) continue;
      const Units units = std::min(left, need[d]);
      served.draws[d].push_back({lot, units});
      left -= units;
      need[d] -= units;
    }
  }
  served.short_units = std::move(need);
  return served;
}

// Successive shortest paths from lots with something left to dues with something lacking; each
// serves units at the smallest cost there is, and a path may take units back on its way.
class LeastCost {
 public:
  LeastCost(const Product& product, const std::vector<Lot>& lots)
      : product_(product), lots_(lots), given_(lots.size(), std::vector<Units>(dues())) {
    for (const Lot& lot : lots) left_.push_back(lot.units);
    for (const Due& due : product.due) lacks_.push_back(due.units);
  }

  Served serve() {
    while (augmented()) continue;
    Served served;
    served.draws.resize(dues());
    for (std::size_t lot = 0; lot < lots_.size(); ++lot)
      for (std::size_t d = 0; d < dues(); ++d)
        if (given_[lot][d] > 0) served.draws[d].push_back({lot, given_[lot][d]});
    served.short_units = std::move(lacks_);
    return served;
  }

 private:
  std::size_t dues() const { return product_.due.size(); }

  Cost cost(std::size_t lot, std::size_t d) const {
    return product_.waiting(product_.due[d].collect - lots_[lot].ready) - product_.due[d].miss;
  }

  bool augmented() {
    find_paths();
    std::size_t end = dues();
    for (std::size_t d = 0; d < dues(); ++d)
      if (lacks_[d] > 0 && to_due_[d] < 0 && (end == dues() || to_due_[d] < to_due_[end])) end = d;
    if (end == dues()) return false;
    // Back to its beginning for what the path can carry, then once more to move it.
    Units units = lacks_[end];
    std::size_t d = end, lot = from_lot_[end];
    for (; from_due_[lot] != dues(); lot = from_lot_[d]) {
      d = from_due_[lot];
      units = std::min(units, given_[lot][d]);
    }
    units = std::min(units, left_[lot]);
    lacks_[end] -= units;
    for (d = end, lot = from_lot_[end];; lot = from_lot_[d]) {
      given_[lot][d] += units;
      if (from_due_[lot] == dues()) break;
      d = from_due_[lot];
      given_[lot][d] -= units;
    }
    left_[lot] -= units;
    return true;
  }

  // Cheapest ways to every lot and due, by passes over all arcs until nothing gets cheaper.
  void find_paths() {
    to_lot_.assign(lots_.size(), never);
    to_due_.assign(dues(), never);
    from_due_.assign(lots_.size(), dues());
    from_lot_.assign(dues(), lots_.size());
    for (std::size_t lot = 0; lot < lots_.size(); ++lot)
      if (left_[lot] > 0) to_lot_[lot] = 0;
    for (bool cheaper = true; cheaper;) {
      cheaper = false;
      for (std::size_t lot = 0; lot < lots_.size(); ++lot)
        for (std::size_t d = 0; d < dues(); ++d) {
          if (to_lot_[lot] < never && may_serve(lots_[lot], product_.due[d]) &&
              to_lot_[lot] + cost(lot, d) < to_due_[d]) {
            to_due_[d] = to_lot_[lot] + cost(lot, d);
            from_lot_[d] = lot;
            cheaper = true;
          }
          if (given_[lot][d] > 0 && to_due_[d] - cost(lot, d) < to_lot_[lot] &&
              to_due_[d] < never) {
            to_lot_[lot] = to_due_[d] - cost(lot, d);
            from_due_[lot] = d;
            cheaper = true;
          }
        }
    }
  }

  const Product& product_;
  const std::vector<Lot>& lots_;
  std::vector<Units> left_, lacks_;
  std::vector<std::vector<Units>> given_;  // [lot][due]
  std::vector<Cost> to_lot_, to_due_;
  std::vector<std::size_t> from_due_, from_lot_;  // where the way comes from; past the end: nowhere
};

}  // namespace

std::vector<Lot> lots_of(const Problem& problem, const Plan& plan, std::size_t product) {
  std::vector<Lot> lots = problem.products[product].stock;
  for (const Held& held : plan.held) {
    if (held.product != product) continue;
    const Session& session = problem.products[product].sessions[held.session];
    lots.push_back({session.ready, session.use_by, held.units});
  }
  return lots;
}

Served serve(const Product& product, const std::vector<Lot>& lots) {
  Served all = first_in_first_out(product.due, lots);
  if (std::all_of(all.short_units.begin(), all.short_units.end(),
                  [](Units units) { return units == 0; }))
    return all;
  return LeastCost(product, lots).serve();
}

}  // namespace wheyfield::lot_sizing
