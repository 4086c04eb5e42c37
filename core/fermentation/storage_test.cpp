#include "fermentation/storage.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::fermentation {
namespace {

const StorageData& storage() {
  static const StorageData read = StorageData::of(testing::bundle());
  return read;
}

double activity_of_sucrose(double percent) {
  Solution solution;
  solution.sucrose = percent / 100.0;
  return water_activity(storage(), solution);
}

// Three formulas, computed outside of this program: Norrish with 6.47, Money and Born
// 1/(1 + 0.27 n) with n mol in 100 g of water, and the form of Starzak and Peacock with constants
// from memory. Ours must be the first, and within 0.01 of the others' middle up to 65 %.
TEST(FermentationStorage, WaterActivityOfSucrose) {
  const struct {
    double percent, norrish, money_born, starzak;
  } rows[] = {{40, 0.9589, 0.9500, 0.9585}, {49, 0.9377, 0.9296, 0.9371},
              {50, 0.9348, 0.9269, 0.9341}, {60, 0.8953, 0.8942, 0.8947},
              {65, 0.8654, 0.8722, 0.8654}, {67.9, 0.8433, 0.8571, 0.8441}};
  for (const auto& row : rows) {
    const double ours = activity_of_sucrose(row.percent);
    EXPECT_NEAR(ours, row.norrish, 0.00006) << row.percent;
    EXPECT_NEAR(ours, row.starzak, 0.01) << row.percent;
    EXPECT_NEAR(1.0 / (1.0 + 0.27 * row.percent / 342.3 * 100.0 / (100.0 - row.percent)),
                row.money_born, 0.0002)
        << row.percent;
    EXPECT_NEAR(ours, row.money_born, 0.014) << row.percent;
  }
}

// Sucrose tables at 20 C (published to 50 %, from memory above). Saturated: 67.09 % and
// 1332.7 kg/m3 are published, straight between rows gives 1330.
TEST(FermentationStorage, DensityOfSucrose) {
  EXPECT_EQ(sugar_density(storage(), 0), 0.9982);
  EXPECT_EQ(sugar_density(storage(), 10), 1.0381);
  EXPECT_EQ(sugar_density(storage(), 50), 1.2296);
  EXPECT_EQ(sugar_density(storage(), 85), 1.4454);
  EXPECT_NEAR(sugar_density(storage(), 67.09), 1.3296, 0.0001);
  EXPECT_NEAR(sugar_density(storage(), 67.09), 1.3327, 0.004);
}

// A forerunner's table of serum to molasses by volume, with a composition of its own: printed to
// 0.01 of water activity for the thick mixes.
TEST(FermentationStorage, MixesOfSerumAndMolasses) {
  const struct {
    double serum, brix, sugars, a80, a75, a85;
  } rows[] = {{0, 80, 706, 0.64, 0.73, 0.52},
              {0.25, 68.6, 574, 0.80, 0.84, 0.75},
              {0.5, 60.3, 486, 0.86, 0.88, 0.83},
              {1, 48.9, 375, 0.914, 0.925, 0.901},
              {2, 36.1, 265, 0.95, 0.955, 0.944}};
  for (const auto& row : rows) {
    const StoredMix mix = stored_mix(storage(), row.serum, 1.0, 80.0);
    EXPECT_NEAR(mix.brix, row.brix, 0.1) << row.serum;
    EXPECT_NEAR(mix.sugars, row.sugars, 3.0) << row.serum;
    const double error = row.serum > 0 ? 0.007 : 0.01;
    EXPECT_NEAR(mix.water_activity, row.a80, error) << row.serum;
    EXPECT_NEAR(stored_mix(storage(), row.serum, 1.0, 75.0).water_activity, row.a75, error);
    EXPECT_NEAR(stored_mix(storage(), row.serum, 1.0, 85.0).water_activity, row.a85, error);
  }
}

TEST(FermentationStorage, EqualVolumes) {
  const StoredMix mix = stored_mix(storage(), 1.0, 1.0, 80.0);
  EXPECT_NEAR(mix.brix, 48.9, 0.05);
  EXPECT_NEAR(mix.density, 1.218, 0.0006);
  EXPECT_NEAR(mix.litres, 2.0, 1e-12);
  // As pure sucrose of the same Brix it would be 0.938.
  EXPECT_NEAR(activity_of_sucrose(mix.brix), 0.938, 0.001);
}

// The same forerunner: litres of serum to a litre of molasses of 80 Brix for a water activity.
TEST(FermentationStorage, SerumForAWaterActivity) {
  EXPECT_NEAR(stored_mix(storage(), 0.63, 1.0, 80.0).water_activity, 0.88, 0.005);
  EXPECT_NEAR(stored_mix(storage(), 0.45, 1.0, 80.0).water_activity, 0.85, 0.005);
  EXPECT_NEAR(stored_mix(storage(), 0.26, 1.0, 80.0).water_activity, 0.80, 0.005);
}

// 2 L with 0.2 L of headspace and 750 g of sugar: printed to two figures.
TEST(FermentationStorage, GasAndPressure) {
  const struct {
    double share, litres, bar;
  } rows[] = {{0.005, 1.0, 0.9}, {0.01, 2.0, 1.7}, {0.02, 4.1, 3.4}, {0.05, 10.0, 8.6}};
  for (const auto& row : rows) {
    const double gas = gas_litres(750.0, row.share);
    EXPECT_NEAR(gas, row.litres, 0.04 * row.litres) << row.share;
    EXPECT_NEAR(gauge_pressure(storage(), gas, 2.0, 0.2), row.bar, 0.05) << row.share;
  }
}

TEST(FermentationStorage, MoreSerumIsThinnerAndWetter) {
  StoredMix before = stored_mix(storage(), 0.0, 1.0, 80.0);
  for (double serum = 0.1; serum < 5.0; serum += 0.1) {
    const StoredMix mix = stored_mix(storage(), serum, 1.0, 80.0);
    EXPECT_LT(mix.brix, before.brix);
    EXPECT_LT(mix.density, before.density);
    EXPECT_GT(mix.water_activity, before.water_activity);
    EXPECT_LT(mix.water_activity, 1.0);
    before = mix;
  }
  EXPECT_GT(gauge_pressure(storage(), 2.0, 2.0, 0.1), gauge_pressure(storage(), 2.0, 2.0, 0.5));
}

TEST(FermentationStorage, OnlyTheRatioCounts) {
  const StoredMix small = stored_mix(storage(), 0.3, 0.2, 78.0);
  const StoredMix large = stored_mix(storage(), 30.0, 20.0, 78.0);
  EXPECT_NEAR(small.water_activity, large.water_activity, 1e-12);
  EXPECT_NEAR(small.sugars, large.sugars, 1e-9);
}

}  // namespace
}  // namespace wheyfield::fermentation
