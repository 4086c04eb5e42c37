// What a plan costs: worked out from the plan alone, whoever found it.
#pragma once

#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

struct Bill {
  Cost sessions = 0;  // setups held
  Cost units = 0;     // what is made, at each session's price
  Cost packs = 0;     // materials, in whole packs
  Cost waiting = 0;   // allowance for what is collected soon after it is ready
  Cost missed = 0;    // what stays short, at its miss cost
  Units short_units = 0;
  // What a planner makes as small as it can, `missed` before all else.
  Cost total() const { return sessions + units + packs + waiting + missed; }
};

Bill bill_of(const Problem& problem, const Plan& plan);

// Of one product alone, without packs.
Bill product_bill(const Problem& problem, const Plan& plan, std::size_t product);

// The cheapest packs that cover what `made` units of each product need beyond what is in hand:
// exact, by dynamic programming on the common measure of the pack sizes. `never` when something is
// needed and there are no packs.
Cost packs_for(const Material& material, const std::vector<std::int64_t>& made);

}  // namespace wheyfield::lot_sizing
