// The dated steps of one batch, pinned on the day its season vessel is filled.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "season/batch_plan.h"

namespace wheyfield::season {

// Steps before the vessel step are counted back to the latest start that is safe (its late end is
// reached, nothing overstays); steps after follow at once. The vessel step itself ends on the first
// meeting day between its late end and the last day it stands well, else on its late end.
// None when a step cannot be placed without overstaying.
class ChainTable {
 public:
  explicit ChainTable(const BatchProblem& problem) : problem_(&problem) {}
  const std::optional<std::vector<BatchStep>>& at(std::size_t place, calendar::Date fill_day);

 private:
  std::optional<std::vector<BatchStep>> build(const Place& place, calendar::Date fill_day) const;
  const BatchProblem* problem_;
  std::map<std::pair<std::size_t, int>, std::optional<std::vector<BatchStep>>> known_;
};

}  // namespace wheyfield::season
