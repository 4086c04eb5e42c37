#include "lot_sizing/strong_model.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>

#include "lot_sizing/limits.h"
#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {

namespace {
constexpr std::size_t most_sizes = 6;  // for which rows are rounded
}  // namespace

class ModelWriter {
 public:
  ModelWriter(const Problem& problem, StrongModel& model) : p_(problem), m_(model) {}

  void write() {
    m_.made_.resize(p_.products.size());
    for (std::size_t r = 0; r < p_.products.size(); ++r) product(r);
    resources();
    supplies();
    for (const Material& material : p_.materials) packs(material);
    cans();
    for (std::size_t r = 0; r < p_.products.size(); ++r) fewest_setups(r);
  }

 private:
  using Entries = std::vector<std::pair<std::size_t, double>>;

  std::size_t column(double upper, double cost, bool whole) {
    m_.mip_.columns.push_back({0.0, upper, cost, whole});
    return m_.mip_.columns.size() - 1;
  }
  void row(double lower, double upper, Entries entries) {
    m_.mip_.rows.push_back({lower, upper, std::move(entries)});
  }

  static bool serves(int ready, int use_by, const Due& due) {
    return ready <= due.collect && use_by >= due.last_use;
  }

  void product(std::size_t r) {
    const Product& product = p_.products[r];
    std::vector<Entries> due(product.due.size());  // what serves each
    short_.emplace_back();
    for (std::size_t d = 0; d < product.due.size(); ++d) {
      const Due& of = product.due[d];
      short_[r].push_back(column(of.units, static_cast<double>(of.miss), false));
      due[d].emplace_back(short_[r][d], 1.0);
    }
    for (const Lot& lot : product.stock) {
      Entries taken;
      flows(r, lot.ready, lot.use_by, lot.units, {}, taken, due);
      if (!taken.empty()) row(-unbounded, lot.units, std::move(taken));
    }
    for (std::size_t s = 0; s < product.sessions.size(); ++s) session(r, s, due);
    for (std::size_t d = 0; d < product.due.size(); ++d)
      row(product.due[d].units, product.due[d].units, std::move(due[d]));
  }

  // From one lot to all it may serve; `held` are the columns of which one says it is there.
  void flows(std::size_t r, int ready, int use_by, Units most, const Entries& held, Entries& taken,
             std::vector<Entries>& due) {
    const Product& product = p_.products[r];
    for (std::size_t d = 0; d < product.due.size(); ++d) {
      const Due& of = product.due[d];
      if (of.units == 0 || !serves(ready, use_by, of)) continue;
      const Units limit = std::min(of.units, most);
      const std::size_t x =
          column(limit, static_cast<double>(product.waiting(of.collect - ready)), false);
      taken.emplace_back(x, 1.0);
      due[d].emplace_back(x, 1.0);
      stored_.push_back({r, ready, of.collect, x});
      if (held.empty()) continue;
      Entries link{{x, 1.0}};
      for (const auto& [y, one] : held) link.emplace_back(y, -static_cast<double>(limit));
      row(-unbounded, 0.0, std::move(link));
    }
  }

  void session(std::size_t r, std::size_t s, std::vector<Entries>& due) {
    const Session& session = p_.products[r].sessions[s];
    Units most = 0;
    Entries held, largest, smallest;
    for (std::size_t k = 0; k < session.setups.size(); ++k) {
      const Setup& setup = session.setups[k];
      const std::size_t y = column(1.0, static_cast<double>(setup.cost), true);
      m_.setups_.push_back({r, s, k, y});
      held.emplace_back(y, 1.0);
      largest.emplace_back(y, -static_cast<double>(setup.most));
      smallest.emplace_back(y, -static_cast<double>(setup.least));
      most = std::max(most, setup.most);
      for (const Take& take : setup.takes) takes_.push_back({take, y});
    }
    const std::size_t q = column(most, static_cast<double>(session.per_unit), true);
    m_.made_[r].push_back(q);
    if (session.supply >= 0)
      drawn_[session.supply].emplace_back(q, static_cast<double>(session.supply_per_unit));
    row(-unbounded, 1.0, held);
    largest.emplace_back(q, 1.0);
    smallest.emplace_back(q, 1.0);
    row(-unbounded, 0.0, std::move(largest));
    row(0.0, unbounded, std::move(smallest));
    Entries taken;
    flows(r, session.ready, session.use_by, most, held, taken, due);
    taken.emplace_back(q, -1.0);
    row(-unbounded, 0.0, std::move(taken));
  }

