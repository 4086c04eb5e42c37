#include "lot_sizing/bill.h"

#include <algorithm>
#include <numeric>

#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {
namespace {

Cost cheapest_cover(const std::vector<Pack>& packs, std::int64_t need) {
  if (need <= 0) return 0;
  if (packs.empty()) return never;
  std::int64_t step = 0;
  for (const Pack& pack : packs) step = std::gcd(step, pack.size);
  // Beyond the least common multiple of the sizes the cheapest pack by measure fills up whole
  // multiples: only the rest is worked out.
  const auto cheapest = std::min_element(
      packs.begin(), packs.end(),
      [](const Pack& a, const Pack& b) { return a.price * b.size < b.price * a.size; });
  std::int64_t multiple = 1;
  for (const Pack& pack : packs) multiple = std::lcm(multiple, pack.size / step);
  const std::int64_t period = multiple * step * static_cast<std::int64_t>(packs.size() + 1);
  Cost base = 0;
  if (need > 2 * period) {
    const std::int64_t count = (need - 2 * period) / cheapest->size;
    base = cheapest->price * count;
    need -= count * cheapest->size;
  }
  const auto steps = static_cast<std::size_t>((need + step - 1) / step);
  std::vector<Cost> cost(steps + 1, never);
  cost[0] = 0;
  for (std::size_t at = 1; at <= steps; ++at)
    for (const Pack& pack : packs) {
      const auto size = static_cast<std::size_t>(pack.size / step);
      cost[at] = std::min(cost[at], cost[at > size ? at - size : 0] + pack.price);
    }
  return base + cost[steps];
}

}  // namespace

Cost packs_for(const Material& material, const std::vector<std::int64_t>& made) {
  std::int64_t need = -material.in_hand;
  for (std::size_t r = 0; r < made.size(); ++r) need += material.per_unit[r] * made[r];
  return cheapest_cover(material.packs, need);
}

Bill product_bill(const Problem& problem, const Plan& plan, std::size_t product) {
  Bill bill;
  const Product& made = problem.products[product];
  for (const Held& held : plan.held) {
    if (held.product != product) continue;
    const Session& session = made.sessions[held.session];
    bill.sessions += session.setups[held.setup].cost;
    bill.units += session.per_unit * held.units;
  }
  const std::vector<Lot> lots = lots_of(problem, plan, product);
  const Served served = serve(made, lots);
  for (std::size_t d = 0; d < made.due.size(); ++d) {
    for (const Served::Draw& draw : served.draws[d])
      bill.waiting += made.waiting(made.due[d].collect - lots[draw.lot].ready) * draw.units;
    bill.missed += made.due[d].miss * served.short_units[d];
    bill.short_units += served.short_units[d];
  }
  return bill;
}

Bill bill_of(const Problem& problem, const Plan& plan) {
  Bill bill;
  for (std::size_t r = 0; r < problem.products.size(); ++r) {
    const Bill one = product_bill(problem, plan, r);
    bill.sessions += one.sessions;
    bill.units += one.units;
    bill.waiting += one.waiting;
    bill.missed += one.missed;
    bill.short_units += one.short_units;
  }
  std::vector<std::int64_t> made(problem.products.size(), 0);
  for (const Held& held : plan.held) made[held.product] += held.units;
  for (const Material& material : problem.materials) bill.packs += packs_for(material, made);
  return bill;
}

}  // namespace wheyfield::lot_sizing
