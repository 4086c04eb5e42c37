// The planning problem as room lot_sizing knows it, and its answer as batches.
//
// Each preparation of the season is a product. A session is a chain of steps pinned on the day its
// vessels are filled, at one place and, where a step is forecast, with one kind of milk; its setups
// are the choices of vessels there, none of which could be left out. Vessels of one place that hold
// as much of every product, and the same milk where it counts, are one resource; the
// hours that the group can give are another, counted by quarters of an hour. Amounts go by units of
// `unit_ml`, 100 mL unless much is due (1 L above 400 L); what is due is rounded up in a row, so
// that all together gain less than one unit.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "lot_sizing/problem.h"
#include "lot_sizing/product_program.h"
#include "season/batch_chain.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

constexpr std::int64_t finest_ml = 10;  // the least unit of any problem

// One of the preparations planned together, all of one season. Both outlive what is made of them.
struct Prepared {
  const BatchProblem* problem = nullptr;
  ChainTable* chains = nullptr;  // of the problem
};

struct LotProblem {
  lot_sizing::Problem problem;  // a product for each preparation
  calendar::Date day0;
  std::vector<std::int64_t> unit_ml;            // of each product
  std::vector<std::vector<std::size_t>> kinds;  // vessels of each resource but the hands
  struct Pinned {
    std::size_t place;
    std::optional<Milk> milk;  // of its vessels; none: it does not count
    calendar::Date fill_day;

    bool takes(const Vessel& vessel) const {
      return vessel.place == place && (!milk || *milk == vessel.milk);
    }
  };
  std::vector<std::vector<Pinned>> sessions;  // as in each product
};

// The steps of a batch in the session's vessels.
inline const std::optional<std::vector<BatchStep>>& chain_of(const Prepared& one,
                                                             const LotProblem::Pinned& at) {
  return one.chains->at(at.place, at.milk.value_or(Milk::heated_cooled), at.fill_day);
}

// How what is due becomes whole units: in a row, or each day's for itself, which asks for more and
// leaves no millilitre short where a lot spoils within a unit.
// `in_favour` rounds what is due each day down and what vessels, milk, hands and stock hold up, on
// a unit of 10 mL, or the least that keeps to 4,000 units: what is short then is short in truth.
// `finely` is in a row by the finest unit, too.
enum class Rounding { in_a_row, each, finely, in_favour };

LotProblem to_lots(const std::vector<Prepared>& all, Rounding rounding = Rounding::in_a_row);

// The planned batches as sessions that are held, in whole units; spares are left out. A choice of
// vessels that `lots` does not have is added to it. `plans` as `all`.
lot_sizing::Plan to_lot_plan(const std::vector<Prepared>& all, const std::vector<BatchPlan>& plans,
                             LotProblem& lots);

// For each preparation batches in order of their start, with draws for each demand. `plan` keeps
// the limits of `lots`. When something stays short, batches are filled up to what vessel and milk
// hold, at most a unit more each.
std::vector<BatchPlan> from_lots(const std::vector<Prepared>& all, const LotProblem& lots,
                                 const lot_sizing::Plan& plan);

// No plan leaves less short than this [mL], spares, cans, money, smallest batches and other
// preparations set aside. Proven: a bound of the planner's programme with nothing but misses to
// pay.
std::int64_t least_short_ml(const BatchProblem& problem, const lot_sizing::Effort& effort = {});

// The first day on which any batch can be ready, by the first start, the milk and the vessels.
// None when none can until the season's end.
std::optional<calendar::Date> earliest_ready(const BatchProblem& problem);

}  // namespace wheyfield::season
