// A recipe made to size: never an unscaled quantity in front of the group.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "recipe/recipe.h"

namespace wheyfield::recipe {

// Decimals of an amount in its own unit (a gram, a millilitre), wherever it is shown.
constexpr int amount_places = 3;

struct ScaledFlow {
  std::string material;
  double amount;  // likely [unit of the material]
  double low;     // by the yield range, same basis
  double high;
  bool measured = false;
};

struct ScaledStep {
  std::string step;
  double fill;  // [L] that stands in the vessel of the step: volumes taken in
  std::vector<ScaledFlow> takes;
  std::vector<ScaledFlow> gives;
};

struct Scaled {
  double product;  // [unit of the product]
  std::vector<ScaledStep> steps;

  // Total of a material taken from outside, 0 when the recipe does not take it.
  double taken(const std::string& material) const;
};

// Amounts that give `product` at the likely yields. Linear in `product`.
// Precondition: `check(recipe)` found nothing; product >= 0.
Scaled scale(const Recipe& recipe, double product);

// What measured yields may bring, as factors of the planned product: the lowest and the highest
// ratio of every `measured` flow from the season vessel on, over the likely one.
struct YieldRange {
  double low = 1.0;
  double high = 1.0;
};
YieldRange yield_range(const Recipe& recipe);

// The product that fills the season vessel up to `usable` (its fill line); 0 when no step of the
// recipe stands in a season vessel.
double product_filling(const Recipe& recipe, quantity::Volume usable);

}  // namespace wheyfield::recipe
