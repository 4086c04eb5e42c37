#include "nutrients/nutrients.h"

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::nutrients {
namespace {

Sourced figure(double value, const char* unit = "") { return {value, value, value, unit, {}}; }
Sourced between(double low, double value, double high) { return {value, low, high, "", {}}; }

const NutrientTables& nutrient_tables() {
  static const NutrientTables tables = NutrientTables::parse(wheyfield::testing::bundle()).value();
  return tables;
}

const Content heap{"compost", figure(40), figure(1.5), figure(0.4), figure(1.5), figure(0.2)};
constexpr Oxides by_mass{2.2913, 1.2046};

// Worked out in the planning papers of this project from 1000 (1 - M) x share: 40 % moisture and
// 1.5-0.4-1.5 % N-P-K of the dry matter give 9.0 N, 5.50 P2O5, 10.84 K2O in a tonne.
TEST(Nutrients, ATonneOfCompostHoldsWhatItsDryMatterHolds) {
  const Nutrients in = contained(heap, quantity::kilograms(1000), by_mass);
  EXPECT_NEAR(in.n->low, 9.0, 1e-9);
  EXPECT_NEAR(in.p2o5->low, 5.50, 0.005);
  EXPECT_NEAR(in.k2o->high, 10.84, 0.005);
}

// Molar masses (IUPAC 2021, abridged): P 30.974, K 39.098, O 15.999.
TEST(Nutrients, OxidesFollowFromMolarMasses) {
  EXPECT_NEAR(nutrient_tables().oxides().phosphate, (2 * 30.974 + 5 * 15.999) / (2 * 30.974), 2e-4);
  EXPECT_NEAR(nutrient_tables().oxides().potash, (2 * 39.098 + 15.999) / (2 * 39.098), 2e-4);
}

// Three tonnes of maize by the Ontario table, its middle: 43.8 N, 21.75 P2O5, 14.7 K2O.
TEST(Nutrients, ThreeTonnesOfMaizeTakeWhatTheTableSays) {
  const Removal& maize = *nutrient_tables().removals("maize").front();
  EXPECT_NEAR(*maize.likely_nitrogen(quantity::kilograms(3000)), 43.8, 1e-9);
  EXPECT_NEAR(3 * maize.p2o5.value, 21.75, 1e-9);
  EXPECT_NEAR(3 * maize.k2o.value, 14.7, 1e-9);
  const Nutrients taken = maize.taken_by(quantity::kilograms(3000));
  EXPECT_NEAR(taken.n->low, 34.5, 1e-9);
  EXPECT_NEAR(taken.n->high, 53.1, 1e-9);
}

// Five sprays of 200 L/ha at 1:500 are 2 L of serum; at 1.3 g nitrogen a litre (whey, memory) that
// is 2.6 g a hectare, 0.006 % of what 3 t of maize take.
TEST(Nutrients, FiveSerumSpraysBringTwoPointSixGramsOfNitrogen) {
  const SerumContent whey{figure(1.3), figure(0), figure(0)};
  const Nutrients brought = contained(whey, quantity::litres(5 * 200.0 / 500.0), by_mass);
  EXPECT_NEAR(1000 * brought.n->low, 2.6, 1e-9);
  EXPECT_NEAR(100 * brought.n->low / 43.8, 0.006, 0.0005);
}

// The same paper: 4.9 t hold 43.8 kg of nitrogen; at 20 % in the first year it takes 24 t.
TEST(Nutrients, CompostToMatchTheNitrogenOfAHarvest) {
  const Match match = to_match(heap, 43.8);
  EXPECT_NEAR(quantity::in_kilograms(match.holds), 4900, 50);
  EXPECT_NEAR(quantity::in_kilograms(*match.frees), 24000, 500);
  Content unknown = heap;
  unknown.release.reset();
  EXPECT_FALSE(to_match(unknown, 43.8).frees);
}

TEST(Nutrients, WetAndPoorIsTheLeastDryAndRichTheMost) {
  const Content wide{"",
                     between(30, 40, 60),
                     between(1, 1.5, 2),
                     between(0, 0, 0),
                     between(0, 0, 0),
                     between(0.1, 0.2, 0.3)};
  const Nutrients in = contained(wide, quantity::kilograms(1000), by_mass);
  EXPECT_NEAR(in.n->low, 4.0, 1e-9);
  EXPECT_NEAR(in.n->high, 14.0, 1e-9);
  EXPECT_NEAR(first_year(wide, in)->low, 0.4, 1e-9);
  EXPECT_NEAR(first_year(wide, in)->high, 4.2, 1e-9);
}

TEST(Nutrients, OfALegumesNitrogenOnlyTheSoilsPartIsTaken) {
  Removal row{"", "", figure(40), figure(10), figure(10), figure(0.75)};
  EXPECT_NEAR(row.taken_by(quantity::kilograms(100)).n->high, 1.0, 1e-9);
  EXPECT_NEAR(*row.likely_nitrogen(quantity::kilograms(100)), 1.0, 1e-9);
  row.from_air.reset();
  EXPECT_NEAR(row.taken_by(quantity::kilograms(100)).n->high, 4.0, 1e-9);
}

TEST(Nutrients, TablesThatDisagreeSpanTheirRangesTogether) {
  const auto rows = nutrient_tables().removals("maize");
  ASSERT_EQ(rows.size(), 2u);
  const Nutrients all = taken_by_all(rows, quantity::kilograms(1000));
  EXPECT_NEAR(all.n->low, 8.3, 1e-9);  // the tropical set
  EXPECT_NEAR(all.n->high, 19.1, 1e-9);
  EXPECT_NEAR(all.p2o5->high, 6.5 * 2.2913, 1e-9);
  EXPECT_NEAR(all.k2o->low, 1.7 * 1.2046, 1e-9);
}

TEST(Nutrients, WhatIsNotKnownStaysNotKnown) {
  const Nutrients pods =
      nutrient_tables().removals("green-bean").front()->taken_by(quantity::kilograms(10));
  EXPECT_FALSE(pods.n);
  EXPECT_FALSE((pods - pods).n);
  EXPECT_FALSE((pods + pods).n);
  EXPECT_TRUE((pods - pods).k2o);
}

// Property: a balance turns round with its sides, and more brought is never less left.
TEST(Nutrients, BalancesTurnRoundWithTheirSides) {
  const Range a{1, 4}, b{2, 3};
  EXPECT_EQ((a - b).low, -(b - a).high);
  EXPECT_EQ((a - b).high, -(b - a).low);
  for (double kg = 10; kg < 1e4; kg *= 2) {
    const Nutrients less = contained(heap, quantity::kilograms(kg), by_mass);
    const Nutrients more = contained(heap, quantity::kilograms(2 * kg), by_mass);
    EXPECT_NEAR(more.n->low, 2 * less.n->low, 1e-9);
  }
}

// No share of any table is beyond what plants and dung can hold: protein is 16 % nitrogen, so 17 %
// of the dry matter is out of reach for all of them.
TEST(Nutrients, NoRowIsImpossible) {
  for (const std::string& id : nutrient_tables().contents()) {
    const Content& content = *nutrient_tables().content(id);
    EXPECT_LT(content.n.high, 17.0) << id;
    EXPECT_LT(content.moisture.high, 100.0) << id;
  }
  for (const std::string& crop : nutrient_tables().crops())
    for (const Removal* row : nutrient_tables().removals(crop))
      EXPECT_LT(row->n ? row->n->high : 0.0, 170.0) << crop;
}

}  // namespace
}  // namespace wheyfield::nutrients
