// A mixed-integer programme, and what solves one: the border behind which a general solver stands.
//
//   least sum of cost_j x_j  subject to  lower_i <= sum of a_ij x_j <= upper_i,
//   lower_j <= x_j <= upper_j, some x_j whole
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace wheyfield::lot_sizing {

constexpr double unbounded = std::numeric_limits<double>::infinity();

struct MipColumn {
  double lower = 0.0;
  double upper = unbounded;
  double cost = 0.0;
  bool whole = false;
};

struct MipRow {
  double lower = -unbounded;
  double upper = unbounded;
  std::vector<std::pair<std::size_t, double>> entries;  // (column, factor), each column once
};

struct Mip {
  std::vector<MipColumn> columns;
  std::vector<MipRow> rows;
};

struct MipResult {
  enum class Status {
    optimal,    // within the gap that was asked for
    limit,      // the node limit came first; `bound` holds, and `values` when something was found
    no_better,  // nothing cheaper than the cutoff; `bound` is the cutoff
    infeasible
  };
  Status status = Status::limit;
  double bound = -unbounded;
  double objective = unbounded;
  std::vector<double> values;  // one for each column; empty when nothing was found
};

class MipSolver {
 public:
  struct Limits {
    double gap = 1e-4;  // (objective - bound) / |objective| that is good enough, >= 0
    int nodes = 100000;
    double cutoff = unbounded;  // only what is cheaper is wanted
  };
  virtual ~MipSolver() = default;
  // The same programme and limits, the same result.
  virtual MipResult solve(const Mip& mip, const Limits& limits) const = 0;
  virtual std::string name() const = 0;
};

}  // namespace wheyfield::lot_sizing
