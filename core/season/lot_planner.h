// The default planner: the cheapest batches there are, with a bound that says how good they are.
//
// Least short first (what is measured before what is a guess about seed), then the least money for
// milk, packs, labour and the allowance for failed batches; docs/models/lot-sizing.md. No shorter
// than the baseline by more than the finest unit for each due. Storage cans are kept to as long as
// nothing more is left short for them. Spares stand beside, as in the baseline planner.
#pragma once

#include "lot_sizing/mip.h"
#include "lot_sizing/product_program.h"
#include "lot_sizing/strong_model.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

// With a `solver` what the dynamic programme leaves open by `fallback` goes to it as well: slower,
// and only where there is one. The solver outlives the planner.
class LotPlanner : public BatchPlanner {
 public:
  explicit LotPlanner(lot_sizing::Effort effort = {}, const lot_sizing::MipSolver* solver = nullptr,
                      lot_sizing::Fallback fallback = {})
      : effort_(effort), solver_(solver), fallback_(fallback) {}
  BatchPlan plan(const BatchProblem& problem) const override;
  // Together: each has what the others leave, and all are proven by one bound, which stands with
  // the first plan. Spares are of the first.
  std::vector<BatchPlan> plan_together(const std::vector<BatchProblem>& problems) const override;

 private:
  lot_sizing::Effort effort_;
  const lot_sizing::MipSolver* solver_;
  lot_sizing::Fallback fallback_;
};

}  // namespace wheyfield::season
