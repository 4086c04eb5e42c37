// How the plan fares when batches fail or come late, by many simulated seasons.
//
// A batch that fails is brewed again by the re-brew rule (lot_sizing/simulate.h). Shares are of
// seasons and of serum, not of farms; spares and what is short anyhow: a spare is not counted, what
// the plan leaves short is never on time.
#pragma once

#include <cstdint>
#include <vector>

#include "season/batch_plan.h"

namespace wheyfield::season {

struct SeasonRisk {
  std::int64_t seasons = 0;
  double all_on_time = 0.0;      // share of seasons in which every use has its serum on its day
  double litres_on_time = 0.0;   // share of all serum
  double worst_twentieth = 0.0;  // the same over the worst twentieth of the seasons
  std::vector<double> others_on_time;  // share of the litres of each further preparation
  std::vector<double> in_full;  // one for each demand: seasons in which all of it is there in time
};

// `seasons` > 0. The same seed, the same numbers, on every machine. Nothing due: all shares 1.
// Of the first preparation, beside the others.
SeasonRisk season_risk(const std::vector<BatchProblem>& problems,
                       const std::vector<BatchPlan>& plans, std::uint64_t seed,
                       std::int64_t seasons);

}  // namespace wheyfield::season
