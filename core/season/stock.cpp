#include "season/stock.h"

#include <algorithm>
#include <map>

namespace wheyfield::season {

std::vector<StockChange> stock_changes(const Season& season, const SeasonPlan& plan) {
  std::vector<StockChange> changes;
  std::vector<std::int64_t> left;
  for (const Lot& lot : plan.opening) {
    changes.push_back({lot.from, "in-hand", "", lot.ml, 0});
    left.push_back(lot.ml);
  }
  for (std::size_t i = 0; i < plan.batches.batches.size(); ++i) {
    const Batch& b = plan.batches.batches[i];
    changes.push_back({b.ready, b.spare ? "spare-ready" : "ready", b.name, b.stored_ml, 0});
    left.push_back(b.stored_ml);
  }
  std::map<std::pair<int, bool>, std::int64_t> handed;  // day, by seed
  for (const PlannedUse& use : plan.uses)
    for (const Draw& draw : use.draws) {
      left[draw.lot] -= draw.ml;
      const calendar::Date day = use.due.collect_on.value_or(use.due.use.window.likely);
      handed[{day.days(), use.due.hand_out == HandOut::by_seed}] += draw.ml;
    }
  for (const auto& [when, ml] : handed)
    changes.push_back({calendar::Date::from_days(when.first),
                       when.second ? "kept-for-seed" : "hand-out", "", -ml, 0});
  for (std::size_t i = 0; i < left.size(); ++i) {
    const bool opening = i < plan.opening.size();
    const calendar::Date use_by =
        opening ? plan.opening[i].use_by : plan.batches.batches[i - plan.opening.size()].use_by;
    if (left[i] > 0 && use_by + 1 <= season.to)
      changes.push_back({use_by + 1, "past-use-by",
                         opening ? "" : plan.batches.batches[i - plan.opening.size()].name,
                         -left[i], 0});
  }
  std::stable_sort(changes.begin(), changes.end(),
                   [](const StockChange& a, const StockChange& b) { return a.date < b.date; });
  std::int64_t balance = 0;
  for (StockChange& change : changes) change.balance_ml = balance += change.change_ml;
  return changes;
}

}  // namespace wheyfield::season
