// Linear programmes of a few dozen unknowns: the least of c'x under rows a'x <=, >= or = b and
// lower <= x <= upper.
//
// Bounded simplex on a dense table in two phases, by Bland's rule (R. G. Bland, Mathematics of
// Operations Research 2(2), 1977), which cannot go round in a circle. Rows are scaled to a largest
// factor of 1. Work per step: rows x (columns + rows). No integer unknowns, no sparse matrices.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace wheyfield::numerics {

constexpr double no_bound = std::numeric_limits<double>::infinity();

struct LinearProgram {
  enum class Relation { at_most, at_least, equal };
  struct Row {
    std::vector<double> factors;  // one for each column, finite
    Relation relation = Relation::at_most;
    double side = 0.0;  // finite
  };

  // The number of the new column. Precondition: lower finite, lower <= upper, upper may be
  // no_bound.
  std::size_t add_column(double cost, double lower = 0.0, double upper = no_bound);
  // All columns stand before the first row.
  void add_row(std::vector<double> factors, Relation relation, double side);

  std::vector<double> costs;
  std::vector<double> lower;
  std::vector<double> upper;
  std::vector<Row> rows;
};

struct LinearSolution {
  enum class Status { optimal, infeasible, unbounded };
  Status status = Status::infeasible;
  // Of an optimum only:
  double objective = 0.0;
  std::vector<double> values;  // one for each column
  // One for each row: what the objective grows by when its side grows by one. At most 0 for
  // at_most, at least 0 for at_least.
  std::vector<double> duals;
};

// Rows hold within 1e-9 of their largest factor times the largest value.
LinearSolution solve(const LinearProgram& programme);

}  // namespace wheyfield::numerics
