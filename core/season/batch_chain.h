// The dated steps of one batch, pinned on the day its season vessel is filled.
#pragma once

#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "season/batch_plan.h"

namespace wheyfield::season {

// Steps before the vessel step are counted back to the latest start that is safe (its late end is
// reached, nothing overstays); steps after follow at once. The vessel step itself ends on the first
// meeting day between its late end and the last day it stands well, else on its late end.
// None when a step cannot be placed without overstaying, or is never ready by its forecast.
class ChainTable {
 public:
  explicit ChainTable(const BatchProblem& problem) : problem_(&problem) {}
  // `milk` in the vessel; it counts where a step is forecast.
  const std::optional<std::vector<BatchStep>>& at(std::size_t place, Milk milk,
                                                  calendar::Date fill_day);

 private:
  using Chain = std::optional<std::vector<BatchStep>>;
  Chain build(const Place& place, Milk milk, calendar::Date fill_day) const;
  const BatchProblem* problem_;
  std::map<std::tuple<std::size_t, Milk, int>, Chain> known_;
};

}  // namespace wheyfield::season
