#include "season/yields.h"

namespace wheyfield::season {

std::vector<BatchYield> batch_yields(const recipe::Recipe& recipe, const SeasonPlan& plan) {
  const recipe::YieldRange range = recipe::yield_range(recipe);
  std::vector<BatchYield> yields;
  for (std::size_t i = 0; i < plan.batches.batches.size(); ++i) {
    const auto stored =
        quantity::millilitres(static_cast<double>(plan.batches.batches[i].stored_ml));
    yields.push_back({quantity::whole_millilitres(stored * range.low),
                      quantity::whole_millilitres(stored * range.high), drawn_from(plan, i)});
  }
  return yields;
}

}  // namespace wheyfield::season
