#include "lot_sizing/product_program.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <limits>
#include <utility>

#include "lot_sizing/bill.h"
#include "lot_sizing/label_run.h"
#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr int near = 10;         // days around a bind that are carried at first
constexpr int often = 3;         // a resource that binds so often is carried on every day
constexpr int strict_tries = 4;  // passes that only look for a plan that keeps the limits

Cost cheapest_miss(const Product& product) {
  Cost cheapest = never;
  for (const Due& due : product.due)
    if (due.units > 0) cheapest = std::min(cheapest, due.miss);
  return cheapest;
}

// No plan that misses at least for `least` and at most for `most` misses more units.
Units most_units_missed(const Product& product, Cost least, Cost most) {
  const Cost cheapest = cheapest_miss(product);
  Cost next = never, dearest = 0;
  std::int64_t cheap = 0, dear = 0;
  for (const Due& due : product.due) {
    (due.miss == cheapest ? cheap : dear) += due.units;
    if (due.miss == cheapest || due.units == 0) continue;
    next = std::min(next, due.miss);
    dearest = std::max(dearest, due.miss);
  }
  std::int64_t units = 0;
  for (std::int64_t of_dear = 0; of_dear <= dear && of_dear * next <= most; ++of_dear) {
    const std::int64_t of_cheap = std::min(cheap, (most - of_dear * next) / cheapest);
    if (of_dear * dearest + of_cheap * cheapest >= least)
      units = std::max(units, of_dear + of_cheap);
    if (dear == 0) break;
  }
  return static_cast<Units>(units);
}

// The same of what is collected after each day, when the dues up to it are missed for at least what
// `least` says of the row's first units.
std::vector<Units> most_units_missed_after(const Problem& problem, const Product& product,
                                           const std::vector<Cost>& least, Cost most) {
  std::vector<Units> units;
  for (int day = 0; day <= problem.days; ++day) {
    Product after = product;
    std::size_t before = 0;
    for (Due& due : after.due)
      if (due.collect <= day) {
        before += static_cast<std::size_t>(due.units);
        due.units = 0;
      }
    const Units all = most_units_missed(product, least.back(), most);
    units.push_back(std::min(all, most_units_missed(after, 0, most - least[before])));
  }
  return units;
}

// A pass whose value no plan goes below. Cans: what is given up stands in none, which the programme
// does not see. A plan that is no dearer than the pass cannot give up more than so many units; with
// cans for as many more the value holds.
std::optional<RunAnswer> relaxed_run(const Problem& problem, std::size_t r, const Left& left,
                                     const Prices* prices, const Effort& effort,
                                     const Carried& carried, Work& work, bool only_missed = false) {
  const Product& product = problem.products[r];
  Strictness relaxed;
  relaxed.only_missed = only_missed;
  const auto run = [&](const Left& within) {
    return run_labels(problem, r, within, prices, effort, carried, relaxed, work);
  };
  auto pass = run(left);
  if (!pass || left.cans.empty() || product.units_per_can == 0 ||
      pass->value <= cheapest_miss(product))  // then dearer when anything is missed
    return pass;
  Left other = left;
  other.cans.clear();
  const auto open = run(other);
  if (!open) return open;
  const Cost value = pass->value;
  pass->value = std::min(value, open->value);
  if (pass->value == value || only_missed) return pass;
  relaxed.only_missed = true;
  const auto missed = run(other);
  relaxed.only_missed = false;
  if (!missed) return pass;
  other.cans = left.cans;
  const auto units = most_units_missed_after(problem, product, missed->least, value);
  for (std::size_t day = 0; day < other.cans.size(); ++day)
    other.cans[day] += (units[day] + product.units_per_can - 1) / product.units_per_can;
  if (const auto looser = run(other))
    pass->value = std::max(pass->value, std::min(value, looser->value));
  return pass;
}

class Solving {
 public:
  Solving(const Problem& problem, std::size_t product, const Left& left, const Prices* prices,
          const Effort& effort, Carried& carried, Work& work)
      : p_(problem),
        r_(product),
        left_(left),
        prices_(prices),
        effort_(effort),
        carried_(carried),
        work_(work) {}

  ProductAnswer run() {
    find_bound();
    if (!found_) find_plan();
    if (!has_plan_) answer_.cost = cost_of({});
    return std::move(answer_);
  }

 private:
  void find_bound() {
    Carried before = carried_;
    for (int round = 0; round < effort_.rounds && !found_; ++round) {
      if (round > 0 && work_.done > effort_.most_work) return;
      const auto pass = relaxed_run(p_, r_, left_, prices_, effort_, carried_, work_);
      if (!pass) {  // what could still be carried serves the bounds to come
        carried_ = std::move(before);
        return;
      }
      before = carried_;
      if (answer_.relaxed.empty() || pass->value > answer_.bound) answer_.relaxed = pass->held;
      answer_.bound = round == 0 ? pass->value : std::max(answer_.bound, pass->value);
      look_at(*pass);
      if (!carried_more_) return;
    }
  }

