// Plans all products of a problem together, with a proven bound.
//
//   1. Each product alone, with everything there is: the sum of their bounds, with the packs for
//      what no plan as good can leave unmade, is a lower bound. If the plans fit side by side they
//      are proven best.
//   2. Else one product after the other in what the earlier ones leave, in several orders, and each
//      again beside the others while that helps.
//   3. Else prices on resource days and supplies (Lagrange multipliers, Polyak's step), which raise
//      the bound and lead to further plans.
//
// Limits are counts of steps, never a clock: the same plan on every machine.
#pragma once

#include "lot_sizing/bill.h"
#include "lot_sizing/problem.h"
#include "lot_sizing/product_program.h"

namespace wheyfield::lot_sizing {

enum class Method { dynamic_programme, price_steps, mixed_integer };

struct Planned {
  Plan plan;  // keeps every limit
  Bill bill;
  Cost bound = 0;         // no plan costs less
  Cost missed_bound = 0;  // no plan misses less
  Method method = Method::dynamic_programme;

  // (cost - bound) / cost, 0 for a plan proven best: of the money alone when no plan misses less,
  // else of money and misses.
  double gap() const;
};

Planned plan(const Problem& problem, const Effort& effort = {});

// No plan misses less when none costs less than `bound`: all else that a plan can cost is taken
// off, and what is left is made up of misses of whole units.
Cost missed_at_least(const Problem& problem, Cost bound);

}  // namespace wheyfield::lot_sizing
