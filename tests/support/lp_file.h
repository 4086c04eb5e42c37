// A mixed-integer programme as a file in the CPLEX LP format that general solvers read, and glpsol
// (GLPK, Debian's glpk-utils) run on it as a process. For tests and benches only.
#pragma once

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include "lot_sizing/mip.h"

namespace wheyfield::testing {

inline std::string lp_text(const lot_sizing::Mip& mip) {
  std::ostringstream out;
  out.precision(17);
  const auto terms = [&](const auto& entries) {
    int on_line = 0;
    for (const auto& [column, factor] : entries) {
      out << (factor < 0 ? " - " : " + ") << std::fabs(factor) << " x" << column;
      if (++on_line % 8 == 0) out << "\n";
    }
  };
  out << "Minimize\n obj:";
  std::vector<std::pair<std::size_t, double>> costs;
  for (std::size_t j = 0; j < mip.columns.size(); ++j)
    if (mip.columns[j].cost != 0.0) costs.emplace_back(j, mip.columns[j].cost);
  if (costs.empty() && !mip.columns.empty()) costs.emplace_back(0, 0.0);
  terms(costs);
  out << "\nSubject To\n";
  for (std::size_t i = 0; i < mip.rows.size(); ++i) {
    const lot_sizing::MipRow& row = mip.rows[i];
    if (row.entries.empty()) continue;
    const auto one = [&](const char* tag, const char* sign, double side) {
      out << " r" << i << tag << ":";
      terms(row.entries);
      out << " " << sign << " " << side << "\n";
    };
    if (row.lower == row.upper) {
      one("e", "=", row.lower);
      continue;
    }
    if (std::isfinite(row.lower)) one("l", ">=", row.lower);
    if (std::isfinite(row.upper)) one("u", "<=", row.upper);
  }
  out << "Bounds\n";
  for (std::size_t j = 0; j < mip.columns.size(); ++j) {
    out << " " << mip.columns[j].lower << " <= x" << j;
    if (std::isfinite(mip.columns[j].upper)) out << " <= " << mip.columns[j].upper;
    out << "\n";
  }
  out << "General\n";
  for (std::size_t j = 0; j < mip.columns.size(); ++j)
    if (mip.columns[j].whole) out << " x" << j << "\n";
  out << "End\n";
  return out.str();
}

struct GlpsolResult {
  bool ran = false;
  bool optimal = false;     // proven
  bool within_gap = false;  // of what was asked for: proven, or ended by itself
  double objective = 0.0;
};

// `seconds` is only a fuse: a run that burns it is no result.
inline GlpsolResult run_glpsol(const lot_sizing::Mip& mip, double gap, const std::string& scratch,
                               int seconds = 300) {
  const std::string model = scratch + ".lp", answer = scratch + ".sol";
  std::ofstream(model) << lp_text(mip);
  std::ostringstream command;
  command << "glpsol --lp " << model << " --mipgap " << gap << " --cuts --tmlim " << seconds
          << " -w " << answer << " >" << scratch << ".log 2>&1";
  GlpsolResult result;
  result.ran = std::system(command.str().c_str()) == 0;
  std::ifstream log(scratch + ".log");
  for (std::string line; std::getline(log, line);)
    result.within_gap |= line.find("RELATIVE MIP GAP TOLERANCE REACHED") != std::string::npos;
  std::ifstream file(answer);
  for (std::string line; std::getline(file, line);) {
    char status = ' ';
    int rows = 0, columns = 0;
    if (std::sscanf(line.c_str(), "s mip %d %d %c %lf", &rows, &columns, &status,
                    &result.objective) == 4)
      result.optimal = status == 'o';
  }
  result.within_gap |= result.optimal;
  for (const char* ending : {".lp", ".sol", ".log"}) std::remove((scratch + ending).c_str());
  return result;
}

}  // namespace wheyfield::testing
