#include "lot_sizing/strong_model.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numeric>
#include <set>
#include <utility>

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
      m_.missed_.push_back(short_[r].back());
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

double StrongModel::missed_unit() const {
  double least = unbounded;
  for (const std::size_t u : missed_) least = std::min(least, mip_.columns[u].cost);
  return std::isinf(least) ? 1.0 : least;
}

Mip StrongModel::only_missed() const {
  Mip mip = mip_;
  for (MipColumn& column : mip.columns) column.cost = 0.0;
  for (const std::size_t u : missed_) mip.columns[u].cost = mip_.columns[u].cost / missed_unit();
  return mip;
}

Mip StrongModel::only_money(Cost most) const {
  Mip mip = mip_;
  MipRow row{-unbounded, static_cast<double>(most) / missed_unit(), {}};
  for (const std::size_t u : missed_) {
    row.entries.emplace_back(u, mip_.columns[u].cost / missed_unit());
    mip.columns[u].cost = 0.0;
    if (most == 0) mip.columns[u].upper = 0.0;
  }
  if (most > 0 && !row.entries.empty()) mip.rows.push_back(std::move(row));
  return mip;
}

namespace {

class Exactly {
 public:
  Exactly(const Problem& problem, const MipSolver& solver, const Fallback& fallback, Planned plan)
      : p_(problem),
        solver_(solver),
        fallback_(fallback),
        model_(problem),
        best_(std::move(plan)) {}

  Planned run() {
    if (best_.bill.missed > best_.missed_bound) miss_less();
    // Else a plan that misses more could be cheaper, or less be missed.
    const bool apart = best_.bill.missed <= best_.missed_bound && money() < whole_miss();
    apart ? pay_less() : all_at_once();
    best_.missed_bound = std::max(best_.missed_bound, missed_at_least(p_, best_.bound));
    return std::move(best_);
  }

 private:
  void miss_less() {
    const double unit = model_.missed_unit();
    const double missed = static_cast<double>(best_.bill.missed) / unit;
    const MipResult found =
        solver_.solve(model_.only_missed(), {missed_gap, fallback_.nodes, missed});
    take(found);
    const Cost least = floored(found.bound * unit);
    const Cost whole = whole_miss();
    if (whole > 0 && least > best_.missed_bound)
      best_.missed_bound = std::min(best_.bill.missed, (least + whole - 1) / whole * whole);
    raise_bound(best_.missed_bound);
  }

  void pay_less() {
    const Cost missed = best_.bill.missed;
    const MipResult found = solver_.solve(
        model_.only_money(missed), {fallback_.gap, fallback_.nodes, static_cast<double>(money())});
    take(found);
    raise_bound(missed + floored(found.bound));
  }

  void all_at_once() {
    const auto cost = static_cast<double>(best_.bill.total());
    const MipResult found = solver_.solve(model_.mip(), {fallback_.gap, fallback_.nodes, cost});
    take(found);
    raise_bound(floored(found.bound));
  }

  Cost money() const { return best_.bill.total() - best_.bill.missed; }

  // What is missed is a multiple of it.
  Cost whole_miss() const {
    Cost whole = 0;
    for (const Product& product : p_.products)
      for (const Due& due : product.due)
        if (due.units > 0) whole = std::gcd(whole, due.miss);
    return whole;
  }

  void take(const MipResult& found) {
    if (found.values.empty()) return;
    Plan plan = model_.plan_of(found.values);
    if (!broken_limits(p_, plan).empty()) return;
    const Bill bill = bill_of(p_, plan);
    if (bill.total() >= best_.bill.total()) return;
    best_.plan = std::move(plan);
    best_.bill = bill;
    best_.method = Method::mixed_integer;
  }

  // A bound of floating point: a thousandth of the money and a part in a thousand million less.
  static Cost floored(double bound) {
    const double safe = std::floor(bound - 1.0 - std::fabs(bound) * 1e-9);
    return std::isfinite(safe) ? std::max<Cost>(0, static_cast<Cost>(safe)) : 0;
  }

  void raise_bound(Cost bound) {
    if (bound <= best_.bound) return;
    best_.bound = std::min(bound, best_.bill.total());
    best_.method = Method::mixed_integer;
  }

  static constexpr double missed_gap = 1e-7;

  const Problem& p_;
  const MipSolver& solver_;
  const Fallback& fallback_;
  StrongModel model_;
  Planned best_;
};

}  // namespace

Planned plan_exact(const Problem& problem, const MipSolver& solver, const Effort& effort,
                   const Fallback& fallback) {
  Planned best = plan(problem, effort);
  if (best.gap() <= fallback.good_enough && best.bill.missed <= best.missed_bound) return best;
  return Exactly(problem, solver, fallback, std::move(best)).run();
}

}  // namespace wheyfield::lot_sizing
