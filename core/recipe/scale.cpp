#include "recipe/scale.h"

#include <algorithm>
#include <map>

namespace wheyfield::recipe {
namespace {

double mass(const Recipe& recipe, const std::string& id, double amount) {
  const Material* m = recipe.material(id);
  return m && m->unit == "L" && m->density ? amount * m->density->value : amount;
}

// The basis of a step that covers what later steps need of its outputs.
double basis_for(const Step& step, const std::map<std::string, double>& need) {
  double basis = 0.0;
  for (const Flow& flow : step.gives)
    if (const auto wanted = need.find(flow.material); wanted != need.end() && !flow.remainder)
      basis = std::max(basis, wanted->second / flow.ratio.value);
  return basis;
}

ScaledFlow sized(const Flow& flow, double basis) {
  return {flow.material, basis * flow.ratio.value, basis * flow.ratio.low, basis * flow.ratio.high,
          flow.measured};
}

ScaledStep scaled_step(const Recipe& recipe, const Step& step, double basis) {
  ScaledStep scaled{step.id, 0.0, {}, {}};
  double left = 0.0;
  for (const Flow& flow : step.takes) {
    scaled.takes.push_back(sized(flow, basis));
    const double amount = scaled.takes.back().amount;
    left += mass(recipe, flow.material, amount);
    if (const Material* m = recipe.material(flow.material); m && m->unit == "L")
      scaled.fill += amount;
  }
  for (const Flow& flow : step.gives)
    if (!flow.remainder) left -= mass(recipe, flow.material, basis * flow.ratio.value);
  for (const Flow& flow : step.gives) {
    if (!flow.remainder) {
      scaled.gives.push_back(sized(flow, basis));
      continue;
    }
    const double per_unit = mass(recipe, flow.material, 1.0);
    const double amount = std::max(0.0, left) / per_unit;
    scaled.gives.push_back({flow.material, amount, amount, amount, flow.measured});
  }
  return scaled;
}

}  // namespace

double Scaled::taken(const std::string& material) const {
  double sum = 0.0;
  for (const ScaledStep& step : steps)
    for (const ScaledFlow& flow : step.takes)
      if (flow.material == material) sum += flow.amount;
  return sum;
}

Scaled scale(const Recipe& recipe, double product) {
  std::map<std::string, double> need{{recipe.product, product}};
  Scaled scaled{product, {}};
  for (auto step = recipe.steps.rbegin(); step != recipe.steps.rend(); ++step) {
    const double basis = basis_for(*step, need);
    for (const Flow& flow : step->takes) need[flow.material] += basis * flow.ratio.value;
    scaled.steps.insert(scaled.steps.begin(), scaled_step(recipe, *step, basis));
  }
  return scaled;
}

YieldRange yield_range(const Recipe& recipe) {
  YieldRange range;
  for (auto k = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
       k < recipe.steps.size(); ++k)
    for (const Flow& flow : recipe.steps[k].gives)
      if (flow.measured) {
        range.low *= flow.ratio.low / flow.ratio.value;
        range.high *= flow.ratio.high / flow.ratio.value;
      }
  return range;
}

double product_filling(const Recipe& recipe, quantity::Volume usable) {
  const int step = recipe.vessel_step();
  if (step < 0) return 0.0;
  const double fill = scale(recipe, 1.0).steps[static_cast<std::size_t>(step)].fill;
  return fill > 0.0 ? quantity::in_litres(usable) / fill : 0.0;
}

}  // namespace wheyfield::recipe
