#include "season/lot_planner.h"

#include <algorithm>
#include <utility>

#include "lot_sizing/planner.h"
#include "lot_sizing/strong_model.h"
#include "season/back_scheduler.h"
#include "season/lots.h"
#include "season/spares.h"

namespace wheyfield::season {
namespace {

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

std::int64_t measured_short(const BatchProblem& problem, const BatchPlan& plan) {
  std::int64_t sum = 0;
  for (std::size_t d = 0; d < plan.short_ml.size(); ++d)
    if (!problem.demand[d].guess) sum += plan.short_ml[d];
  return sum;
}

// Less short, what is measured first.
bool serves_more(const BatchProblem& problem, const BatchPlan& a, const BatchPlan& b) {
  return std::pair{measured_short(problem, a), a.total_short()} <
         std::pair{measured_short(problem, b), b.total_short()};
}

Certificate certificate(const lot_sizing::Bill& bill, const lot_sizing::Planned& planned) {
  lot_sizing::Planned judged = planned;
  judged.bill = bill;
  judged.bound = std::min(planned.bound, bill.total());
  return {Money::from_thousandths(bill.total() - bill.missed),
          Money::from_thousandths(std::max<lot_sizing::Cost>(0, judged.bound - bill.missed)),
          judged.gap(), bill.missed <= planned.missed_bound};
}

// `baseline` may be null.
BatchPlan planned_with(const BatchProblem& problem, ChainTable& chains, const BatchPlan* baseline,
                       const lot_sizing::Effort& effort, const lot_sizing::MipSolver* solver) {
  const auto planned_as = [&](const lot_sizing::Problem& lots) {
    return solver == nullptr ? lot_sizing::plan(lots, effort)
                             : lot_sizing::plan_exact(lots, *solver, effort);
  };
  LotProblem lots = to_lots(problem, chains);
  lot_sizing::Planned planned = planned_as(lots.problem);
  BatchPlan plan = from_lots(problem, chains, lots, planned.plan);
  if (planned.bill.missed == 0 && plan.total_short() > 0) {
    lots = to_lots(problem, chains, Rounding::each);
    planned = planned_as(lots.problem);
    plan = from_lots(problem, chains, lots, planned.plan);
  }
  plan.method = method_of(planned.method);
  plan.certificate = certificate(planned.bill, planned);
  if (baseline == nullptr) return plan;
  const lot_sizing::Plan held = to_lot_plan(problem, *baseline, lots);
  const lot_sizing::Bill bill = lot_sizing::bill_of(lots.problem, held);
  plan.baseline_cost = Money::from_thousandths(bill.total() - bill.missed);
  const bool dearer = *plan.baseline_cost < plan.certificate->cost;
  if (serves_more(problem, plan, *baseline) || (!serves_more(problem, *baseline, plan) && !dearer))
    return plan;
  BatchPlan better = *baseline;
  better.certificate = certificate(bill, planned);
  better.baseline_cost = plan.baseline_cost;
  return better;
}

}  // namespace

BatchPlan LotPlanner::plan(const BatchProblem& problem) const {
  ChainTable chains(problem);
  // Counting back knows of no announced batches.
  std::optional<BatchPlan> counted_back;
  if (problem.announced.nothing()) counted_back = back_scheduled(problem, chains);
  const BatchPlan* baseline = counted_back ? &*counted_back : nullptr;
  BatchPlan plan = planned_with(problem, chains, baseline, effort_, solver_);
  if (problem.storage && plan.total_short() > 0) {
    BatchProblem open = problem;
    open.storage.reset();
    BatchPlan without_cans = planned_with(open, chains, baseline, effort_, solver_);
    if (serves_more(problem, without_cans, plan)) plan = std::move(without_cans);
  }
  add_spares(problem, chains, plan);
  return plan;
}

}  // namespace wheyfield::season