  // More of a resource is in use only from a day on which something starts, or less is there.
  void resources() {
    for (std::size_t k = 0; k < p_.resources.size(); ++k) {
      const std::vector<int>& capacity = p_.resources[k].capacity;
      for (int day = 0; day < p_.days; ++day) {
        const int there = capacity[static_cast<std::size_t>(day)];
        const bool fewer = day > 0 && there < capacity[static_cast<std::size_t>(day) - 1];
        std::map<std::size_t, double> used;
        bool starts = fewer;
        double all = 0.0;
        for (const auto& [take, y] : takes_) {
          if (take.resource != static_cast<int>(k) || take.from > day || take.to <= day) continue;
          starts |= std::max(0, take.from) == day;
          used[y] += take.amount;
          all += take.amount;
        }
        if (starts && all > there) row(-unbounded, there, {used.begin(), used.end()});
      }
    }
  }

  void supplies() {
    for (auto& [supply, drawn] : drawn_)
      row(-unbounded, static_cast<double>(p_.supplies[static_cast<std::size_t>(supply)]),
          std::move(drawn));
  }

  // What is due and cannot come from stock, less what is left short, needs so much of a material at
  // least.
  void packs(const Material& material) {
    Entries need;  // bought - needed >= -in hand
    for (std::size_t r = 0; r < p_.products.size(); ++r)
      for (const std::size_t q : m_.made_[r])
        if (material.per_unit[r] > 0)
          need.emplace_back(q, -static_cast<double>(material.per_unit[r]));
    if (need.empty()) return;
    Entries bought;
    for (const Pack& pack : material.packs)
      bought.emplace_back(column(unbounded, static_cast<double>(pack.price), true),
                          static_cast<double>(pack.size));
    need.insert(need.end(), bought.begin(), bought.end());
    row(-static_cast<double>(material.in_hand), unbounded, std::move(need));
    fewest_packs(material, bought);
  }

  void fewest_packs(const Material& material, const Entries& bought) {
    std::int64_t least = -material.in_hand;
    Entries shorts;
    for (std::size_t r = 0; r < p_.products.size(); ++r) {
      if (material.per_unit[r] == 0) continue;
      least += material.per_unit[r] * std::max<std::int64_t>(0, due_beyond_stock(p_.products[r]));
      for (const std::size_t u : short_[r])
        shorts.emplace_back(u, static_cast<double>(material.per_unit[r]));
    }
    if (least <= 0) return;
    for (const Pack& pack : material.packs)
      round(static_cast<double>(least), static_cast<double>(pack.size), bought, shorts);
  }

  // From  sum of a_k y_k + u >= least  follows, for any size,
  //   sum of F(a_k / size) y_k + u / (size f) >= ceil(least / size),
  // f the fraction of least / size, F(x) = floor(x) + min(1, fraction of x / f).
  void round(double least, double size, const Entries& whole, const Entries& shorts) {
    const double times = least / size;
    const double fraction = times - std::floor(times);
    if (fraction < 1e-6) return;
    Entries entries;
    for (const auto& [y, factor] : whole) {
      const double part = factor / size;
      const double over = part - std::floor(part);
      entries.emplace_back(y, std::floor(part) + std::min(1.0, over / fraction));
    }
    for (const auto& [u, factor] : shorts) entries.emplace_back(u, factor / (size * fraction));
    row(std::ceil(times), unbounded, std::move(entries));
  }

  static std::int64_t due_beyond_stock(const Product& product) {
    std::int64_t units = 0;
    for (const Due& due : product.due) units += due.units;
    for (const Lot& lot : product.stock) units -= lot.units;
    return units;
  }

