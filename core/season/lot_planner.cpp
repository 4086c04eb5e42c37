#include "season/lot_planner.h"

#include <algorithm>
#include <cstdlib>
#include <deque>
#include <utility>

#include "lot_sizing/limits.h"
#include "lot_sizing/planner.h"
#include "lot_sizing/strong_model.h"
#include "season/back_scheduler.h"
#include "season/lots.h"
#include "season/spares.h"

namespace wheyfield::season {
namespace {

using Plans = std::vector<BatchPlan>;

PlanMethod method_of(lot_sizing::Method method) {
  switch (method) {
    case lot_sizing::Method::price_steps:
      return PlanMethod::price_steps;
    case lot_sizing::Method::mixed_integer:
      return PlanMethod::mixed_integer;
    case lot_sizing::Method::dynamic_programme:
      break;
  }
  return PlanMethod::dynamic_programme;
}

Certificate certificate(const lot_sizing::Bill& bill, const lot_sizing::Planned& planned) {
  lot_sizing::Planned judged = planned;
  judged.bill = bill;
  judged.bound = std::min(planned.bound, bill.total());
  return {Money::from_thousandths(bill.total() - bill.missed),
          Money::from_thousandths(std::max<lot_sizing::Cost>(0, judged.bound - bill.missed)),
          judged.gap(), bill.missed <= planned.missed_bound};
}

std::int64_t all_short(const Plans& plans) {
  std::int64_t sum = 0;
  for (const BatchPlan& plan : plans) sum += plan.total_short();
  return sum;
}

// The preparations of one season, to be planned together.
class Together {
 public:
  Together(const std::vector<BatchProblem>& problems, const lot_sizing::Effort& effort,
           const lot_sizing::MipSolver* solver, const lot_sizing::Fallback& fallback)
      : problems_(problems), effort_(effort), solver_(solver), fallback_(fallback) {
    for (const BatchProblem& problem : problems_) {
      chains_.emplace_back(problem);
      all_.push_back({&problem, &chains_.back()});
    }
  }

  // Counting back knows of no announced batches: none then.
  std::optional<Plans> counted_back() {
    Plans plans;
    std::vector<Stand> taken;
    for (std::size_t r = 0; r < all_.size(); ++r) {
      if (!problems_[r].announced.nothing()) return std::nullopt;
      BatchProblem beside = problems_[r];
      beside.taken.insert(beside.taken.end(), taken.begin(), taken.end());
      plans.push_back(back_scheduled(beside, chains_[r]));
      for (Stand& stand : stands(*beside.recipe, plans.back().batches))
        taken.push_back(std::move(stand));
    }
    return plans;
  }

  // What is said of all together stands with the first. `baseline` may be null.
  Plans plan(const Plans* baseline) {
    LotProblem lots = to_lots(all_);
    lot_sizing::Planned planned = planned_as(lots.problem);
    Plans plans = from_lots(all_, lots, planned.plan);
    if (planned.bill.missed == 0 && all_short(plans) > 0) {
      lots = to_lots(all_, Rounding::each);
      planned = planned_as(lots.problem);
      plans = from_lots(all_, lots, planned.plan);
    }
    // What counting back serves more, or as much for less, may lie within a unit.
    LotProblem counted = lots;
    if (baseline != nullptr &&
        (serves_more(*baseline, plans) || seems_cheaper(*baseline, plans, planned, lots))) {
      counted = to_lots(all_, Rounding::finely);
      lot_sizing::Planned finely = planned_as(counted.problem);
      Plans finer = from_lots(all_, counted, finely.plan);
      if (!serves_more(plans, finer)) {
        lots = counted;
        planned = std::move(finely);
        plans = std::move(finer);
      }
    }
    BatchPlan& first = plans.front();
    first.method = method_of(planned.method);
    first.certificate = certificate(planned.bill, planned);
    if (baseline != nullptr) first.baseline_cost = cost_of(bill_of(*baseline, counted));
    Plans best = plans;
    if (baseline != nullptr) take_if_better(*baseline, planned, counted, finest_ml, best);
    // Where the first falls short, the others must not be what it lacks.
    if (problems_.size() > 1 && best.front().total_short() > 0)
      if (const Plans each = one_after_the_other(first.method); fits_cans(each, lots))
        take_if_better(each, planned, lots, 0, best);
    best.front().baseline_cost = first.baseline_cost;
    return best;
  }

  // Less short, of the first preparation first, and of it what is measured first; by more than
  // `grid_ml` for each due.
  bool serves_more(const Plans& a, const Plans& b, std::int64_t grid_ml = 0) const {
    for (std::size_t r = 0; r < a.size(); ++r) {
      const auto grid = grid_ml * static_cast<std::int64_t>(problems_[r].demand.size());
      const auto [measured_a, all_a] = left_short(r, a[r]);
      const auto [measured_b, all_b] = left_short(r, b[r]);
      if (std::abs(measured_a - measured_b) > grid) return measured_a < measured_b;
      if (std::abs(all_a - all_b) > grid) return all_a < all_b;
    }
    return false;
  }

