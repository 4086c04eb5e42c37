// Two general solvers against the planner, on the same problems. What must hold: the planner's
// bound is never above what anybody found, and its cost never below what anybody proved.
#include <gtest/gtest.h>

#include <cstdio>

#include "lot_sizing/limits.h"
#include "lot_sizing/strong_model.h"
#include "solvers/cbc/cbc_solver.h"
#include "support/lp_file.h"
#include "support/random_lots.h"
#include "support/tiny_lots.h"

namespace wheyfield::lot_sizing {
namespace {

using solvers::CbcSolver;
using testing::named_lots;

// Floating point: a thousandth of the money, or a part in ten million of it.
double room(double value) { return 1.0 + std::fabs(value) * 1e-7; }

struct Agreement {
  int instances = 0, proven = 0, solver_proven = 0, cheaper = 0;
  double worst_gap = 0.0;
  double worst_above = 0.0;  // the planner's cost above the best known, as a part of it
};

void compare_with_cbc(const std::string& name, const Problem& problem, Agreement& agreement) {
  const Planned ours = plan(problem);
  ASSERT_TRUE(broken_limits(problem, ours.plan).empty()) << name;
  const auto cost = static_cast<double>(ours.bill.total());
  const auto bound = static_cast<double>(ours.bound);
  const StrongModel model(problem);
  const MipResult cbc = CbcSolver().solve(model.mip(), {1e-4, 2000, cost + 1.0});
  ASSERT_NE(cbc.status, MipResult::Status::infeasible) << name;
  double best = cost;
  if (!cbc.values.empty()) {
    const Plan plan = model.plan_of(cbc.values);
    EXPECT_TRUE(broken_limits(problem, plan).empty()) << name;
    const auto bill = static_cast<double>(bill_of(problem, plan).total());
    EXPECT_NEAR(bill, cbc.objective, room(bill)) << name << ": the model says another cost";
    best = std::min(best, bill);
  }
  EXPECT_LE(bound, best + room(best)) << name << ": a bound above a plan";
  EXPECT_GE(cost + room(cost), cbc.bound) << name << ": a plan below a proof";
  EXPECT_LE((cost - best) / cost, ours.gap() + 1e-7) << name << ": further off than its gap";
  ++agreement.instances;
  agreement.proven += ours.gap() == 0.0 ? 1 : 0;
  agreement.solver_proven += cbc.status == MipResult::Status::limit ? 0 : 1;
  agreement.cheaper += best < cost - room(cost) ? 1 : 0;
  agreement.worst_gap = std::max(agreement.worst_gap, ours.gap());
  agreement.worst_above = std::max(agreement.worst_above, (cost - best) / best);
}

void compare_with_glpsol(const std::string& name, const Problem& problem, Agreement& agreement) {
  const Planned ours = plan(problem);
  const auto cost = static_cast<double>(ours.bill.total());
  constexpr double gap = 1e-6;
  const StrongModel model(problem);
  const testing::GlpsolResult other =
      testing::run_glpsol(model.mip(), gap, ::testing::TempDir() + "wheyfield_glpsol", 20);
  ASSERT_TRUE(other.ran) << name << ": is glpsol installed?";
  ++agreement.instances;
  agreement.proven += ours.gap() == 0.0 ? 1 : 0;
  agreement.worst_gap = std::max(agreement.worst_gap, ours.gap());
  if (!other.optimal) return;
  ++agreement.solver_proven;
  EXPECT_LE(static_cast<double>(ours.bound), other.objective + room(cost)) << name;
  EXPECT_GE(cost + room(cost), other.objective * (1.0 - gap)) << name;
  agreement.cheaper += other.objective < cost - room(cost) ? 1 : 0;
  agreement.worst_above =
      std::max(agreement.worst_above, (cost - other.objective) / other.objective);
}

void print(const char* what, const Agreement& a) {
  std::printf(
      "[  %s  ] %d instances: planner proven %d, worst gap %.4f %%; solver proven %d, cheaper than "
      "the planner %d times, at most %.4f %%\n",
      what, a.instances, a.proven, a.worst_gap * 100, a.solver_proven, a.cheaper,
      a.worst_above * 100);
}

TEST(Oracles, AFewNamedGroupsAgreeWithCbc) {
  Agreement agreement;
  for (const auto& [name, problem] : named_lots())
    if (name.back() == '1') compare_with_cbc(name, problem, agreement);
  print("cbc", agreement);
  EXPECT_EQ(agreement.instances, 6);
}

TEST(Oracles, AFewNamedGroupsAgreeWithGlpsol) {
  Agreement agreement;
  for (const auto& [name, problem] : named_lots())
    if (name.rfind("loose", 0) == 0 && name.back() == '1')
      compare_with_glpsol(name, problem, agreement);
  print("glpsol", agreement);
  EXPECT_EQ(agreement.instances, 3);
  EXPECT_GE(agreement.solver_proven, 1);
}

TEST(Oracles, AllNamedAndSixtyRandomGroupsAgreeWithCbc) {
  Agreement named, random;
  for (const auto& [name, problem] : named_lots()) compare_with_cbc(name, problem, named);
  for (std::uint64_t seed = 1; seed <= 60; ++seed)
    compare_with_cbc("random " + std::to_string(seed), testing::random_group(seed), random);
  print("cbc", named);
  print("cbc", random);
  EXPECT_GE(named.solver_proven, 15);
  EXPECT_GE(random.solver_proven, 40);
}

TEST(Oracles, AllNamedAndSixtyRandomGroupsAgreeWithGlpsol) {
  Agreement named, random;
  for (const auto& [name, problem] : named_lots()) compare_with_glpsol(name, problem, named);
  for (std::uint64_t seed = 1; seed <= 60; ++seed)
    compare_with_glpsol("random " + std::to_string(seed), testing::random_group(seed), random);
  print("glpsol", named);
  print("glpsol", random);
  EXPECT_GE(named.solver_proven, 9);  // within its fuse, on a slow machine too
  EXPECT_GE(random.solver_proven, 20);
}

TEST(Oracles, TheExactPlanIsNeverWorseAndItsBoundNeverLower) {
  for (const auto& [name, problem] : named_lots()) {
    if (name.rfind("tight-small", 0) != 0) continue;
    const Planned ours = plan(problem);
    const Planned exact = plan_exact(problem, CbcSolver(), {}, {0.0, 1e-4, 200});
    EXPECT_LE(exact.bill.total(), ours.bill.total()) << name;
    EXPECT_GE(exact.bound, ours.bound) << name;
    EXPECT_LE(exact.bound, exact.bill.total()) << name;
    EXPECT_TRUE(broken_limits(problem, exact.plan).empty()) << name;
  }
}

TEST(Oracles, TheStrongModelOfTinyProblemsCostsWhatTheBestChoiceCosts) {
  int compared = 0;
  for (int seed = 1; seed <= 300; ++seed) {
    const Problem problem = testing::TinyLots(static_cast<std::uint64_t>(seed)).make();
    const auto best = static_cast<double>(testing::least_of_all(problem).total);
    const StrongModel model(problem);
    const MipResult found = CbcSolver().solve(model.mip(), {0.0, 10000});
    ASSERT_EQ(found.status, MipResult::Status::optimal) << seed;
    // Who is served from which can is the model's choice, so with few cans it may do better.
    ASSERT_LE(found.objective, best + 1e-6) << seed;
    if (problem.cans >= 0) continue;
    ASSERT_NEAR(found.objective, best, 1e-6) << seed;
    const Plan plan = model.plan_of(found.values);
    ASSERT_TRUE(broken_limits(problem, plan).empty()) << seed;
    ASSERT_NEAR(static_cast<double>(bill_of(problem, plan).total()), best, 1e-6) << seed;
    const Planned exact = plan_exact(problem, CbcSolver(), {}, {0.0, 0.0});
    ASSERT_EQ(static_cast<double>(exact.bill.total()), best) << seed;
    ASSERT_LE(static_cast<double>(exact.bound), best) << seed;
    ++compared;
  }
  EXPECT_GE(compared, 150);
}

Mip knapsack() {  // least -(5a + 4b + 3c), 2a + 3b + c <= 5, 4a + b + 2c <= 11, 3a + 4b + 2c <= 8
  Mip mip;
  mip.columns = {{0, 10, -5, true}, {0, 10, -4, true}, {0, 10, -3, true}};
  mip.rows = {{-unbounded, 5, {{0, 2}, {1, 3}, {2, 1}}},
              {-unbounded, 11, {{0, 4}, {1, 1}, {2, 2}}},
              {-unbounded, 8, {{0, 3}, {1, 4}, {2, 2}}}};
  return mip;
}

TEST(Cbc, SolvesAndSaysWhatItKnows) {
  Mip mip = knapsack();
  double best = 0.0;
  for (int a = 0; a <= 10; ++a)
    for (int b = 0; b <= 10; ++b)
      for (int c = 0; c <= 10; ++c)
        if (2 * a + 3 * b + c <= 5 && 4 * a + b + 2 * c <= 11 && 3 * a + 4 * b + 2 * c <= 8)
          best = std::min(best, -5.0 * a - 4.0 * b - 3.0 * c);
  const MipResult solved = CbcSolver().solve(mip, {0.0, 1000});
  EXPECT_EQ(solved.status, MipResult::Status::optimal);
  EXPECT_NEAR(solved.objective, best, 1e-6);
  EXPECT_NEAR(solved.bound, best, 1e-6);
  EXPECT_EQ(CbcSolver().solve(mip, {0.0, 1000, best}).status, MipResult::Status::no_better);
  mip.rows.push_back({3, unbounded, {{0, 1}}});
  EXPECT_EQ(CbcSolver().solve(mip, {0.0, 1000}).status, MipResult::Status::infeasible);
}

TEST(Cbc, TheSameProgrammeTheSameResult) {
  const StrongModel model(named_lots().front().problem);
  const MipResult one = CbcSolver().solve(model.mip(), {1e-3, 50});
  const MipResult two = CbcSolver().solve(model.mip(), {1e-3, 50});
  EXPECT_EQ(one.values, two.values);
  EXPECT_EQ(one.bound, two.bound);
}

}  // namespace
}  // namespace wheyfield::lot_sizing