  // What is collected up to a day comes from stock and from sessions ready by then.
  void fewest_setups(std::size_t r) {
    const Product& product = p_.products[r];
    std::set<Units> sizes;  // the smallest that setups hold
    for (const Session& session : product.sessions)
      for (const Setup& setup : session.setups) sizes.insert(setup.most);
    while (sizes.size() > most_sizes) sizes.erase(std::prev(sizes.end()));
    std::map<int, std::int64_t> days;
    for (const Due& due : product.due) days[due.collect] += due.units;
    std::int64_t least = 0;
    for (const Lot& lot : product.stock) least -= lot.units;
    for (const auto& [day, units] : days) {
      least += units;
      if (least <= 0) continue;
      Entries held, shorts;
      for (const auto& of : m_.setups_)
        if (of.product == r && product.sessions[of.session].ready <= day)
          held.emplace_back(of.column, product.sessions[of.session].setups[of.setup].most);
      for (std::size_t d = 0; d < product.due.size(); ++d)
        if (product.due[d].collect <= day) shorts.emplace_back(short_[r][d], 1.0);
      for (const Units size : sizes) round(static_cast<double>(least), size, held, shorts);
    }
  }

  // Whole cans of each product at the end of each day.
  void cans() {
    if (p_.cans < 0) return;
    for (int day = 0; day <= p_.days; ++day) {
      Entries all;
      for (std::size_t r = 0; r < p_.products.size(); ++r) {
        if (p_.products[r].units_per_can == 0) continue;
        Entries stored;
        for (const Stored& of : stored_)
          if (of.product == r && std::max(0, of.ready) <= day && of.collect > day)
            stored.emplace_back(of.column, 1.0);
        if (stored.empty()) continue;
        const std::size_t filled = column(unbounded, 0.0, true);
        all.emplace_back(filled, 1.0);
        stored.emplace_back(filled, -static_cast<double>(p_.products[r].units_per_can));
        row(-unbounded, 0.0, std::move(stored));
      }
      if (!all.empty()) row(-unbounded, p_.cans, std::move(all));
    }
  }

  struct Stored {
    std::size_t product;
    int ready, collect;
    std::size_t column;
  };

  const Problem& p_;
  StrongModel& m_;
  std::vector<std::vector<std::size_t>> short_;  // column: [product][due]
  std::vector<Stored> stored_;
  std::vector<std::pair<Take, std::size_t>> takes_;
  std::map<int, Entries> drawn_;
};

StrongModel::StrongModel(const Problem& problem) { ModelWriter(problem, *this).write(); }

Plan StrongModel::plan_of(const std::vector<double>& values) const {
  Plan plan;
  for (const SetupColumn& of : setups_) {
    if (values[of.column] < 0.5) continue;
    const double units = values[made_[of.product][of.session]];
    plan.held.push_back(
        {of.product, of.session, of.setup, static_cast<Units>(std::llround(units))});
  }
  return plan;
}

Planned plan_exact(const Problem& problem, const MipSolver& solver, const Effort& effort,
                   const Fallback& fallback) {
  Planned best = plan(problem, effort);
  if (best.gap() <= fallback.good_enough && best.bill.missed <= best.missed_bound) return best;
  const StrongModel model(problem);
  const auto cost = static_cast<double>(best.bill.total());
  const MipResult found = solver.solve(model.mip(), {fallback.gap, fallback.nodes, cost});
  if (!found.values.empty()) {
    Plan plan = model.plan_of(found.values);
    const bool sound = broken_limits(problem, plan).empty();
    const Bill bill = bill_of(problem, plan);
    if (sound && bill.total() < best.bill.total()) {
      best.plan = std::move(plan);
      best.bill = bill;
      best.method = Method::mixed_integer;
    }
  }
  // A bound of floating point: a thousandth of the money and a part in a thousand million less.
  const double safe = std::floor(found.bound - 1.0 - std::fabs(found.bound) * 1e-9);
  if (std::isfinite(safe) && safe > static_cast<double>(best.bound)) {
    best.bound = std::min(static_cast<Cost>(safe), best.bill.total());
    best.method = Method::mixed_integer;
    best.missed_bound = std::max(best.missed_bound, missed_at_least(problem, best.bound));
  }
  return best;
}

}  // namespace wheyfield::lot_sizing
