#include "season/spares.h"

#include <algorithm>
#include <numeric>

#include "season/batch_ledger.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

class Sparing {
 public:
  Sparing(const BatchProblem& problem, ChainTable& chains, const BatchPlan& plan)
      : p_(problem), plan_(plan), ledger_(problem, chains) {
    for (const Batch& b : plan.batches) ledger_.hold(b);
  }

  // For the batches first..end-1, of which something is handed out on `days`. None: no place.
  std::optional<Batch> spare_for(std::size_t first, std::size_t end,
                                 const std::vector<Date>& days) {
    std::int64_t largest = 0;
    for (std::size_t i = first; i < end; ++i)
      largest = std::max(largest, plan_.batches[i].stored_ml);
    const auto [soonest, latest] = std::minmax_element(days.begin(), days.end());
    for (Date day = *soonest; day <= *latest; day = day + 1)
      if (const auto c = ledger_.latest_start({day, day, largest}, day)) {
        const std::int64_t ml =
            std::max(std::min(largest, c->most_ml), least_working_ml(*p_.recipe));
        if (ml < std::min(largest, p_.least_batch_ml)) continue;
        ledger_.brew(*c, ml);
        return Batch{c->vessel, ml, *c->chain, c->ready(), c->ready() + p_.life_days(), true};
      }
    return std::nullopt;
  }

  std::vector<Date> handed_out(std::size_t first, std::size_t end) const {
    std::vector<Date> days;
    const std::size_t opening = p_.opening.size();
    for (std::size_t g = 0; g < p_.demand.size(); ++g)
      for (const Draw& draw : plan_.draws[g])
        if (draw.lot >= opening + first && draw.lot < opening + end)
          days.push_back(p_.demand[g].collect);
    return days;
  }

 private:
  const BatchProblem& p_;
  const BatchPlan& plan_;
  BatchLedger ledger_;
};

// Batches in the order of their start, draws renumbered to follow.
void sort_batches(std::size_t opening, BatchPlan& plan) {
  std::vector<std::size_t> order(plan.batches.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return plan.batches[a].start() < plan.batches[b].start();
  });
  std::vector<std::size_t> place(order.size());
  std::vector<Batch> sorted;
  for (std::size_t i = 0; i < order.size(); ++i) {
    place[order[i]] = i;
    sorted.push_back(std::move(plan.batches[order[i]]));
  }
  plan.batches = std::move(sorted);
  for (auto& draws : plan.draws)
    for (Draw& draw : draws)
      if (draw.lot >= opening) draw.lot = opening + place[draw.lot - opening];
}

}  // namespace

void add_spares(const BatchProblem& problem, ChainTable& chains, BatchPlan& plan) {
  const auto each = static_cast<std::size_t>(problem.season->batches_per_spare);
  if (each == 0) return;
  Sparing sparing(problem, chains, plan);
  std::vector<Batch> spares;
  const std::size_t planned = plan.batches.size();
  for (std::size_t first = 0; first < planned; first += each) {
    const std::size_t end = std::min(planned, first + each);
    const std::vector<Date> days = sparing.handed_out(first, end);
    if (days.empty()) continue;
    if (auto spare = sparing.spare_for(first, end, days))
      spares.push_back(std::move(*spare));
    else
      ++plan.spares_missing;
  }
  for (Batch& spare : spares) plan.batches.push_back(std::move(spare));
  sort_batches(problem.opening.size(), plan);
}

}  // namespace wheyfield::season