  // Of the first preparation, clear of the others.
  void add_spares_to(Plans& plans) {
    BatchProblem beside = problems_.front();
    for (std::size_t r = 1; r < plans.size(); ++r)
      for (Stand& stand : stands(*problems_[r].recipe, plans[r].batches))
        beside.taken.push_back(std::move(stand));
    add_spares(beside, chains_.front(), plans.front());
  }

 private:
  lot_sizing::Planned planned_as(const lot_sizing::Problem& lots) const {
    return solver_ == nullptr ? lot_sizing::plan(lots, effort_)
                              : lot_sizing::plan_exact(lots, *solver_, effort_, fallback_);
  }

  lot_sizing::Bill bill_of(const Plans& plans, LotProblem lots) const {
    return lot_sizing::bill_of(lots.problem, to_lot_plan(all_, plans, lots));
  }
  static Money cost_of(const lot_sizing::Bill& bill) {
    return Money::from_thousandths(bill.total() - bill.missed);
  }

  // A plan of millilitres that misses nothing may miss units, and what is missed costs no money.
  bool seems_cheaper(const Plans& other, const Plans& plans, const lot_sizing::Planned& planned,
                     const LotProblem& lots) const {
    return !serves_more(plans, other) && cost_of(bill_of(other, lots)) < cost_of(planned.bill);
  }

  void take_if_better(const Plans& other, const lot_sizing::Planned& planned,
                      const LotProblem& lots, std::int64_t grid_ml, Plans& best) const {
    const lot_sizing::Bill bill = bill_of(other, lots);
    const bool cheaper = cost_of(bill) < best.front().certificate->cost;
    if (serves_more(best, other, grid_ml) || (!serves_more(other, best, grid_ml) && !cheaper))
      return;
    best = other;
    best.front().certificate = certificate(bill, planned);
  }

  // What each keeps to alone may be too much together.
  bool fits_cans(const Plans& plans, LotProblem lots) const {
    const lot_sizing::Plan plan = to_lot_plan(all_, plans, lots);
    const std::vector<int> left =
        lot_sizing::without(lots.problem, lot_sizing::all_of(lots.problem), plan).cans;
    return std::all_of(left.begin(), left.end(), [](int cans) { return cans >= 0; });
  }

  // Each as if it were alone, in what the earlier ones leave and all have announced; they share the
  // cans without knowing of each other.
  Plans one_after_the_other(PlanMethod method) const {
    Plans plans;
    std::vector<Stand> taken;
    for (std::size_t r = 0; r < problems_.size(); ++r) {
      std::vector<BatchProblem> alone{problems_[r]};
      std::vector<Stand>& beside = alone.front().taken;
      beside.insert(beside.end(), taken.begin(), taken.end());
      for (std::size_t later = r + 1; later < problems_.size(); ++later)
        for (Stand& stand : stands(*problems_[later].recipe, problems_[later].announced.batches))
          beside.push_back(std::move(stand));
      plans.push_back(
          std::move(Together(alone, effort_, solver_, fallback_).plan(nullptr).front()));
      for (Stand& stand : stands(*problems_[r].recipe, plans.back().batches))
        taken.push_back(std::move(stand));
    }
    plans.front().method = method;
    return plans;
  }

  std::pair<std::int64_t, std::int64_t> left_short(std::size_t r, const BatchPlan& plan) const {
    std::int64_t measured = 0;
    for (std::size_t d = 0; d < plan.short_ml.size(); ++d)
      if (!problems_[r].demand[d].guess) measured += plan.short_ml[d];
    return {measured, plan.total_short()};
  }

  const std::vector<BatchProblem>& problems_;
  const lot_sizing::Effort& effort_;
  const lot_sizing::MipSolver* solver_;
  const lot_sizing::Fallback& fallback_;
  std::deque<ChainTable> chains_;
  std::vector<Prepared> all_;
};

}  // namespace

std::vector<BatchPlan> LotPlanner::plan_together(const std::vector<BatchProblem>& problems) const {
  Together together(problems, effort_, solver_, fallback_);
  const std::optional<Plans> counted_back = together.counted_back();
  const Plans* baseline = counted_back ? &*counted_back : nullptr;
  Plans plans = together.plan(baseline);
  if (problems.front().storage && all_short(plans) > 0) {
    std::vector<BatchProblem> open = problems;
    for (BatchProblem& problem : open) problem.storage.reset();
    Plans without_cans = Together(open, effort_, solver_, fallback_).plan(baseline);
    if (together.serves_more(without_cans, plans)) plans = std::move(without_cans);
  }
  together.add_spares_to(plans);
  return plans;
}

BatchPlan LotPlanner::plan(const BatchProblem& problem) const {
  return std::move(plan_together({problem}).front());
}

}  // namespace wheyfield::season