  // By the marks of the bound, then by quarters of a supply alone, which leave more labels for all
  // else.
  void find_plan() {
    look_for_plan(false);
    if (!has_plan_ || answer_.cost > answer_.bound) look_for_plan(true);
  }

  void look_for_plan(bool by_quarters) {
    if (by_quarters && carried_.supplies.empty()) return;
    Strictness strict;
    strict.beam = strict.supplies = true;
    strict.by_quarters = by_quarters;
    strict.windows = wants_windows_;
    strict.cans = wants_cans_;
    found_ = false;
    for (int attempt = 0; attempt < strict_tries && !found_; ++attempt) {
      if (has_plan_ && work_.done > effort_.most_work) return;
      strict.all_days = attempt > 0;
      const auto pass = run_labels(p_, r_, left_, prices_, effort_, carried_, strict, work_);
      look_at(*pass, strict.windows);
      strict.windows |= wants_windows_;
      strict.cans |= wants_cans_;
    }
  }

  // Takes a pass that keeps every limit as the answer; else notes what it breaks. A better plan
  // that breaks nothing but serves less than the pass thought is kept as well.
  void look_at(const RunAnswer& pass, bool strict_windows = false) {
    carried_more_ = false;
    const std::vector<Broken> broken = broken_within(p_, left_, {pass.held});
    for (const Broken& b : broken) note(b, pass.held);
    if (!broken.empty()) return;
    const Cost cost = cost_of(pass.held);
    if (!has_plan_ || cost < answer_.cost) {
      answer_.held = pass.held;
      answer_.cost = cost;
      has_plan_ = true;
    }
    // With strict windows already it is the best that this way finds.
    if (cost <= pass.value || strict_windows) {
      found_ = true;
      return;
    }
    wants_windows_ = true;
    tell_late_apart(pass.held);
  }

  // Dues that the sharing out of a pass takes from lots that do not keep so long.
  void tell_late_apart(const std::vector<Held>& held) {
    const Product& product = p_.products[r_];
    Product relaxed = product;
    std::vector<std::size_t> order;
    for (std::size_t d = 0; d < product.due.size(); ++d)
      if (product.due[d].units > 0 && carried_.late.count(d) == 0) order.push_back(d);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      const Due &x = product.due[a], &y = product.due[b];
      return x.collect != y.collect ? x.collect > y.collect : x.last_use > y.last_use;
    });
    int earliest = std::numeric_limits<int>::max();
    for (const std::size_t d : order) {
      earliest = std::min(earliest, product.due[d].last_use);
      relaxed.due[d].last_use = earliest;
    }
    const std::vector<Lot> lots = lots_of(p_, {held}, r_);
    const Served served = serve(relaxed, lots);
    for (const std::size_t d : order)
      for (const Served::Draw& draw : served.draws[d])
        if (lots[draw.lot].use_by < product.due[d].last_use)
          carried_more_ |= carried_.late.insert(d).second;
  }

  void note(const Broken& b, const std::vector<Held>& held) {
    if (b.limit == Limit::cans) wants_cans_ = true;
    if (b.limit == Limit::supply) tell_apart(static_cast<int>(b.index), held);
    if (b.limit != Limit::resource) return;
    const int k = static_cast<int>(b.index);
    const bool all = carried_.times[k]++ >= often * near;
    for (int day = all ? 0 : std::max(0, b.day - near);
         day < (all ? p_.days : std::min(p_.days, b.day + near)); ++day)
      carried_more_ |= carried_.days.insert({k, day}).second;
  }

  // Lots that draw so much, or so much less that the others of these can have theirs, and halfway
  // to the mark below.
  void tell_apart(int supply, const std::vector<Held>& held) {
    std::int64_t over = -left_.supply[static_cast<std::size_t>(supply)];
    for (const Held& h : held) over += draw_on(supply, h);
    std::set<std::int64_t>& marks = carried_.supplies[supply];
    for (const Held& h : held) {
      const std::int64_t draw = draw_on(supply, h);
      if (draw == 0) continue;
      const auto above = marks.upper_bound(draw);
      const std::int64_t below = above == marks.begin() ? 0 : *std::prev(above);
      for (const std::int64_t mark : {draw, draw - over + 1, (below + draw + 1) / 2})
        if (mark > 0) carried_more_ |= marks.insert(mark).second;
    }
  }

  std::int64_t draw_on(int supply, const Held& held) const {
    const Session& session = p_.products[r_].sessions[held.session];
    return session.supply == supply ? session.supply_per_unit * held.units : 0;
  }

  Cost cost_of(const std::vector<Held>& held) const {
    return product_bill(p_, {held}, r_).total() + (prices_ ? priced(held) : 0);
  }

  Cost priced(const std::vector<Held>& held) const {
    Cost sum = 0;
    for (const Held& h : held) {
      const Session& session = p_.products[r_].sessions[h.session];
      if (session.supply >= 0)
        sum += prices_->supply[static_cast<std::size_t>(session.supply)] * session.supply_per_unit /
               1000 * h.units;
      for (const Take& take : session.setups[h.setup].takes)
        for (int day = take.from; day < take.to; ++day)
          sum += prices_->resource[static_cast<std::size_t>(take.resource)]
                                  [static_cast<std::size_t>(day)] *
                 take.amount;
    }
    return sum;
  }

  const Problem& p_;
  std::size_t r_;
  const Left& left_;
  const Prices* prices_;
  const Effort& effort_;
  Carried& carried_;
  Work& work_;
  ProductAnswer answer_;
  bool found_ = false, has_plan_ = false, carried_more_ = false;
  bool wants_windows_ = false, wants_cans_ = false;
};

