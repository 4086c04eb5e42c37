#include "season/risk.h"

#include "lot_sizing/simulate.h"
#include "season/lots.h"

namespace wheyfield::season {

SeasonRisk season_risk(const BatchProblem& problem, const BatchPlan& plan, std::uint64_t seed,
                       std::int64_t seasons) {
  ChainTable chains(problem);
  LotProblem lots = to_lots(problem, chains);
  const lot_sizing::Plan held = to_lot_plan(problem, plan, lots);
  const lot_sizing::Tally tally =
      lot_sizing::Seasons(lots.problem, held, {problem.chances}).run(seed, 0, seasons);
  SeasonRisk risk;
  risk.seasons = seasons;
  risk.all_on_time = lot_sizing::share_all_on_time(tally);
  risk.litres_on_time = lot_sizing::share_on_time(tally, 0);
  risk.worst_twentieth = lot_sizing::share_on_time_worst(tally, 0);
  for (std::size_t d = 0; d < problem.demand.size(); ++d)
    risk.in_full.push_back(lot_sizing::share_in_full(tally, 0, d));
  return risk;
}

}  // namespace wheyfield::season
