#include "season/back_scheduler.h"

#include <algorithm>
#include <limits>
#include <map>

#include "season/batch_chain.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

constexpr std::int64_t grid_ml = 500;
constexpr std::int64_t small_grid_ml = 100;
constexpr int most_trials = 400;  // of earlier batches in one plan
constexpr int spare_grace = 7;    // days: a spare ready by the next meeting still helps
constexpr std::int64_t without_limit = std::numeric_limits<std::int64_t>::max() / 4;

std::int64_t rounded_up(std::int64_t ml) { return (ml + grid_ml - 1) / grid_ml * grid_ml; }
std::int64_t rounded_down(std::int64_t ml) {
  return ml >= grid_ml ? ml / grid_ml * grid_ml : ml / small_grid_ml * small_grid_ml;
}

struct Candidate {
  std::size_t vessel;
  Date fill_day;
  const std::vector<BatchStep>* chain;
  std::int64_t capacity;
  Date ready() const { return chain->back().to; }
  Date start() const { return chain->front().from; }
};

// A lot as it is drawn down while planning. `batch` is an index into `made_`, or -1 for opening.
struct OpenLot {
  Lot lot;
  std::int64_t left;
  int batch;
};

class Scheduling {
 public:
  explicit Scheduling(const BatchProblem& problem)
      : p_(problem),
        season_(*problem.season),
        chains_(problem),
        milk_share_(milk_per_product(*problem.recipe)),
        vessel_step_(static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()))) {
    for (const Lot& lot : p_.opening) lots_.push_back({lot, lot.ml, -1});
    for (const Vessel& v : season_.vessels) capacity_.push_back(vessel_capacity_ml(*p_.recipe, v));
  }

  BatchPlan run() {
    plan_.draws.resize(p_.demand.size());
    plan_.short_ml.assign(p_.demand.size(), 0);
    for (std::size_t g = 0; g < p_.demand.size(); ++g) serve(g);
    add_spares();
    return finished();
  }

 private:
  void serve(std::size_t g) {
    const Demand& demand = p_.demand[g];
    std::int64_t need = draw(g, demand.ml);
    while (need > 0) {
      if (const auto candidate = latest_start(demand)) {
        brew(*candidate, std::min(candidate->capacity, rounded_up(wanted(*candidate, g, need))),
             false);
        need = draw(g, need);
      } else if (const std::int64_t still = after_shift(g, need); still < need) {
        need = still;
      } else {
        break;
      }
    }
    plan_.short_ml[g] = need;
  }

  // When nothing made for this demand would keep until its last use, an earlier batch may free a
  // fresher one: tries earlier batches, latest start first, sharing all stock out anew, and keeps
  // the first that leaves less short. Gives what this demand still needs.
  std::int64_t after_shift(std::size_t g, std::int64_t need) {
    const Demand& demand = p_.demand[g];
    plan_.short_ml[g] = need;
    const std::int64_t before = short_up_to(g);
    if (before > need) return need;
    for (Date day = demand.collect; day >= p_.first_start(); day = day - 1)
      for (std::size_t v = 0; v < season_.vessels.size() && trials_ < most_trials; ++v) {
        const auto c = candidate(v, day, milk_left(day));
        if (!c || c->ready() > demand.collect) continue;
        ++trials_;
        const std::int64_t ml = std::min(c->capacity, rounded_up(need));
        brew(*c, ml, false);
        share_anew(g);
        if (short_up_to(g) < before) return plan_.short_ml[g];
        take_back(*c, ml);
        share_anew(g);
      }
    return need;
  }

  std::int64_t short_up_to(std::size_t g) const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i <= g; ++i) sum += plan_.short_ml[i];
    return sum;
  }

  // All demands up to `g` draw again, in their order.
  void share_anew(std::size_t g) {
    for (OpenLot& open : lots_) open.left = open.lot.ml;
    for (std::size_t i = 0; i <= g; ++i) {
      plan_.draws[i].clear();
      plan_.short_ml[i] = draw(i, p_.demand[i].ml);
    }
  }

  // Takes from what can be drawn on, soonest to expire first; gives what is still needed.
  std::int64_t draw(std::size_t g, std::int64_t need) {
    const Demand& demand = p_.demand[g];
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < lots_.size(); ++i) {
      const OpenLot& open = lots_[i];
      if (open.left > 0 && open.lot.from <= demand.collect && open.lot.use_by >= demand.last_use)
        order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return lots_[a].lot.use_by < lots_[b].lot.use_by;
    });
    for (const std::size_t i : order) {
      const std::int64_t ml = std::min(need, lots_[i].left);
      if (ml == 0) break;
      lots_[i].left -= ml;
      need -= ml;
      plan_.draws[g].push_back({i, ml});
    }
    return need;
  }

  // What this batch would best hold: the need at hand and later demand within its life that nothing
  // in stock will still cover on its day. Stops looking once the batch is full.
  std::int64_t wanted(const Candidate& c, std::size_t g, std::int64_t need) const {
    const Date use_by = c.ready() + season_.serum_life_days;
    std::vector<Lot> stock;
    for (const OpenLot& open : lots_)
      if (open.left > 0) stock.push_back({open.lot.from, open.lot.use_by, open.left});
    std::stable_sort(stock.begin(), stock.end(),
                     [](const Lot& a, const Lot& b) { return a.use_by < b.use_by; });
    for (std::size_t later = g + 1; later < p_.demand.size() && need < c.capacity; ++later) {
      const Demand& demand = p_.demand[later];
      if (demand.last_use > use_by) continue;
      std::int64_t uncovered = demand.ml;
      for (Lot& lot : stock) {
        if (lot.from > demand.collect || lot.use_by < demand.last_use) continue;
        const std::int64_t ml = std::min(uncovered, lot.ml);
        lot.ml -= ml;
        uncovered -= ml;
      }
      need += uncovered;
    }
    return need;
  }

  std::int64_t milk_left(Date day) const {
    if (milk_share_ <= 0.0) return without_limit;
    const MilkRule* rule = season_.milk_on(day);
    if (!rule) return 0;
    if (p_.milk_without_limit) return without_limit;
    const auto used = milk_used_.find(day.days());
    const auto limit =
        static_cast<std::int64_t>(quantity::in_millilitres(rule->most) / milk_share_ + 1e-6);
    return limit - (used == milk_used_.end() ? 0 : used->second);
  }

  bool vessel_free(std::size_t vessel, Date from, Date to) const {
    if (p_.vessels_without_limit) return true;
    return std::none_of(made_.begin(), made_.end(), [&](const Batch& b) {
      const BatchStep& stands = b.steps[vessel_step_];
      return b.vessel == vessel && from < stands.to && stands.from < to;
    });
  }

  std::optional<Candidate> candidate(std::size_t vessel, Date fill_day, std::int64_t milk) {
    const auto& chain = chains_.at(season_.vessels[vessel].place, fill_day);
    if (!chain || chain->front().from < p_.first_start()) return std::nullopt;
    const BatchStep& stands = (*chain)[vessel_step_];
    if (!vessel_free(vessel, stands.from, stands.to)) return std::nullopt;
    const std::int64_t capacity = rounded_down(std::min(capacity_[vessel], milk));
    if (capacity <= 0) return std::nullopt;
    return Candidate{vessel, fill_day, &*chain, capacity};
  }

  static bool better(const Candidate& a, const std::optional<Candidate>& b) {
    if (!b) return true;
    if (a.start() != b->start()) return a.start() > b->start();
    return a.capacity > b->capacity;
  }

  std::optional<Candidate> latest_start(const Demand& demand) {
    std::optional<Candidate> best;
    for (Date day = demand.collect; day >= p_.first_start(); day = day - 1) {
      if (best && day < best->start()) break;
      const std::int64_t milk = milk_left(day);
      if (milk <= 0) continue;
      for (std::size_t v = 0; v < season_.vessels.size(); ++v) {
        const auto c = candidate(v, day, milk);
        if (!c || c->ready() > demand.collect) continue;
        if (c->ready() + season_.serum_life_days < demand.last_use) continue;
        if (better(*c, best)) best = c;
      }
    }
    return best;
  }

  void brew(const Candidate& c, std::int64_t ml, bool spare) {
    const Date ready = c.ready(), use_by = ready + season_.serum_life_days;
    made_.push_back({c.vessel, ml, *c.chain, ready, use_by, spare});
    milk_used_[c.fill_day.days()] += ml;
    if (!spare) lots_.push_back({{ready, use_by, ml}, ml, static_cast<int>(made_.size()) - 1});
  }

  // Undoes the batch brewed last.
  void take_back(const Candidate& c, std::int64_t ml) {
    made_.pop_back();
    lots_.pop_back();
    milk_used_[c.fill_day.days()] -= ml;
  }

  // The earliest batch of `ml` that is ready from `day` on and not after `limit`.
  bool brew_spare(std::int64_t ml, Date day, Date limit) {
    for (Date collect = day; collect <= limit; collect = collect + 1) {
      const auto c = latest_start({collect, collect, ml});
      if (!c) continue;
      brew(*c, std::min(ml, c->capacity), true);
      return true;
    }
    return false;
  }

  void add_spares() {
    const int each = season_.batches_per_spare;
    if (each <= 0) return;
    const std::size_t planned = made_.size();
    for (std::size_t first = 0; first < planned; first += static_cast<std::size_t>(each)) {
      const std::size_t end = std::min(planned, first + static_cast<std::size_t>(each));
      std::int64_t largest = 0;
      Date limit = made_[first].ready;
      for (std::size_t i = first; i < end; ++i) {
        largest = std::max(largest, made_[i].stored_ml);
        limit = std::max(limit, made_[i].ready);
      }
      if (!brew_spare(largest, made_[first].ready, limit + spare_grace)) plan_.spare_missing = true;
    }
  }

  // Batches in order of their start; draws renumbered to follow.
  BatchPlan finished() {
    std::vector<std::size_t> order(made_.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return made_[a].start() < made_[b].start();
    });
    std::vector<std::size_t> place(made_.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      place[order[i]] = i;
      plan_.batches.push_back(made_[order[i]]);
    }
    for (auto& draws : plan_.draws)
      for (Draw& draw : draws)
        if (const int batch = lots_[draw.lot].batch; batch >= 0)
          draw.lot = p_.opening.size() + place[static_cast<std::size_t>(batch)];
    return std::move(plan_);
  }

  const BatchProblem& p_;
  const Season& season_;
  ChainTable chains_;
  double milk_share_;
  std::size_t vessel_step_;
  std::vector<std::int64_t> capacity_;
  std::vector<OpenLot> lots_;
  std::vector<Batch> made_;
  int trials_ = 0;
  std::map<int, std::int64_t> milk_used_;  // by day, in product [mL]
  BatchPlan plan_;
};

}  // namespace

BatchPlan BackScheduler::plan(const BatchProblem& problem) const {
  return Scheduling(problem).run();
}

}  // namespace wheyfield::season
