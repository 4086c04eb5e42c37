#include "lot_sizing/limits.h"

#include <algorithm>
#include <set>
#include <utility>

#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {
namespace {

const Session& session_of(const Problem& problem, const Held& held) {
  return problem.products[held.product].sessions[held.session];
}

std::vector<Broken> bad_sessions(const Problem& problem, const Plan& plan) {
  std::vector<Broken> broken;
  std::set<std::pair<std::size_t, std::size_t>> seen;
  for (std::size_t i = 0; i < plan.held.size(); ++i) {
    const Held& held = plan.held[i];
    if (held.product >= problem.products.size() ||
        held.session >= problem.products[held.product].sessions.size() ||
        held.setup >= session_of(problem, held).setups.size()) {
      broken.push_back({Limit::no_such_session, i, 0});
      continue;
    }
    if (!seen.insert({held.product, held.session}).second)
      broken.push_back({Limit::held_twice, i, 0});
    const Setup& setup = session_of(problem, held).setups[held.setup];
    if (held.units < setup.least || held.units > setup.most)
      broken.push_back({Limit::lot_size, i, 0});
  }
  return broken;
}

// Cans that a product fills at the end of each day 0..days.
std::vector<int> cans_filled(const Problem& problem, const Plan& plan, std::size_t r) {
  const Product& product = problem.products[r];
  const std::vector<Lot> lots = lots_of(problem, plan, r);
  const Served served = serve(product, lots);
  std::vector<std::int64_t> units(static_cast<std::size_t>(problem.days) + 1, 0);
  const auto on = [&](int day) -> std::int64_t& {
    return units[static_cast<std::size_t>(std::clamp(day, 0, problem.days))];
  };
  for (std::size_t d = 0; d < product.due.size(); ++d)
    for (const Served::Draw& draw : served.draws[d]) {
      on(lots[draw.lot].ready) += draw.units;
      on(product.due[d].collect) -= draw.units;
    }
  for (std::size_t day = 1; day < units.size(); ++day) units[day] += units[day - 1];
  std::vector<int> cans;
  for (const std::int64_t u : units)
    cans.push_back(static_cast<int>((u + product.units_per_can - 1) / product.units_per_can));
  return cans;
}

}  // namespace

Left all_of(const Problem& problem) {
  Left left;
  for (const Resource& resource : problem.resources) left.resource.push_back(resource.capacity);
  left.supply = problem.supplies;
  if (problem.cans >= 0) left.cans.assign(static_cast<std::size_t>(problem.days) + 1, problem.cans);
  return left;
}

Left without(const Problem& problem, Left left, const Plan& plan) {
  for (const Held& held : plan.held) {
    const Session& session = session_of(problem, held);
    for (const Take& take : session.setups[held.setup].takes)
      for (int day = std::max(0, take.from); day < std::min(problem.days, take.to); ++day)
        left.resource[static_cast<std::size_t>(take.resource)][static_cast<std::size_t>(day)] -=
            take.amount;
    if (session.supply >= 0)
      left.supply[static_cast<std::size_t>(session.supply)] -= session.supply_per_unit * held.units;
  }
  if (left.cans.empty()) return left;
  for (std::size_t r = 0; r < problem.products.size(); ++r) {
    if (problem.products[r].units_per_can == 0) continue;
    const std::vector<int> cans = cans_filled(problem, plan, r);
    for (std::size_t day = 0; day < cans.size(); ++day) left.cans[day] -= cans[day];
  }
  return left;
}

std::vector<Broken> broken_within(const Problem& problem, const Left& left, const Plan& plan) {
  std::vector<Broken> broken;
  const Left rest = without(problem, left, plan);
  for (std::size_t k = 0; k < rest.resource.size(); ++k)
    for (std::size_t day = 0; day < rest.resource[k].size(); ++day)
      if (rest.resource[k][day] < 0) broken.push_back({Limit::resource, k, static_cast<int>(day)});
  for (std::size_t s = 0; s < rest.supply.size(); ++s)
    if (rest.supply[s] < 0) broken.push_back({Limit::supply, s, 0});
  for (std::size_t day = 0; day < rest.cans.size(); ++day)
    if (rest.cans[day] < 0) broken.push_back({Limit::cans, 0, static_cast<int>(day)});
  return broken;
}

std::vector<Broken> broken_limits(const Problem& problem, const Plan& plan) {
  std::vector<Broken> broken = bad_sessions(problem, plan);
  if (!broken.empty() && broken.front().limit == Limit::no_such_session) return broken;
  for (const Broken& b : broken_within(problem, all_of(problem), plan)) broken.push_back(b);
  return broken;
}

}  // namespace wheyfield::lot_sizing
