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
      : dues_(product.due.size()), given_(lots.size() * dues_, 0), held_(lots.size()) {
    for (const Lot& lot : lots) left_.push_back(lot.units);
    for (const Due& due : product.due) lacks_.push_back(due.units);
    for (const Lot& lot : lots)
      for (const Due& due : product.due)
        cost_.push_back(may_serve(lot, due) ? product.waiting(due.collect - lot.ready) - due.miss
                                            : never);
  }

  Served serve() {
    while (augmented()) continue;
    Served served;
    served.draws.resize(dues_);
    for (std::size_t lot = 0; lot < left_.size(); ++lot)
      for (std::size_t d = 0; d < dues_; ++d)
        if (given(lot, d) > 0) served.draws[d].push_back({lot, given(lot, d)});
    served.short_units = std::move(lacks_);
    return served;
  }

 private:
  Units& given(std::size_t lot, std::size_t d) { return given_[lot * dues_ + d]; }

  bool augmented() {
    find_paths();
    std::size_t end = dues_;
    for (std::size_t d = 0; d < dues_; ++d)
      if (lacks_[d] > 0 && to_due_[d] < 0 && (end == dues_ || to_due_[d] < to_due_[end])) end = d;
    if (end == dues_) return false;
    // Back to its beginning for what the path can carry, then once more to move it.
    Units units = lacks_[end];
    std::size_t d = end, lot = from_lot_[end];
    for (; from_due_[lot] != dues_; lot = from_lot_[d]) {
      d = from_due_[lot];
      units = std::min(units, given(lot, d));
    }
    units = std::min(units, left_[lot]);
    lacks_[end] -= units;
    for (d = end, lot = from_lot_[end];; lot = from_lot_[d]) {
      give(lot, d, units);
      if (from_due_[lot] == dues_) break;
      d = from_due_[lot];
      give(lot, d, -units);
    }
    left_[lot] -= units;
    return true;
  }

  // Cheapest ways to every lot and due, by passes over all arcs until nothing gets cheaper.
  void find_paths() {
    to_lot_.assign(left_.size(), never);
    to_due_.assign(dues_, never);
    from_due_.assign(left_.size(), dues_);
    from_lot_.assign(dues_, left_.size());
    for (std::size_t lot = 0; lot < left_.size(); ++lot)
      if (left_[lot] > 0) to_lot_[lot] = 0;
    looked_.assign(left_.size(), never);
    bool cheaper = true;
    while (cheaper) {
      cheaper = false;
      for (std::size_t lot = 0; lot < left_.size(); ++lot) cheaper = onward(lot) || cheaper;
    }
  }

  // What gets cheaper by the arcs of one lot: units given from it, or taken back. As long as the
  // way to the lot costs what it cost when all its arcs were looked at, only taking back can be
  // news.
  bool onward(std::size_t lot) {
    if (to_lot_[lot] != looked_[lot]) {
      const Cost before = to_lot_[lot];
      const bool cheaper = look_at_arcs(lot, 0);
      looked_[lot] = before;
      return cheaper;
    }
    for (const std::size_t d : held_[lot])
      if (take_back(lot, d)) {
        look_at_arcs(lot, d + 1);
        return true;
      }
    return false;
  }

  bool look_at_arcs(std::size_t lot, std::size_t first) {
    bool cheaper = false;
    const Cost* cost = &cost_[lot * dues_];
    for (std::size_t d = first; d < dues_; ++d) {
      if (cost[d] == never) continue;
      if (to_lot_[lot] < never && to_lot_[lot] + cost[d] < to_due_[d]) {
        to_due_[d] = to_lot_[lot] + cost[d];
        from_lot_[d] = lot;
        cheaper = true;
      }
      if (given(lot, d) > 0 && take_back(lot, d)) cheaper = true;
    }
    return cheaper;
  }

  bool take_back(std::size_t lot, std::size_t d) {
    const Cost way = to_due_[d] == never ? never : to_due_[d] - cost_[lot * dues_ + d];
    if (way >= to_lot_[lot]) return false;
    to_lot_[lot] = way;
    from_due_[lot] = d;
    return true;
  }

  void give(std::size_t lot, std::size_t d, Units units) {
    Units& now = given(lot, d);
    std::vector<std::size_t>& held = held_[lot];
    const auto at = std::lower_bound(held.begin(), held.end(), d);
    if (now == 0) held.insert(at, d);
    now += units;
    if (now == 0) held.erase(std::lower_bound(held.begin(), held.end(), d));
  }

  std::size_t dues_;
  std::vector<Units> left_, lacks_;
  std::vector<Units> given_;                    // by lot, then by due
  std::vector<std::vector<std::size_t>> held_;  // the dues that each lot gives to
  std::vector<Cost> cost_;  // the same; `never` where the lot may not serve the due
  std::vector<Cost> to_lot_, to_due_;
  std::vector<Cost> looked_;  // what the way to a lot cost when all its arcs were looked at
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
