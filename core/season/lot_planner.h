// The default planner: the cheapest batches there are, with a bound that says how good they are.
//
// Least short first (what is measured before what is a guess about seed), then the least money for
// milk, packs, labour and the allowance for failed batches; docs/models/lot-sizing.md. Storage
// cans are kept to as long as nothing more is left short for them. Spares stand beside, as in the
// baseline planner.
#pragma once

#include "lot_sizing/product_program.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

class LotPlanner : public BatchPlanner {
 public:
  explicit LotPlanner(lot_sizing::Effort effort = {}) : effort_(effort) {}
  BatchPlan plan(const BatchProblem& problem) const override;

 private:
  lot_sizing::Effort effort_;
};

}  // namespace wheyfield::season
