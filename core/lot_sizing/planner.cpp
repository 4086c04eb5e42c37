#include "lot_sizing/planner.h"

#include <algorithm>
#include <numeric>

#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr int most_orders = 6;    // in which products are planned one after the other
constexpr int steps_a_plan = 3;   // price steps for each further plan
constexpr int most_descents = 3;  // rounds of planning each product again beside the others

class Planning {
 public:
  Planning(const Problem& problem, const Effort& effort)
      : p_(problem), effort_(effort), carried_(problem.products.size()) {
    for (std::size_t r = 0; r < p_.products.size(); ++r) programmes_.emplace_back(p_, r);
  }

  Planned run() {
    alone();
    if (!done() && products() > 1) {
      one_after_the_other();
      descend();
    }
    if (!done()) price();
    best_.bound = std::min(best_.bound, best_.bill.total());
    best_.missed_bound = std::max(best_.missed_bound, missed_at_least(p_, best_.bound));
    return std::move(best_);
  }

 private:
  std::size_t products() const { return p_.products.size(); }
  bool proven() const { return has_plan_ && best_.bill.total() <= best_.bound; }

  bool done() const { return proven() || (has_plan_ && work_.done > effort_.most_work); }

  // Keeps a plan that keeps every limit and costs less than the best so far.
  bool offer(const Plan& plan) {
    if (!broken_limits(p_, plan).empty()) return false;
    const Bill bill = bill_of(p_, plan);
    if (has_plan_ && bill.total() >= best_.bill.total()) return false;
    best_.plan = plan;
    best_.bill = bill;
    has_plan_ = true;
    bound_missed();
    raise_bound(sum_of_bounds_);
    return true;
  }

  // With the packs that any plan as cheap as the best needs.
  void raise_bound(Cost without_packs) {
    sum_of_bounds_ = std::max(sum_of_bounds_, without_packs);
    best_.bound = std::max(best_.bound, sum_of_bounds_ + fewest_packs());
  }

  // Packs for what every plan as good as the best makes. When nothing can be missed less, and
  // missing one unit more costs more than all the rest, such a plan misses as many units as the
  // best; else at most as many as its cost allows.
  Cost fewest_packs() const {
    const Cost rest = best_.bill.total() - best_.bill.missed;
    std::vector<std::int64_t> made;
    for (std::size_t r = 0; r < products(); ++r) {
      const Product& product = p_.products[r];
      Cost least_miss = never;
      for (const Due& due : product.due) least_miss = std::min(least_miss, due.miss);
      const Served from_stock = serve(product, product.stock);
      const Units lacking =
          std::accumulate(from_stock.short_units.begin(), from_stock.short_units.end(), Units{0});
      const bool as_many = best_.bill.missed == best_.missed_bound && rest < least_miss;
      const Cost missed = !has_plan_ ? lacking
                          : as_many  ? product_bill(p_, best_.plan, r).short_units
                                     : best_.bill.total() / std::max<Cost>(1, least_miss);
      made.push_back(std::max<Cost>(0, lacking - missed));
    }
    Cost sum = 0;
    for (const Material& material : p_.materials) sum += packs_for(material, made);
    return sum;
  }

  // The shortage is looked at alone, once, when something stays short and the bound leaves it open.
  void bound_missed() {
    if (best_.bill.missed == 0 || looked_at_missed_) return;
    best_.missed_bound = std::max(best_.missed_bound, missed_at_least(p_, sum_of_bounds_));
    if (best_.bill.missed <= best_.missed_bound) return;
    looked_at_missed_ = true;
    const Left all = all_of(p_);
    Cost missed = 0;
    for (std::size_t r = 0; r < products(); ++r)
      missed += programmes_[r].least_missed(all, effort_, carried_[r], work_);
    best_.missed_bound = std::max(best_.missed_bound, missed);
  }

  void alone() {
    const Left all = all_of(p_);
    Plan together;
    for (std::size_t r = 0; r < products(); ++r) {
      ProductAnswer answer = programmes_[r].solve(all, nullptr, effort_, carried_[r], work_);
      sum_of_bounds_ += answer.bound;
      together.held.insert(together.held.end(), answer.held.begin(), answer.held.end());
    }
    best_.bound = sum_of_bounds_;
    offer(together);
  }

  void one_after_the_other() {
    std::vector<std::size_t> order(products());
    std::iota(order.begin(), order.end(), std::size_t{0});
    int orders = 0;
    do {
      offer(in_order(order, nullptr));
    } while (++orders < most_orders && !done() &&
             std::next_permutation(order.begin(), order.end()));
  }

  Plan in_order(const std::vector<std::size_t>& order, const Prices* prices) {
    Plan plan;
    Left left = all_of(p_);
    for (const std::size_t r : order) {
      Carried carried = carried_[r];
      const ProductAnswer answer = programmes_[r].solve(left, prices, effort_, carried, work_);
      left = without(p_, std::move(left), {answer.held});
      plan.held.insert(plan.held.end(), answer.held.begin(), answer.held.end());
    }
    sort(plan);
    return plan;
  }

  static void sort(Plan& plan) {
    std::stable_sort(plan.held.begin(), plan.held.end(), [](const Held& a, const Held& b) {
      return a.product != b.product ? a.product < b.product : a.session < b.session;
    });
  }

