#include "compost/best_mix.h"

#include <cstddef>
#include <utility>

#include "numerics/linear_program.h"

namespace wheyfield::compost {
namespace {

using numerics::LinearProgram;
using Relation = LinearProgram::Relation;

// Columns: the offers, and how far limits are overstepped: carbon short, carbon too much, water too
// much. A mix that has to keep all limits has these closed.
struct Columns {
  std::size_t carbon_short, carbon_over, water_over;
};

struct Model {
  LinearProgram programme;
  Columns at;
};

Model model_of(const std::vector<Offer>& offers, const Aim& aim, double overstep) {
  Model model;
  LinearProgram& lp = model.programme;
  for (const Offer& offer : offers)
    lp.add_column(offer.price, offer.at_least, offer.at_most.value_or(numerics::no_bound));
  const auto oversteps = [&] { return lp.add_column(0.0, 0.0, overstep); };
  model.at.carbon_short = oversteps();
  model.at.carbon_over = oversteps();
  model.at.water_over = oversteps();
  const auto row = [&](auto factor, Relation relation, double side) {
    std::vector<double> factors;
    for (const Offer& offer : offers) factors.push_back(factor(offer.what));
    factors.resize(lp.costs.size(), 0.0);
    lp.add_row(std::move(factors), relation, side);
  };
  const auto carbon = [](double ratio) {
    return [ratio](const Contents& c) {
      return (1.0 - c.moisture / 100.0) * (c.carbon - ratio * c.nitrogen) / 100.0;
    };
  };
  const auto wet = [&aim](const Contents& c) { return (c.moisture - aim.moisture_high) / 100.0; };
  row(carbon(aim.ratio_low), Relation::at_least, 0.0);
  lp.rows.back().factors[model.at.carbon_short] = 1.0;
  row(carbon(aim.ratio_high), Relation::at_most, 0.0);
  lp.rows.back().factors[model.at.carbon_over] = -1.0;
  row(wet, Relation::at_most, 0.0);
  lp.rows.back().factors[model.at.water_over] = -1.0;
  if (aim.litres > 0.0)
    row([](const Contents& c) { return 1000.0 / *c.density; }, Relation::at_least, aim.litres);
  return model;
}

// The least of each list of costs in turn, each without giving up what the earlier ones reached.
std::optional<numerics::LinearSolution> in_turn(LinearProgram lp,
                                                const std::vector<std::vector<double>>& wishes) {
  std::optional<numerics::LinearSolution> best;
  for (const std::vector<double>& costs : wishes) {
    lp.costs = costs;
    auto solution = numerics::solve(lp);
    if (solution.status != numerics::LinearSolution::Status::optimal) return best;
    // A hair of room, or rounding would leave the next wish no mix at all.
    lp.add_row(costs, Relation::at_most, solution.objective + 1e-9 * (1.0 + solution.objective));
    best = std::move(solution);
  }
  return best;
}

std::vector<double> only(const Model& model, std::initializer_list<std::size_t> columns) {
  std::vector<double> costs(model.programme.costs.size(), 0.0);
  for (const std::size_t column : columns) costs[column] = 1.0;
  return costs;
}

std::vector<double> weight(const Model& model) {
  std::vector<double> costs = only(model, {});
  for (std::size_t j = 0; j < model.at.carbon_short; ++j) costs[j] = 1.0;
  return costs;
}

std::optional<BestMix> mix_of(const std::optional<numerics::LinearSolution>& solution,
                              const std::vector<Offer>& offers) {
  if (!solution) return std::nullopt;
  BestMix mix;
  for (std::size_t i = 0; i < offers.size(); ++i) {
    mix.kg.push_back(solution->values[i]);
    mix.cost += offers[i].price * solution->values[i];
  }
  return mix;
}

}  // namespace

std::optional<BestMix> cheapest_mix(const std::vector<Offer>& offers, const Aim& aim) {
  const Model model = model_of(offers, aim, 0.0);
  return mix_of(in_turn(model.programme, {model.programme.costs, weight(model)}), offers);
}

std::optional<BestMix> nearest_mix(const std::vector<Offer>& offers, const Aim& aim) {
  const Model model = model_of(offers, aim, numerics::no_bound);
  return mix_of(
      in_turn(model.programme, {only(model, {model.at.carbon_short, model.at.carbon_over}),
                                only(model, {model.at.water_over}), weight(model)}),
      offers);
}

}  // namespace wheyfield::compost
