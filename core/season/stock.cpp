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

StockPeak stock_peak(const Season& season, const recipe::Recipe& recipe, const SeasonPlan& plan,
                     const std::vector<StockChange>& changes) {
  std::map<int, std::int64_t> by_day;
  if (recipe.stored())
    for (const StockChange& change : changes) by_day[change.date.days()] += change.change_ml;
  for (std::size_t i = 0; i < plan.others.size(); ++i) {
    if (!season.preparations[i].recipe->stored()) continue;
    const PreparationPlan& other = plan.others[i];
    for (const Lot& lot : other.opening) by_day[lot.from.days()] += lot.ml;
    for (const Batch& batch : other.batches.batches) by_day[batch.ready.days()] += batch.stored_ml;
    for (std::size_t d = 0; d < other.due.size(); ++d)
      by_day[other.due[d].collect.days()] -= other.due[d].ml - other.batches.short_ml[d];
  }
  StockPeak peak;
  std::int64_t balance = 0;
  for (const auto& [day, change] : by_day) {
    balance += change;
    if (balance > peak.ml) peak = {calendar::Date::from_days(day), balance};
  }
  return peak;
}

}  // namespace wheyfield::season