// The bound of one pass; where it has too many labels, of one that carries none.
ProductAnswer bound_by(const Problem& problem, std::size_t r, const Left& left,
                       const Prices* prices, const Effort& effort, const Carried& carried,
                       Work& work) {
  auto pass = relaxed_run(problem, r, left, prices, effort, carried, work);
  if (!pass) pass = relaxed_run(problem, r, left, prices, effort, {}, work);
  ProductAnswer answer;
  answer.bound = pass->value;
  answer.relaxed = std::move(pass->held);
  return answer;
}

Cost missed_by(const Problem& problem, std::size_t r, const Left& left, const Effort& effort,
               const Carried& carried, Work& work) {
  auto pass = relaxed_run(problem, r, left, nullptr, effort, carried, work, true);
  if (!pass) pass = relaxed_run(problem, r, left, nullptr, effort, {}, work, true);
  return pass->value;
}

}  // namespace

ProductProgram::ProductProgram(const Problem& problem, std::size_t product)
    : problem_(&problem), product_(product) {
  for (const Due& due : problem.products[product].due)
    if (due.units > 0) levels_.push_back(due.miss);
  std::sort(levels_.begin(), levels_.end(), std::greater<>());
  levels_.erase(std::unique(levels_.begin(), levels_.end()), levels_.end());
  const std::vector<Cost>& wait = problem.products[product].wait;
  if (std::is_sorted(wait.rbegin(), wait.rend())) told_apart_ = 2;
  if (levels_.size() <= told_apart_) return;
  auto even = std::make_shared<Problem>(problem);
  for (Due& due : even->products[product].due)
    due.miss = std::min(due.miss, levels_[levels_.size() - told_apart_]);
  even_ = std::move(even);
}

ProductAnswer ProductProgram::solve(const Left& left, const Prices* prices, const Effort& effort,
                                    Carried& carried, Work& work) {
  ProductAnswer answer = Solving(*problem_, product_, left, prices, effort, carried, work).run();
  // As long as missing anything costs more than the whole plan, nothing is missed in the best one.
  if (unequal() && answer.cost >= levels_.back())
    answer.bound = std::min(answer.cost, even_bound(left, prices, effort, carried, work).bound);
  return answer;
}

ProductAnswer ProductProgram::bound(const Left& left, const Prices* prices, const Effort& effort,
                                    const Carried& carried, Work& work) {
  if (unequal()) return even_bound(left, prices, effort, carried, work);
  return bound_by(*problem_, product_, left, prices, effort, carried, work);
}

ProductAnswer ProductProgram::even_bound(const Left& left, const Prices* prices,
                                         const Effort& effort, const Carried& carried, Work& work) {
  ProductAnswer answer = bound_by(*even_, product_, left, prices, effort, carried, work);
  answer.bound += above_even(effort, carried, work);
  return answer;
}

Cost ProductProgram::least_missed(const Left& left, const Effort& effort, const Carried& carried,
                                  Work& work) {
  if (!unequal()) return missed_by(*problem_, product_, left, effort, carried, work);
  return above_even(effort, carried, work) +
         missed_by(*even_, product_, left, effort, carried, work);
}

// What is missed beyond the cheapest levels: of the dues that cost at least a level no plan leaves
// less units short than are short when there are no others; each of them costs a level's height
// more.
Cost ProductProgram::above_even(const Effort& effort, const Carried& carried, Work& work) {
  if (above_even_) return *above_even_;
  const Left all = all_of(*problem_);
  Cost sum = 0;
  for (std::size_t j = 0; j + told_apart_ < levels_.size(); ++j) {
    Problem dear = *problem_;
    for (Due& due : dear.products[product_].due) {
      if (due.miss < levels_[j]) due.units = 0;
      due.miss = levels_[j] - levels_[j + 1];
    }
    sum += missed_by(dear, product_, all, effort, carried, work);
  }
  above_even_ = sum;
  return sum;
}

}  // namespace wheyfield::lot_sizing
