#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

#include "lot_sizing/serve.h"
#include "season/lots.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using lot_sizing::Units;

std::size_t filled_step(const BatchProblem& problem) {
  return static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()));
}

// Which vessels of a kind each session takes: the first that are free, by the day they are filled.
class VesselBook {
 public:
  explicit VesselBook(const LotProblem& lots) : lots_(lots), free_from_(lots.kinds.size()) {
    for (std::size_t k = 0; k < lots.kinds.size(); ++k)
      free_from_[k].assign(lots.kinds[k].size(), std::numeric_limits<int>::min());
  }

  std::vector<std::size_t> take(const lot_sizing::Setup& setup) {
    std::vector<std::size_t> vessels;
    for (const lot_sizing::Take& take : setup.takes) {
      const auto k = static_cast<std::size_t>(take.resource);
      if (k >= free_from_.size()) continue;  // hands
      int wanted = take.amount;
      for (std::size_t i = 0; i < free_from_[k].size() && wanted > 0; ++i) {
        if (free_from_[k][i] > take.from) continue;
        free_from_[k][i] = take.to;
        vessels.push_back(lots_.kinds[k][i]);
        --wanted;
      }
      for (; wanted > 0; --wanted) vessels.push_back(lots_.kinds[k].front());  // never in use
    }
    return vessels;
  }

 private:
  const LotProblem& lots_;
  std::vector<std::vector<int>> free_from_;
};

// `units` over vessels by what they hold; what is left over goes to the first that have room.
std::vector<std::int64_t> spread(std::int64_t units, const std::vector<std::int64_t>& capacity) {
  const std::int64_t all = std::accumulate(capacity.begin(), capacity.end(), std::int64_t{0});
  std::vector<std::int64_t> share;
  std::int64_t left = units;
  for (const std::int64_t one : capacity) {
    share.push_back(units * one / all);
    left -= share.back();
  }
  for (std::size_t i = 0; left > 0; i = (i + 1) % share.size())
    if (share[i] < capacity[i]) {
      ++share[i];
      --left;
    }
  return share;
}

// As people were told, where the same vessels get as much; else spread.
std::vector<std::int64_t> as_told(const BatchProblem& problem, std::int64_t unit_ml, Date filled,
                                  const std::vector<std::size_t>& vessels,
                                  std::vector<std::int64_t> units) {
  std::vector<std::int64_t> told(vessels.size(), 0);
  std::int64_t ml = 0;
  for (const Told& batch : problem.announced.told) {
    const auto at = std::find(vessels.begin(), vessels.end(), batch.vessel);
    if (batch.fill_day != filled || at == vessels.end()) continue;
    told[static_cast<std::size_t>(at - vessels.begin())] = batch.stored_ml / unit_ml;
    ml += batch.stored_ml;
  }
  const std::int64_t all = std::accumulate(units.begin(), units.end(), std::int64_t{0});
  return ml == all * unit_ml ? told : std::move(units);
}

// The batches that plans hold, in the order of the days on which their vessels are filled.
class Dating {
 public:
  Dating(const std::vector<Prepared>& all, const LotProblem& lots)
      : all_(all), lots_(lots), vessels_(lots) {}

  std::vector<BatchPlan> run(std::vector<lot_sizing::Held> held) {
    std::vector<BatchPlan> made(all_.size());
    for (std::size_t r = 0; r < all_.size(); ++r)
      made[r].batches = all_[r].problem->announced.batches;
    std::stable_sort(held.begin(), held.end(), [&](const auto& a, const auto& b) {
      return pinned(a).fill_day < pinned(b).fill_day;
    });
    for (const lot_sizing::Held& h : held) add(h, made[h.product]);
    for (BatchPlan& plan : made)
      std::stable_sort(plan.batches.begin(), plan.batches.end(),
                       [](const Batch& a, const Batch& b) { return a.start() < b.start(); });
    return made;
  }

 private:
  const LotProblem::Pinned& pinned(const lot_sizing::Held& h) const {
    return lots_.sessions[h.product][h.session];
  }