  // Each product again, beside what the others take.
  void descend() {
    for (int round = 0; round < most_descents && !done(); ++round) {
      bool better = false;
      for (std::size_t r = 0; r < products() && !done(); ++r) {
        Plan others;
        for (const Held& held : best_.plan.held)
          if (held.product != r) others.held.push_back(held);
        Carried carried = carried_[r];
        const ProductAnswer answer =
            programmes_[r].solve(without(p_, all_of(p_), others), nullptr, effort_, carried, work_);
        Plan plan = others;
        plan.held.insert(plan.held.end(), answer.held.begin(), answer.held.end());
        sort(plan);
        better |= offer(plan);
      }
      if (!better) return;
    }
  }

  // Lagrange multipliers on what products share.
  void price() {
    const Left all = all_of(p_);
    Prices prices;
    for (const auto& days : all.resource) prices.resource.emplace_back(days.size(), 0);
    prices.supply.assign(all.supply.size(), 0);
    std::vector<std::size_t> order(products());
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (int step = 0; step < effort_.price_steps && !done(); ++step) {
      Plan relaxed;
      Cost bound = -worth(all, prices);
      for (std::size_t r = 0; r < products(); ++r) {
        const ProductAnswer answer =
            programmes_[r].bound(all, &prices, effort_, carried_[r], work_);
        bound += answer.bound;
        relaxed.held.insert(relaxed.held.end(), answer.relaxed.begin(), answer.relaxed.end());
      }
      raise_bound(bound);
      if (offer(relaxed)) best_.method = Method::price_steps;
      if (proven() || !move(prices, all, relaxed, bound)) return;
      if (step % steps_a_plan != 0) continue;
      std::rotate(order.begin(), order.begin() + (order.empty() ? 0 : 1), order.end());
      if (offer(in_order(order, &prices))) {
        best_.method = Method::price_steps;
        descend();
      }
    }
  }

  // What all there is is worth at these prices, rounded up.
  static Cost worth(const Left& all, const Prices& prices) {
    Cost sum = 0;
    for (std::size_t k = 0; k < all.resource.size(); ++k)
      for (std::size_t day = 0; day < all.resource[k].size(); ++day)
        sum += prices.resource[k][day] * all.resource[k][day];
    for (std::size_t s = 0; s < all.supply.size(); ++s)
      sum += (prices.supply[s] * all.supply[s] + 999) / 1000;
    return sum;
  }

  // A step of Polyak's length along what is taken too much or too little of. False when nothing
  // binds.
  bool move(Prices& prices, const Left& all, const Plan& relaxed, Cost bound) const {
    const Left rest = without(p_, all, relaxed);
    double square = 0.0;
    for (std::size_t k = 0; k < rest.resource.size(); ++k)
      for (std::size_t day = 0; day < rest.resource[k].size(); ++day) {
        const int over = -rest.resource[k][day];
        if (over > 0 || prices.resource[k][day] > 0) square += double(over) * over;
      }
    for (std::size_t s = 0; s < rest.supply.size(); ++s) {
      const double over = -static_cast<double>(rest.supply[s]) / 1000.0;
      if (over > 0 || prices.supply[s] > 0) square += over * over;
    }
    if (square == 0.0) return false;
    const auto far = static_cast<double>(best_.bill.total() - fewest_packs() - bound);
    const double length = std::max(1.0, far) / square;
    const auto moved = [&](Cost price, double over) {
      return std::max<Cost>(0, price + static_cast<Cost>(length * over));
    };
    for (std::size_t k = 0; k < rest.resource.size(); ++k)
      for (std::size_t day = 0; day < rest.resource[k].size(); ++day)
        prices.resource[k][day] = moved(prices.resource[k][day], -rest.resource[k][day]);
    for (std::size_t s = 0; s < rest.supply.size(); ++s)
      prices.supply[s] = moved(prices.supply[s], -static_cast<double>(rest.supply[s]) / 1000.0);
    return true;
  }

  const Problem& p_;
  const Effort& effort_;
  std::vector<ProductProgram> programmes_;
  std::vector<Carried> carried_;
  Planned best_;
  bool has_plan_ = false, looked_at_missed_ = false;
  Cost sum_of_bounds_ = 0;
  Work work_;
};

}  // namespace

double Planned::gap() const {
  if (bill.total() <= bound) return 0.0;
  const Cost of = bill.missed > missed_bound ? bill.total() : bill.total() - bill.missed;
  return of > 0 ? static_cast<double>(bill.total() - bound) / static_cast<double>(of) : 1.0;
}

Cost missed_at_least(const Problem& problem, Cost bound) {
  Cost rest = 0, whole = 0;
  std::vector<std::int64_t> made;
  for (const Product& product : problem.products) {
    made.push_back(0);
    for (const Session& session : product.sessions) {
      Cost dearest = 0;
      Units most = 0;
      for (const Setup& setup : session.setups) {
        dearest = std::max(dearest, setup.cost + session.per_unit * setup.most);
        most = std::max(most, setup.most);
      }
      rest += dearest;
      made.back() += most;
    }
    for (const Due& due : product.due)
      if (due.units > 0) whole = std::gcd(whole, due.miss);
    if (!product.wait.empty())
      rest += *std::max_element(product.wait.begin(), product.wait.end()) * product.total_due();
  }
  for (const Material& material : problem.materials)
    rest = std::min(never, rest + packs_for(material, made));
  return whole == 0 || bound <= rest ? 0 : (bound - rest + whole - 1) / whole * whole;
}

Planned plan(const Problem& problem, const Effort& effort) {
  return Planning(problem, effort).run();
}

}  // namespace wheyfield::lot_sizing
