#include "solvers/cbc/cbc_solver.h"

#include <algorithm>
#include <cmath>

#include <coin/CbcConfig.h>
#include <coin/CbcHeuristic.hpp>
#include <coin/CbcHeuristicFPump.hpp>
#include <coin/CbcModel.hpp>
#include <coin/CglFlowCover.hpp>
#include <coin/CglGomory.hpp>
#include <coin/CglKnapsackCover.hpp>
#include <coin/CglMixedIntegerRounding2.hpp>
#include <coin/CglProbing.hpp>
#include <coin/CoinPackedMatrix.hpp>
#include <coin/OsiClpSolverInterface.hpp>

namespace wheyfield::solvers {
namespace {

using lot_sizing::Mip;
using lot_sizing::MipResult;

double for_cbc(double bound) {
  return std::isinf(bound) ? std::copysign(COIN_DBL_MAX, bound) : bound;
}

void load(const Mip& mip, OsiClpSolverInterface& solver) {
  CoinPackedMatrix matrix(false, 0, 0);
  matrix.setDimensions(0, static_cast<int>(mip.columns.size()));
  std::vector<double> lower, upper, cost, row_lower, row_upper;
  for (const auto& row : mip.rows) {
    std::vector<int> columns;
    std::vector<double> factors;
    for (const auto& [column, factor] : row.entries) {
      columns.push_back(static_cast<int>(column));
      factors.push_back(factor);
    }
    matrix.appendRow(static_cast<int>(columns.size()), columns.data(), factors.data());
    row_lower.push_back(for_cbc(row.lower));
    row_upper.push_back(for_cbc(row.upper));
  }
  for (const auto& column : mip.columns) {
    lower.push_back(column.lower);
    upper.push_back(for_cbc(column.upper));
    cost.push_back(column.cost);
  }
  solver.loadProblem(matrix, lower.data(), upper.data(), cost.data(), row_lower.data(),
                     row_upper.data());
  for (std::size_t j = 0; j < mip.columns.size(); ++j)
    if (mip.columns[j].whole) solver.setInteger(static_cast<int>(j));
}

void add_cuts_and_heuristics(CbcModel& model) {
  static CglProbing probing;
  static CglGomory gomory;
  static CglKnapsackCover covers;
  static CglMixedIntegerRounding2 rounding;
  static CglFlowCover flows;
  constexpr int when_useful = -1;
  CglProbing own = probing;
  own.setUsingObjective(1);
  model.addCutGenerator(&own, when_useful, "probing");
  model.addCutGenerator(&gomory, when_useful, "gomory");
  model.addCutGenerator(&covers, when_useful, "covers");
  model.addCutGenerator(&rounding, when_useful, "rounding");
  model.addCutGenerator(&flows, when_useful, "flows");
  CbcRounding round(model);
  model.addHeuristic(&round);
  CbcHeuristicFPump pump(model);
  model.addHeuristic(&pump);
}

}  // namespace

std::string CbcSolver::name() const { return std::string("CBC ") + CBC_VERSION; }

MipResult CbcSolver::solve(const Mip& mip, const Limits& limits) const {
  OsiClpSolverInterface solver;
  solver.messageHandler()->setLogLevel(0);
  load(mip, solver);
  solver.initialSolve();
  MipResult result;
  if (solver.isProvenPrimalInfeasible()) {
    result.status = MipResult::Status::infeasible;
    return result;
  }
  CbcModel model(solver);
  model.setLogLevel(0);
  model.messageHandler()->setLogLevel(0);
  model.solver()->messageHandler()->setLogLevel(0);
  add_cuts_and_heuristics(model);
  model.setAllowableFractionGap(limits.gap);
  model.setAllowableGap(0.0);
  model.setMaximumNodes(limits.nodes);
  if (std::isfinite(limits.cutoff)) model.setCutoff(limits.cutoff);
  model.branchAndBound();
  const bool found = model.bestSolution() != nullptr;
  if (found) {
    const double* values = model.bestSolution();
    result.values.assign(values, values + mip.columns.size());
    result.objective = model.getObjValue();
  }
  // CBC leaves what lies within the gap, and calls what it has then its best possible.
  const auto less_the_gap = [&](double value) { return value - limits.gap * std::fabs(value); };
  if (model.status() != 0) {
    result.bound = model.getBestPossibleObjValue();
    if (found) result.bound = std::min(result.bound, less_the_gap(result.objective));
  } else if (found) {
    result.status = MipResult::Status::optimal;
    result.bound = less_the_gap(result.objective);
  } else if (std::isfinite(limits.cutoff)) {
    result.status = MipResult::Status::no_better;
    result.bound = less_the_gap(limits.cutoff);
  } else {
    result.status = MipResult::Status::infeasible;
  }
  return result;
}

}  // namespace wheyfield::solvers
