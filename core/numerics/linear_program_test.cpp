// Linear programmes against brute force over all corners, against their own duals, and on the
// textbook cases that break simplex methods.
#include "numerics/linear_program.h"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include <support/draw.h>

namespace wheyfield::numerics {
namespace {

using Relation = LinearProgram::Relation;
using Status = LinearSolution::Status;
using Point = std::vector<double>;

double times(const Point& factors, const Point& values) {
  double sum = 0.0;
  for (std::size_t j = 0; j < values.size(); ++j) sum += factors[j] * values[j];
  return sum;
}

bool keeps_limits(const LinearProgram& lp, const Point& x, double room) {
  for (std::size_t j = 0; j < x.size(); ++j)
    if (x[j] < lp.lower[j] - room || x[j] > lp.upper[j] + room) return false;
  for (const LinearProgram::Row& row : lp.rows) {
    const double left = times(row.factors, x);
    if (row.relation != Relation::at_least && left > row.side + room) return false;
    if (row.relation != Relation::at_most && left < row.side - room) return false;
  }
  return true;
}

// Where the planes meet, by elimination; none when they do not meet in one point.
std::optional<Point> meeting(std::vector<Point> planes) {
  const std::size_t n = planes.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t largest = k;
    for (std::size_t i = k; i < n; ++i)
      if (std::fabs(planes[i][k]) > std::fabs(planes[largest][k])) largest = i;
    if (std::fabs(planes[largest][k]) < 1e-9) return std::nullopt;
    std::swap(planes[k], planes[largest]);
    for (std::size_t i = 0; i < n; ++i) {
      if (i == k) continue;
      const double factor = planes[i][k] / planes[k][k];
      for (std::size_t j = k; j <= n; ++j) planes[i][j] -= factor * planes[k][j];
    }
  }
  Point x(n);
  for (std::size_t k = 0; k < n; ++k) x[k] = planes[k][n] / planes[k][k];
  return x;
}

// The least over all corners of the box cut by the rows; none when no corner keeps the limits.
std::optional<double> least_of_corners(const LinearProgram& lp) {
  const std::size_t n = lp.costs.size();
  std::vector<Point> planes;
  for (const LinearProgram::Row& row : lp.rows) {
    planes.push_back(row.factors);
    planes.back().push_back(row.side);
  }
  for (std::size_t j = 0; j < n; ++j)
    for (const double bound : {lp.lower[j], lp.upper[j]}) {
      Point plane(n + 1, 0.0);
      plane[j] = 1.0;
      plane[n] = bound;
      planes.push_back(plane);
    }
  std::optional<double> least;
  std::vector<std::size_t> chosen(n);
  for (std::size_t k = 0; k < n; ++k) chosen[k] = k;
  for (;;) {
    std::vector<Point> some;
    for (const std::size_t k : chosen) some.push_back(planes[k]);
    if (const auto x = meeting(some); x && keeps_limits(lp, *x, 1e-7))
      least = std::min(least.value_or(no_bound), times(lp.costs, *x));
    std::size_t k = n;
    while (k > 0 && chosen[k - 1] == planes.size() - n + k - 1) --k;
    if (k == 0) return least;
    ++chosen[k - 1];
    for (; k < n; ++k) chosen[k] = chosen[k - 1] + 1;
  }
}

LinearProgram drawn(testing::Draw& draw) {
  LinearProgram lp;
  const int columns = draw.between(1, 4), rows = draw.between(0, 4);
  for (int j = 0; j < columns; ++j) {
    const double low = draw.between(-3, 3);
    lp.add_column(draw.between(-5, 5), low, low + draw.between(0, 6));
  }
  for (int i = 0; i < rows; ++i) {
    Point factors;
    for (int j = 0; j < columns; ++j) factors.push_back(draw.between(-4, 4));
    lp.add_row(factors, static_cast<Relation>(draw.below(3)), draw.between(-10, 10));
  }
  return lp;
}

TEST(LinearProgram, IsAsGoodAsTheBestOfAllCorners) {
  testing::Draw draw(20270304);
  int optimal = 0, infeasible = 0;
  for (int round = 0; round < testing::cases(4000); ++round) {
    const LinearProgram lp = drawn(draw);
    const LinearSolution solution = solve(lp);
    const std::optional<double> least = least_of_corners(lp);
    ASSERT_EQ(solution.status == Status::optimal, least.has_value()) << round;
    if (!least) {
      ASSERT_EQ(solution.status, Status::infeasible);
      ++infeasible;
      continue;
    }
    ++optimal;
    ASSERT_NEAR(solution.objective, *least, 1e-7) << round;
    ASSERT_TRUE(keeps_limits(lp, solution.values, 1e-7)) << round;
  }
  EXPECT_GT(optimal, testing::cases(1000));
  EXPECT_GT(infeasible, testing::cases(400));
}

// What the duals prove: y'b plus the cheapest corner of the box at the costs c - A'y is a bound
// below every mix, and it is reached.
TEST(LinearProgram, ItsDualsProveIt) {
  testing::Draw draw(7);
  for (int round = 0; round < testing::cases(2000); ++round) {
    const LinearProgram lp = drawn(draw);
    const LinearSolution solution = solve(lp);
    if (solution.status != Status::optimal) continue;
    Point left = lp.costs;
    double bound = 0.0;
    for (std::size_t i = 0; i < lp.rows.size(); ++i) {
      const double dual = solution.duals[i];
      if (lp.rows[i].relation == Relation::at_most) {
        ASSERT_LE(dual, 1e-7);
      } else if (lp.rows[i].relation == Relation::at_least) {
        ASSERT_GE(dual, -1e-7);
      }
      bound += dual * lp.rows[i].side;
      for (std::size_t j = 0; j < left.size(); ++j) left[j] -= dual * lp.rows[i].factors[j];
    }
    for (std::size_t j = 0; j < left.size(); ++j)
      bound += left[j] * (left[j] > 0.0 ? lp.lower[j] : lp.upper[j]);
    ASSERT_NEAR(bound, solution.objective, 1e-6) << round;
  }
}

// E. M. L. Beale, Naval Research Logistics Quarterly 2, 1955: the steepest column goes round in a
// circle here. Optimum -1/20.
TEST(LinearProgram, DoesNotGoRoundInBealesCircle) {
  LinearProgram lp;
  for (const double cost : {-0.75, 150.0, -0.02, 6.0}) lp.add_column(cost);
  lp.add_row({0.25, -60.0, -0.04, 9.0}, Relation::at_most, 0.0);
  lp.add_row({0.5, -90.0, -0.02, 3.0}, Relation::at_most, 0.0);
  lp.add_row({0.0, 0.0, 1.0, 0.0}, Relation::at_most, 1.0);
  const LinearSolution solution = solve(lp);
  ASSERT_EQ(solution.status, Status::optimal);
  EXPECT_NEAR(solution.objective, -0.05, 1e-12);
}

TEST(LinearProgram, SaysWhenThereIsNoLeast) {
  LinearProgram lp;
  lp.add_column(-1.0);
  lp.add_column(1.0);
  lp.add_row({1.0, -1.0}, Relation::at_most, 2.0);
  lp.costs = {-2.0, 1.0};
  EXPECT_EQ(solve(lp).status, Status::unbounded);
}

TEST(LinearProgram, SaysWhenNothingKeepsTheRows) {
  LinearProgram lp;
  lp.add_column(1.0, 0.0, 4.0);
  lp.add_row({1.0}, Relation::at_least, 5.0);
  EXPECT_EQ(solve(lp).status, Status::infeasible);
}

TEST(LinearProgram, ScalingARowChangesNothing) {
  testing::Draw draw(11);
  for (int round = 0; round < testing::cases(500); ++round) {
    LinearProgram lp = drawn(draw);
    const LinearSolution before = solve(lp);
    for (LinearProgram::Row& row : lp.rows) {
      const double by = draw.real(0.001, 1000.0);
      for (double& factor : row.factors) factor *= by;
      row.side *= by;
    }
    const LinearSolution after = solve(lp);
    ASSERT_EQ(before.status, after.status);
    if (before.status != Status::optimal) continue;
    ASSERT_NEAR(before.objective, after.objective, 1e-7);
  }
}

}  // namespace
}  // namespace wheyfield::numerics
