// What a litre and an acre-season cost, with own milk and own labour priced.
//
//   litre        = (bought + milk + making labour) / litres of stored serum handed out, or made
//   acre-season  = (bought + milk + making labour + water carried) / acres of the group
// Milk counts at the season's price whether bought or own; labour at the day wage over its hours.
// Water is carried in whole cans of the farm, rounded up for each use of a field. Work of putting
// it on the field is not counted here. Packs count whole, as paid. Seed that nobody weighed takes a
// share that is not known: what is kept for it counts neither as handed out nor as water carried.
#pragma once

#include "recipe/recipe.h"
#include "season/plan.h"
#include "season/shopping.h"

namespace wheyfield::economics {

using quantity::Money;

struct SeasonCost {
  Money bought;  // packs of the shopping list for serum
  Money milk;    // own or bought, at the season's price
  Money labour;  // making: hours of each step
  Money water;   // cans carried to the fields
  double labour_hours = 0.0;
  long long cans = 0;              // of water, for the uses that are served
  double litres_made = 0.0;        // stored serum, spares included
  double litres_handed_out = 0.0;  // of what is made
  double litres_kept = 0.0;        // of what is made, for seed that is weighed at the hand-out
  Money total() const { return bought + milk + labour + water; }
  Money cash() const { return bought; }
  // What a litre that reaches a field costs. Zero when nothing is made.
  Money per_litre_handed_out() const;
  // The same money over all that is made: less, as spares and rests count too.
  Money per_litre_made() const;
  Money per_acre(quantity::Area area) const;
};

// What making the season's preparations costs beside: milk and making labour. What is bought for
// them is on the shopping list.
struct MakingCost {
  Money milk;
  Money labour;
  double labour_hours = 0.0;
};
MakingCost making_cost(const season::Season& season, const std::vector<season::Making>& made);

// From the data: negligible-load, for the cans of water.
SeasonCost season_cost(const season::Season& season, const recipe::Recipe& recipe,
                       const season::SeasonPlan& plan, const season::Shopping& shopping,
                       double negligible);

}  // namespace wheyfield::economics
