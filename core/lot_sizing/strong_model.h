// The lot-sizing problem as a mixed-integer programme for a general solver: a second opinion that
// shares nothing with the dynamic programme but the problem itself.
//
// Facility-location flows from each lot to each due it may serve, strong links (what a session
// serves is at most the due, times whether it is held), one column for each setup, whole lots, and
// two families of mixed-integer rounding rows: the fewest setups that what is due by a day needs,
// and the fewest packs that all needs. docs/models/lot-sizing.md has the symbols.
#pragma once

#include <vector>

#include "lot_sizing/bill.h"
#include "lot_sizing/mip.h"
#include "lot_sizing/planner.h"
#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

class StrongModel {
 public:
  explicit StrongModel(const Problem& problem);

  const Mip& mip() const { return mip_; }
  // The same with nothing to pay but what is missed, in misses of the cheapest unit; and with all
  // but that to pay, and no more missed than `most`. A miss costs thousands of times what a plan
  // does: in one sum the gap that a solver is allowed would hide the money.
  Mip only_missed() const;
  Mip only_money(Cost most) const;
  double missed_unit() const;  // the cost that `only_missed` counts as 1
  // Setups and lots of a solution, rounded to whole units. What serves what is left to serve().
  Plan plan_of(const std::vector<double>& values) const;

 private:
  struct SetupColumn {
    std::size_t product, session, setup, column;
  };
  friend class ModelWriter;

  Mip mip_;
  std::vector<SetupColumn> setups_;
  std::vector<std::vector<std::size_t>> made_;  // column of what is made: [product][session]
  std::vector<std::size_t> missed_;             // columns of what is missed
};

// When a plan goes to the solver, and how far the solver goes.
struct Fallback {
  double good_enough = 0.0;  // a plan within this gap, proven to miss least, stands; >= 0
  double gap = 1e-4;         // MipSolver::Limits
  int nodes = 100000;
};

// The planner's plan; where `fallback` says so, then the solver on the strong model for anything
// that misses less, if that is open, and once no plan misses less for anything cheaper: the better
// plan and the better bound. Method mixed_integer where the solver found the plan or proved it.
Planned plan_exact(const Problem& problem, const MipSolver& solver, const Effort& effort = {},
                   const Fallback& fallback = {});

}  // namespace wheyfield::lot_sizing