  void add(const lot_sizing::Held& h, BatchPlan& made) {
    const BatchProblem& problem = *all_[h.product].problem;
    const std::int64_t unit_ml = lots_.unit_ml[h.product];
    const LotProblem::Pinned& at = pinned(h);
    const std::vector<BatchStep>& chain = *chain_of(all_[h.product], at);
    const std::vector<std::size_t> taken =
        vessels_.take(lots_.problem.products[h.product].sessions[h.session].setups[h.setup]);
    std::vector<std::int64_t> capacity;
    for (const std::size_t v : taken)
      capacity.push_back(vessel_capacity_ml(*problem.recipe, problem.season->vessels[v]) / unit_ml);
    const std::vector<std::int64_t> units =
        as_told(problem, unit_ml, at.fill_day, taken, spread(h.units, capacity));
    for (std::size_t i = 0; i < taken.size(); ++i)
      if (units[i] > 0)
        made.batches.push_back({taken[i], units[i] * unit_ml, chain, chain.back().to,
                                chain.back().to + problem.life_days(), false});
  }

  const std::vector<Prepared>& all_;
  const LotProblem& lots_;
  VesselBook vessels_;
};

// Draws for each demand, to the millilitre.
void serve_exactly(const BatchProblem& problem, const lot_sizing::Product& product, Date day0,
                   BatchPlan& made) {
  lot_sizing::Product exact;
  for (const Demand& d : problem.demand)
    exact.due.push_back({d.collect - day0, std::max(d.collect, d.last_use) - day0,
                         static_cast<Units>(d.ml), d.guess ? 1 : 10});
  std::vector<lot_sizing::Lot> stock;
  for (std::size_t i = 0; i < problem.opening.size(); ++i)
    stock.push_back({product.stock[i].ready, product.stock[i].use_by,
                     static_cast<Units>(problem.opening[i].ml)});
  for (const Batch& b : made.batches)
    stock.push_back({b.ready - day0, b.use_by - day0, static_cast<Units>(b.stored_ml)});
  const lot_sizing::Served served = lot_sizing::serve(exact, stock);
  made.draws.assign(problem.demand.size(), {});
  made.short_ml.clear();
  for (std::size_t d = 0; d < problem.demand.size(); ++d) {
    for (const lot_sizing::Served::Draw& draw : served.draws[d])
      made.draws[d].push_back({draw.lot, draw.units});
    made.short_ml.push_back(served.short_units[d]);
  }
}

using Poured = std::map<int, double>;  // milk [mL], by day

void pour(const BatchProblem& problem, const BatchPlan& plan, Poured& poured) {
  for (const Stand& stand : stands(*problem.recipe, plan.batches))
    poured[stand.from.days()] += static_cast<double>(stand.milk_ml);
}

// Up to what the vessel and the milk of the day hold.
void fill_up(const BatchProblem& problem, std::int64_t unit_ml, Poured poured, BatchPlan& made) {
  const double share = milk_per_product(*problem.recipe);
  for (Batch& b : made.batches) {
    if (b.announced) continue;
    const Date day = b.steps[filled_step(problem)].from;
    std::int64_t more =
        vessel_capacity_ml(*problem.recipe, problem.season->vessels[b.vessel]) - b.stored_ml;
    if (const MilkRule* rule = problem.season->milk_on(day);
        rule && share > 0.0 && !problem.milk_without_limit) {
      const double left = quantity::in_millilitres(rule->most) - poured[day.days()];
      more = std::min(more, static_cast<std::int64_t>(left / share + 1e-6));
    }
    more = std::clamp<std::int64_t>(more, 0, unit_ml);
    b.stored_ml += more;
    poured[day.days()] += static_cast<double>(more) * share;
  }
}

// The plan with fuller batches where that leaves less short, and no fuller than is drawn.
BatchPlan fuller(const BatchProblem& problem, const LotProblem& lots, std::size_t r,
                 const Poured& poured, const BatchPlan& made) {
  const std::int64_t unit_ml = lots.unit_ml[r];
  BatchPlan full = made;
  fill_up(problem, unit_ml, poured, full);
  serve_exactly(problem, lots.problem.products[r], lots.day0, full);
  if (full.total_short() >= made.total_short()) return made;
  std::vector<std::int64_t> drawn(full.batches.size(), 0);
  for (const auto& draws : full.draws)
    for (const Draw& draw : draws)
      if (draw.lot >= problem.opening.size()) drawn[draw.lot - problem.opening.size()] += draw.ml;
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const std::int64_t wanted = (drawn[i] + unit_ml - 1) / unit_ml * unit_ml;
    full.batches[i].stored_ml =
        std::clamp(wanted, made.batches[i].stored_ml, full.batches[i].stored_ml);
  }
  return full;
}

