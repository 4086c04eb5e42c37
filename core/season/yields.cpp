#include "season/yields.h"

#include <utility>

namespace wheyfield::season {
namespace {

std::vector<BatchYield> yields_of(const recipe::Recipe& recipe, const std::vector<Batch>& batches,
                                  const std::vector<std::int64_t>& drawn) {
  const recipe::YieldRange range = recipe::yield_range(recipe);
  std::vector<BatchYield> yields;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const auto stored = quantity::millilitres(static_cast<double>(batches[i].stored_ml));
    yields.push_back({quantity::whole_millilitres(stored * range.low),
                      quantity::whole_millilitres(stored * range.high), drawn[i]});
  }
  return yields;
}

}  // namespace

std::vector<BatchYield> batch_yields(const recipe::Recipe& recipe, const SeasonPlan& plan) {
  std::vector<std::int64_t> drawn;
  for (std::size_t i = 0; i < plan.batches.batches.size(); ++i)
    drawn.push_back(drawn_from(plan, i));
  return yields_of(recipe, plan.batches.batches, drawn);
}

std::vector<BatchYield> batch_yields(const recipe::Recipe& recipe, const PreparationPlan& plan) {
  std::vector<std::int64_t> drawn(plan.batches.batches.size(), 0);
  for (const auto& draws : plan.batches.draws)
    for (const Draw& draw : draws)
      if (draw.lot >= plan.opening.size()) drawn[draw.lot - plan.opening.size()] += draw.ml;
  return yields_of(recipe, plan.batches.batches, drawn);
}

}  // namespace wheyfield::season
