#include "lot_sizing/product_program.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "lot_sizing/bill.h"
#include "lot_sizing/label_run.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr int near = 10;         // days around a bind that are carried at first
constexpr int often = 3;         // a resource that binds so often is carried on every day
constexpr int strict_tries = 4;  // passes that only look for a plan that keeps the limits

// A pass whose value no plan goes below. Cans: what is given up stands in none, which the programme
// does not see; it then counts without cans.
std::optional<RunAnswer> relaxed_run(const Problem& problem, std::size_t r, const Left& left,
                                     const Prices* prices, const Effort& effort,
                                     const Carried& carried, Work& work, bool only_missed = false) {
  Strictness relaxed;
  relaxed.only_missed = only_missed;
  auto pass = run_labels(problem, r, left, prices, effort, carried, relaxed, work);
  if (!pass || left.cans.empty() || product_bill(problem, {pass->held}, r).missed == 0) return pass;
  Left open = left;
  open.cans.clear();
  auto without_cans = run_labels(problem, r, open, prices, effort, carried, relaxed, work);
  if (!without_cans) return without_cans;
  pass->value = std::min(pass->value, without_cans->value);
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
    for (int round = 0; round < effort_.rounds && !found_; ++round) {
      if (round > 0 && work_.done > effort_.most_work) return;
      const auto pass = relaxed_run(p_, r_, left_, prices_, effort_, carried_, work_);
      if (!pass) return;
      if (answer_.relaxed.empty() || pass->value > answer_.bound) answer_.relaxed = pass->held;
      answer_.bound = round == 0 ? pass->value : std::max(answer_.bound, pass->value);
      look_at(*pass);
      if (!carried_more_) return;
    }
  }

  void find_plan() {
    Strictness strict;
    strict.beam = strict.supplies = true;
    strict.windows = wants_windows_;
    strict.cans = wants_cans_;
    carried_.supplies.insert(wants_supplies_.begin(), wants_supplies_.end());
    for (int attempt = 0; attempt < strict_tries && !found_; ++attempt) {
      if (has_plan_ && work_.done > effort_.most_work) return;
      strict.all_days = attempt > 0;
      const auto pass = run_labels(p_, r_, left_, prices_, effort_, carried_, strict, work_);
      look_at(*pass);
      strict.windows |= wants_windows_;
      strict.cans |= wants_cans_;
      carried_.supplies.insert(wants_supplies_.begin(), wants_supplies_.end());
    }
  }

  // Takes a pass that keeps every limit as the answer; else notes what it breaks. A better plan
  // that breaks nothing but serves less than the pass thought is kept as well.
  void look_at(const RunAnswer& pass) {
    carried_more_ = false;
    const std::vector<Broken> broken = broken_within(p_, left_, {pass.held});
    for (const Broken& b : broken) note(b);
    if (!broken.empty()) return;
    const Cost cost = cost_of(pass.held);
    if (!has_plan_ || cost < answer_.cost) {
      answer_.held = pass.held;
      answer_.cost = cost;
      has_plan_ = true;
    }
    // With strict windows already it is the best that this way finds.
    if (cost <= pass.value || wants_windows_)
      found_ = true;
    else
      wants_windows_ = true;
  }

  void note(const Broken& b) {
    if (b.limit == Limit::cans) wants_cans_ = true;
    if (b.limit == Limit::supply) wants_supplies_.insert(static_cast<int>(b.index));
    if (b.limit != Limit::resource) return;
    const int k = static_cast<int>(b.index);
    const bool all = carried_.times[k]++ >= often * near;
    for (int day = all ? 0 : std::max(0, b.day - near);
         day < (all ? p_.days : std::min(p_.days, b.day + near)); ++day)
      carried_more_ |= carried_.days.insert({k, day}).second;
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
  std::set<int> wants_supplies_;
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
  if (levels_.size() < 2) return;
  auto even = std::make_shared<Problem>(problem);
  for (Due& due : even->products[product].due) due.miss = levels_.back();
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

// What is missed beyond the cheapest: of the dues that cost at least a level no plan leaves less
// units short than are short when there are no others; each of them costs a level's height more.
Cost ProductProgram::above_even(const Effort& effort, const Carried& carried, Work& work) {
  if (above_even_) return *above_even_;
  const Left all = all_of(*problem_);
  Cost sum = 0;
  for (std::size_t j = 0; j + 1 < levels_.size(); ++j) {
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
