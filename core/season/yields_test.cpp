#include "season/yields.h"

#include <gtest/gtest.h>
#include <support/small_season.h>

namespace wheyfield::season {
namespace {

using wheyfield::testing::farm;
using wheyfield::testing::field;
using wheyfield::testing::planned;
using wheyfield::testing::serum_recipe;

// Dressed maize: four uses of 200 mL an acre, one batch in half litres.
SeasonPlan one_batch(double acres) {
  Season s = wheyfield::testing::small_season();
  s.serum_life_days = 120;
  s.farms.push_back(farm(
      "1", 100,
      {field("maize", acres, calendar::Date::from_civil(2027, 3, 22), 125, crop::Seed::dressed)}));
  return planned(s);
}

// Common practice: 0.4 to 0.75 L of raw serum for each litre of milk where 0.5 L is likely, and
// 1.95 to 2.05 L of stored serum for each litre of raw serum: 0.78 to 1.5375 of what is planned.
TEST(SeasonYields, ALowYieldServesALittleUnderTwoAcresButNotFour) {
  const auto tight = batch_yields(serum_recipe(), one_batch(4));
  ASSERT_EQ(tight.size(), 1u);
  EXPECT_EQ(tight[0].low_ml, 2730);  // 3.5 L planned
  EXPECT_EQ(tight[0].high_ml, 5381);
  EXPECT_EQ(tight[0].drawn_ml, 3200);
  EXPECT_EQ(tight[0].missing_ml(), 470);
  const auto roomy = batch_yields(serum_recipe(), one_batch(1.9));
  ASSERT_EQ(roomy.size(), 1u);
  EXPECT_EQ(roomy[0].low_ml, 1560);  // 2 L planned
  EXPECT_EQ(roomy[0].drawn_ml, 1520);
  EXPECT_EQ(roomy[0].missing_ml(), 0);
}

}  // namespace
}  // namespace wheyfield::season