// What the batches of one session take together.
struct FilledTogether {
  std::int64_t ml = 0;
  std::map<std::size_t, int> kinds;
};

class Holding {
 public:
  Holding(const std::vector<Prepared>& all, LotProblem& lots) : all_(all), lots_(lots) {
    for (std::size_t k = 0; k < lots.kinds.size(); ++k)
      for (const std::size_t v : lots.kinds[k]) kind_of_[v] = k;
  }

  void add(std::size_t r, const BatchPlan& plan, lot_sizing::Plan& held) {
    for (const auto& [s, together] : sessions_of(r, plan)) {
      std::vector<lot_sizing::Setup>& setups = lots_.problem.products[r].sessions[s].setups;
      setups.push_back(setup_of(setups.front(), together, lots_.unit_ml[r]));
      held.held.push_back({r, s, setups.size() - 1, setups.back().most});
    }
  }

 private:
  std::map<std::size_t, FilledTogether> sessions_of(std::size_t r, const BatchPlan& plan) const {
    const BatchProblem& problem = *all_[r].problem;
    std::map<std::size_t, FilledTogether> found;
    for (const Batch& b : plan.batches) {
      if (b.spare || b.announced) continue;
      const Date filled = b.steps[filled_step(problem)].from;
      for (std::size_t s = 0; s < lots_.sessions[r].size(); ++s)
        if (const LotProblem::Pinned& at = lots_.sessions[r][s];
            at.takes(problem.season->vessels[b.vessel]) && at.fill_day == filled) {
          found[s].ml += b.stored_ml;
          ++found[s].kinds[kind_of_.at(b.vessel)];
        }
    }
    return found;
  }

  bool is_vessel(const lot_sizing::Take& take) const {
    return static_cast<std::size_t>(take.resource) < lots_.kinds.size();
  }

  // Like another setup of the session, but with these vessels.
  lot_sizing::Setup setup_of(const lot_sizing::Setup& like, const FilledTogether& together,
                             std::int64_t unit_ml) const {
    lot_sizing::Setup setup = like;
    setup.takes.clear();
    int vessels = 0, vessels_before = 0;
    for (const lot_sizing::Take& take : like.takes)
      if (is_vessel(take)) vessels_before += take.amount;
    for (const auto& [kind, count] : together.kinds) {
      setup.takes.push_back(
          {static_cast<int>(kind), like.takes.front().from, like.takes.front().to, count});
      vessels += count;
    }
    for (lot_sizing::Take take : like.takes)
      if (!is_vessel(take)) {
        take.amount = take.amount / vessels_before * vessels;
        setup.takes.push_back(take);
      }
    setup.cost = like.cost / vessels_before * vessels;
    setup.least = 1;
    setup.most = static_cast<Units>(together.ml / unit_ml);
    return setup;
  }

  const std::vector<Prepared>& all_;
  LotProblem& lots_;
  std::map<std::size_t, std::size_t> kind_of_;
};

}  // namespace

std::vector<BatchPlan> from_lots(const std::vector<Prepared>& all, const LotProblem& lots,
                                 const lot_sizing::Plan& plan) {
  std::vector<BatchPlan> made = Dating(all, lots).run(plan.held);
  for (std::size_t r = 0; r < all.size(); ++r)
    serve_exactly(*all[r].problem, lots.problem.products[r], lots.day0, made[r]);
  for (std::size_t r = 0; r < all.size(); ++r) {
    if (made[r].total_short() == 0) continue;
    Poured poured;
    for (std::size_t other = 0; other < all.size(); ++other)
      pour(*all[other].problem, made[other], poured);
    made[r] = fuller(*all[r].problem, lots, r, poured, made[r]);
  }
  return made;
}

lot_sizing::Plan to_lot_plan(const std::vector<Prepared>& all, const std::vector<BatchPlan>& plans,
                             LotProblem& lots) {
  Holding holding(all, lots);
  lot_sizing::Plan held;
  for (std::size_t r = 0; r < all.size(); ++r) holding.add(r, plans[r], held);
  return held;
}

}  // namespace wheyfield::season
