// What to buy: needs of the whole season less what is in hand, in the packs that the market sells.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "outcome/result.h"
#include "season/plan.h"

namespace wheyfield::season {

struct PackChoice {
  Price pack;
  int count = 0;
};

struct ShoppingLine {
  std::string item;
  std::string unit;
  double need = 0.0;     // [unit]
  double in_hand = 0.0;  // of which the plan uses at most `need`
  std::vector<PackChoice> packs;
  Money cost;
  calendar::Date buy_on;  // last market day before the item is first needed
};

struct Shopping {
  std::vector<ShoppingLine> lines;
  Money total;
};

// The cheapest whole packs that cover `need`: exact, by dynamic programming on the common measure
// of the pack sizes; fewer packs when the cost is equal. Precondition: packs not empty, need >= 0.
std::vector<PackChoice> cheapest_packs(const std::vector<Price>& packs, double need);

// Bought inputs of what is made (without milk, which has its own rules), and the equipment for the
// first of it. Precondition: made is not empty.
// Errors: price-missing (field /prices, value = the item), one for each item without a price;
// price-unit (field /prices/<i>/pack) when a pack is in another unit than the need.
outcome::Result<Shopping> shopping(const Season& season, const std::vector<Making>& made,
                                   const reference_data::ReferenceData& data);

}  // namespace wheyfield::season
