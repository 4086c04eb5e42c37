// Two general solvers against our own linear programmes: larger ones than brute force can look
// through, mixes of compost among them.
#include "numerics/linear_program.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solvers/cbc/cbc_solver.h"
#include "support/draw.h"
#include "support/lp_file.h"

namespace wheyfield::numerics {
namespace {

using lot_sizing::Mip;
using lot_sizing::MipResult;
using Relation = LinearProgram::Relation;
using Status = LinearSolution::Status;

Mip mip_of(const LinearProgram& lp) {
  Mip mip;
  for (std::size_t j = 0; j < lp.costs.size(); ++j)
    mip.columns.push_back({lp.lower[j], lp.upper[j], lp.costs[j], false});
  for (const LinearProgram::Row& row : lp.rows) {
    lot_sizing::MipRow out;
    if (row.relation != Relation::at_most) out.lower = row.side;
    if (row.relation != Relation::at_least) out.upper = row.side;
    for (std::size_t j = 0; j < row.factors.size(); ++j)
      if (row.factors[j] != 0.0) out.entries.emplace_back(j, row.factors[j]);
    mip.rows.push_back(std::move(out));
  }
  return mip;
}

LinearProgram drawn(testing::Draw& draw) {
  LinearProgram lp;
  const int columns = draw.between(2, 30), rows = draw.between(1, 12);
  for (int j = 0; j < columns; ++j)
    lp.add_column(draw.real(-5.0, 20.0), 0.0, draw.real(1.0, 500.0));
  for (int i = 0; i < rows; ++i) {
    std::vector<double> factors;
    for (int j = 0; j < columns; ++j)
      factors.push_back(draw.below(3) == 0 ? 0.0 : draw.real(-9.0, 9.0));
    lp.add_row(factors, static_cast<Relation>(draw.below(3)), draw.real(-300.0, 300.0));
  }
  return lp;
}

TEST(LinearProgramOracle, CbcFindsTheSameLeast) {
  testing::Draw draw(20270311);
  int optimal = 0;
  for (int round = 0; round < 300; ++round) {
    const LinearProgram lp = drawn(draw);
    const LinearSolution ours = solve(lp);
    const MipResult cbc = solvers::CbcSolver().solve(mip_of(lp), {1e-9, 1000});
    ASSERT_EQ(ours.status == Status::optimal, cbc.status == MipResult::Status::optimal) << round;
    if (ours.status != Status::optimal) continue;
    ++optimal;
    ASSERT_NEAR(ours.objective, cbc.objective, 1e-5 * (1.0 + std::fabs(cbc.objective))) << round;
  }
  EXPECT_GT(optimal, 100);
}

TEST(LinearProgramOracle, GlpsolFindsTheSameLeast) {
  testing::Draw draw(7);
  int compared = 0;
  for (int round = 0; round < 25; ++round) {
    const LinearProgram lp = drawn(draw);
    const LinearSolution ours = solve(lp);
    if (ours.status != Status::optimal) continue;
    Mip mip = mip_of(lp);
    // A column that is whole and closed makes it a mixed programme, of which glpsol writes the end.
    mip.columns.push_back({0.0, 0.0, 0.0, true});
    const auto theirs =
        testing::run_glpsol(mip, 0.0, ::testing::TempDir() + "wheyfield_linear", 20);
    ASSERT_TRUE(theirs.ran && theirs.optimal) << round;
    ASSERT_NEAR(ours.objective, theirs.objective, 1e-5 * (1.0 + std::fabs(theirs.objective)));
    ++compared;
  }
  EXPECT_GT(compared, 8);
}

}  // namespace
}  // namespace wheyfield::numerics
