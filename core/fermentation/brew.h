// What was put together, as far as it changes how fast it turns sour. Asked of the keeper, never
// guessed; the default is the recipe: ten parts of raw milk and one of sour rice rinse-water.
//
//                      lactococci              lactobacilli            acid and lag
//   raw milk           its own                 a few of its own        longer lag if without
//   starter heated milk        lost                    lost
//   + rinse-water      none counted            its own, by its share
//   + serum of before  its own, by its share   its own, by its share   acid by its share
//   rinse-water alone  few                     few                     little buffer, little sugar
// The starter thins the milk: buffer and lactose are those of the milk's share. Heated milk without
// a starter holds nothing that grows in this model: its pH stays. Counts: rows of
// data/fermentation.toml, all assumptions; what was reproduced: docs/models/fermentation.md.
#pragma once

namespace wheyfield::fermentation {

enum class Liquid { milk, rinse_water };
enum class Milk { raw, heated };
// none: the milk's own bacteria alone; serum: sour serum of an earlier batch.
enum class Starter { none, rinse_water, serum };

// The share at which the rows of the table were stated: 1 L in 10 L of milk.
inline constexpr double usual_share = 1.0 / 11.0;

struct Brew {
  Liquid liquid = Liquid::milk;            // rinse-water ripens alone: the rest is not looked at
  Milk milk = Milk::raw;                   // heated: boiled or scalded, then cooled
  Starter starter = Starter::rinse_water;  // of the milk
  double starter_share = usual_share;      // its volume over the whole, 0 <= share < 1; 0 is none
};

}  // namespace wheyfield::fermentation
