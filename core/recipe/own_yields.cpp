#include "recipe/own_yields.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::recipe {
namespace {

bool is_liquid(const Recipe& recipe, const std::string& id) {
  const Material* m = recipe.material(id);
  return m != nullptr && m->unit == "L";
}

double weight_of(const Recipe& recipe, const std::string& id) {
  const Material* m = recipe.material(id);
  return m != nullptr && m->unit == "L" && m->density ? m->density->value : 1.0;
}

// Goes back to the basis of the step that gives what `yield` is measured against, as long as that
// is not measured itself; `step` becomes that step. False when there is none from `first` on.
bool go_back(const Recipe& recipe, std::size_t first, std::size_t& step, MeasuredYield& yield) {
  for (std::size_t k = first; k < step; ++k)
    for (const Flow& flow : recipe.steps[k].gives)
      if (flow.material == yield.of && !flow.measured && !flow.remainder) {
        step = k;
        yield.per_of *= flow.ratio.value;
        yield.of = recipe.steps[k].takes.front().material;
        return true;
      }
  return false;
}

}  // namespace

std::vector<MeasuredYield> measured_yields(const Recipe& recipe) {
  std::vector<MeasuredYield> yields;
  const auto first = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
  for (std::size_t k = first; k < recipe.steps.size(); ++k)
    for (std::size_t f = 0; f < recipe.steps[k].gives.size(); ++f) {
      const Flow& flow = recipe.steps[k].gives[f];
      if (!flow.measured || flow.remainder) continue;
      MeasuredYield yield{k, f, recipe.steps[k].takes.front().material, 1.0};
      for (std::size_t step = k; go_back(recipe, first, step, yield);) {
      }
      if (is_liquid(recipe, flow.material) && is_liquid(recipe, yield.of)) yields.push_back(yield);
    }
  return yields;
}

const Flow& flow_of(const Recipe& recipe, const MeasuredYield& yield) {
  return recipe.steps[yield.step].gives[yield.flow];
}

double most_ratio(const Recipe& recipe, const MeasuredYield& yield) {
  double taken = 0.0;
  for (const Flow& flow : recipe.steps[yield.step].takes)
    taken += flow.ratio.high * weight_of(recipe, flow.material);
  return taken / weight_of(recipe, flow_of(recipe, yield).material);
}

LearnedYield learned_yield(const Recipe& recipe, const MeasuredYield& yield,
                           const std::vector<double>& ratios, double place_share) {
  const Sourced& taught = flow_of(recipe, yield).ratio;
  const double n = static_cast<double>(ratios.size());
  double sum = 0.0;
  for (const double ratio : ratios) sum += std::log(ratio / taught.value);
  const double own = 1.0 - place_share;
  const double trust = n * place_share / (n * place_share + own);
  const double likely = ratios.empty() ? taught.value : taught.value * std::exp(trust * sum / n);
  const double shrunk = std::sqrt(own + place_share * (1.0 - trust));
  const auto end = [&](double taught_end) {
    return likely * std::pow(taught_end / taught.value, shrunk);
  };
  return {yield, likely, end(taught.low),
          std::max(likely, std::min(end(taught.high), most_ratio(recipe, yield))),
          static_cast<int>(ratios.size())};
}

Recipe with_yields(Recipe recipe, const std::vector<LearnedYield>& learned) {
  for (const LearnedYield& each : learned) {
    if (each.batches == 0) continue;
    Sourced& ratio = recipe.steps[each.yield.step].gives[each.yield.flow].ratio;
    ratio = {each.value, each.low, each.high, ratio.unit, {"computed", "computed-here", ""}};
  }
  return recipe;
}

}  // namespace wheyfield::recipe
