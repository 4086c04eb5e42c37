#include "lot_sizing/strong_model.h"

#include <gtest/gtest.h>
#include <support/random_lots.h>

namespace wheyfield::lot_sizing {
namespace {

// Finds nothing and says so, or hands out `values` with a bound.
class Counting : public MipSolver {
 public:
  MipResult solve(const Mip& mip, const Limits& limits) const override {
    ++asked;
    cutoff = limits.cutoff;
    nodes = limits.nodes;
    MipResult result;
    if (nonsense) {
      result.values.assign(mip.columns.size(), 1.0);  // all setups at once: keeps no limit
      result.objective = 0.0;
    }
    return result;
  }
  std::string name() const override { return "counting"; }

  bool nonsense = false;
  mutable int asked = 0;
  mutable double cutoff = 0.0;
  mutable int nodes = 0;
};

Effort hardly_any() {
  Effort effort;
  effort.work = 1000;
  effort.most_work = 1000;
  effort.price_steps = 0;
  return effort;
}

// A random group whose plan stays open with hardly any effort.
Problem open_group() {
  for (std::uint64_t seed = 1; seed < 100; ++seed) {
    Problem problem = testing::random_group(seed);
    if (plan(problem, hardly_any()).gap() > 0.0) return problem;
  }
  std::abort();
}

TEST(PlanExact, OnlyWhatIsNotNearEnoughGoesToTheSolver) {
  const Problem problem = open_group();
  const Planned open = plan(problem, hardly_any());
  ASSERT_LE(open.bill.missed, open.missed_bound);
  const Counting solver;
  plan_exact(problem, solver, hardly_any(), {open.gap() * 1.01, 1e-4, 10});
  EXPECT_EQ(solver.asked, 0);
  plan_exact(problem, solver, hardly_any(), {open.gap() * 0.99, 1e-4, 10});
  EXPECT_EQ(solver.asked, 1);
  EXPECT_EQ(solver.nodes, 10);
  EXPECT_EQ(solver.cutoff, static_cast<double>(open.bill.total() - open.bill.missed));
}

TEST(PlanExact, ASolverThatFindsNothingOrNonsenseLeavesThePlanAsItWas) {
  const Problem problem = open_group();
  const Planned without = plan(problem, hardly_any());
  for (const bool nonsense : {false, true}) {
    Counting solver;
    solver.nonsense = nonsense;
    const Planned with = plan_exact(problem, solver, hardly_any());
    EXPECT_EQ(with.bill.total(), without.bill.total());
    EXPECT_EQ(with.bound, without.bound);
    EXPECT_EQ(with.method, without.method);
    EXPECT_EQ(with.plan.held.size(), without.plan.held.size());
  }
}

}  // namespace
}  // namespace wheyfield::lot_sizing
