#include "season/risk.h"

#include <deque>

#include "lot_sizing/simulate.h"
#include "season/lots.h"

namespace wheyfield::season {

SeasonRisk season_risk(const std::vector<BatchProblem>& problems,
                       const std::vector<BatchPlan>& plans, std::uint64_t seed,
                       std::int64_t seasons) {
  std::deque<ChainTable> chains;
  std::vector<Prepared> all;
  std::vector<lot_sizing::Chances> chances;
  for (const BatchProblem& problem : problems) {
    chains.emplace_back(problem);
    all.push_back({&problem, &chains.back()});
    chances.push_back(problem.chances);
  }
  LotProblem lots = to_lots(all);
  const lot_sizing::Plan held = to_lot_plan(all, plans, lots);
  const lot_sizing::Tally tally =
      lot_sizing::Seasons(lots.problem, held, chances).run(seed, 0, seasons);
  SeasonRisk risk;
  risk.seasons = seasons;
  risk.all_on_time = lot_sizing::share_all_on_time(tally, 0);
  risk.litres_on_time = lot_sizing::share_on_time(tally, 0);
  risk.worst_twentieth = lot_sizing::share_on_time_worst(tally, 0);
  for (std::size_t r = 1; r < problems.size(); ++r)
    risk.others_on_time.push_back(lot_sizing::share_on_time(tally, r));
  for (std::size_t d = 0; d < problems.front().demand.size(); ++d)
    risk.in_full.push_back(lot_sizing::share_in_full(tally, 0, d));
  return risk;
}

}  // namespace wheyfield::season
