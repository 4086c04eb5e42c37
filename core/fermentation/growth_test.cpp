#include "fermentation/growth.h"

#include <cmath>

#include <gtest/gtest.h>

namespace wheyfield::fermentation {
namespace {

constexpr CardinalTemperatures plantarum_in_milk{7.8, 34.7, 41.0};
constexpr CardinalTemperatures lactococci{4.8, 33.0, 40.0};
constexpr CardinalPh tolerant_ph{3.37, 6.0, 8.5};

// Law: Rosso et al. (1995), AEM 61:610. Cardinal values: L. plantarum in milk, published (abstract;
// data/fermentation.toml). The shares were computed for this project outside of this program.
TEST(FermentationGrowth, TemperatureSharesOfPlantarumInMilk) {
  const struct {
    double celsius, share;
  } rows[] = {{10, 0.01067}, {15, 0.11105}, {20, 0.30603}, {25, 0.57098},
              {30, 0.85150}, {34.7, 1.0},   {38, 0.83182}, {40, 0.41145}};
  for (const auto& row : rows)
    EXPECT_NEAR(temperature_share(row.celsius, plantarum_in_milk), row.share, 0.000006)
        << row.celsius;
}

TEST(FermentationGrowth, NothingGrowsAtAndOutsideTheCardinalTemperatures) {
  for (const double celsius : {-5.0, 0.0, 7.8, 41.0, 45.0})
    EXPECT_EQ(temperature_share(celsius, plantarum_in_milk), 0.0) << celsius;
  for (const double celsius : {7.9, 40.9})
    EXPECT_GT(temperature_share(celsius, plantarum_in_milk), 0.0) << celsius;
}

// Source: S. aureus and a mixed mesophilic culture in milk, Medvedova et al. (2019), Fermentation
// 5:2 and Ital. J. Food Safety 8:8287: cardinal values and optimal rates published; the rates at
// the temperatures below computed from them.
TEST(FermentationGrowth, RatesOfStaphylococcusAndOfAMixedCulture) {
  const struct {
    CardinalTemperatures cardinal;
    double rate, celsius, expected;
  } rows[] = {{{7.7, 40.6, 46.7}, 1.97, 10, 0.0139}, {{7.7, 40.6, 46.7}, 1.97, 20, 0.3857},
              {{7.7, 40.6, 46.7}, 1.97, 25, 0.7427}, {{7.7, 40.6, 46.7}, 1.97, 30, 1.1837},
              {{7.7, 40.6, 46.7}, 1.97, 37, 1.8118}, {{4.0, 38.3, 49.6}, 1.56, 15, 0.2884},
              {{4.0, 38.3, 49.6}, 1.56, 21, 0.6372}, {{4.0, 38.3, 49.6}, 1.56, 30, 1.2433}};
  for (const auto& row : rows)
    EXPECT_NEAR(row.rate * temperature_share(row.celsius, row.cardinal), row.expected, 0.00006)
        << row.rate << " at " << row.celsius;
}

// Source: L. plantarum in milk and in a broth (data/fermentation.toml; the broth published with
// it); rates computed outside of this program. In a broth with salt and lactate another strain was
// published at 0.0042, 0.050 and 0.054 per hour (JFQ 2018:1726761): strains differ by 2 in the
// cold.
TEST(FermentationGrowth, RatesOfPlantarumInTheCold) {
  const struct {
    double celsius, milk, broth;
  } rows[] = {{7, 0.0, 0.022}, {13, 0.0305, 0.104}, {16, 0.0744, 0.168}};
  for (const auto& row : rows) {
    EXPECT_NEAR(0.52 * temperature_share(row.celsius, plantarum_in_milk), row.milk, 0.00006);
    EXPECT_NEAR(0.81 * temperature_share(row.celsius, {2.0, 36.6, 41.0}), row.broth, 0.0006);
  }
}

// Computed: the fast population of this model, 1.10 per hour at best.
TEST(FermentationGrowth, RatesOfTheFastPopulation) {
  const struct {
    double celsius, rate;
  } rows[] = {{10, 0.0604}, {15, 0.2240}, {20, 0.4718}, {25, 0.7677}, {30, 1.0321}};
  for (const auto& row : rows)
    EXPECT_NEAR(1.10 * temperature_share(row.celsius, lactococci), row.rate, 0.00006)
        << row.celsius;
}

// Law: Rosso et al. (1995). Lowest pH 3.37: Passos et al. (1993), published; 6.0 and 8.5 assumed.
// The shares were computed outside of this program.
TEST(FermentationGrowth, PhSharesOfTheTolerantPopulation) {
  const struct {
    double ph, share;
  } rows[] = {{3.6, 0.16364}, {4.0, 0.41478}, {4.6, 0.70993},
              {5.0, 0.85086}, {5.5, 0.96235}, {7.0, 0.84484}};
  for (const auto& row : rows)
    EXPECT_NEAR(ph_share(row.ph, tolerant_ph), row.share, 0.000006) << row.ph;
  for (const double ph : {2.0, 3.37, 8.5, 9.0}) EXPECT_EQ(ph_share(ph, tolerant_ph), 0.0) << ph;
}

TEST(FermentationGrowth, EachShareLiesBetweenNoneAndAllAndIsAllAtTheOptimum) {
  for (int i = -100; i <= 600; ++i) {
    const double at = temperature_share(i / 10.0, lactococci);
    EXPECT_GE(at, 0.0) << i;
    EXPECT_LE(at, 1.0 + 1e-12) << i;
  }
  for (int i = 0; i <= 140; ++i) {
    const double at = ph_share(i / 10.0, tolerant_ph);
    EXPECT_GE(at, 0.0) << i;
    EXPECT_LE(at, 1.0 + 1e-12) << i;
  }
  EXPECT_NEAR(temperature_share(33.0, lactococci), 1.0, 1e-12);
  EXPECT_NEAR(ph_share(6.0, tolerant_ph), 1.0, 1e-12);
}

// Presser et al. (1997), AEM 63:2355: linear in the undissociated acid; values by hand.
TEST(FermentationGrowth, AcidSlowsInAStraightLineAndStopsAtTheLimit) {
  EXPECT_DOUBLE_EQ(acid_share(0.0, 22.0), 1.0);
  EXPECT_DOUBLE_EQ(acid_share(5.5, 22.0), 0.75);
  EXPECT_DOUBLE_EQ(acid_share(22.0, 22.0), 0.0);
  EXPECT_DOUBLE_EQ(acid_share(40.0, 22.0), 0.0);
}

// Henderson and Hasselbalch; computed. pKa 3.86 is the convention of the papers on limits of
// growth, 3.71 that of Wemmenhove (2017), Food Control, for cheese serum.
TEST(FermentationGrowth, UndissociatedLacticAcid) {
  const struct {
    double ph, pka, share;
  } rows[] = {{4.6, 3.86, 0.1540},
              {4.2, 3.86, 0.3137},
              {3.9, 3.86, 0.4770},
              {3.5, 3.86, 0.6961},
              {4.6, 3.71, 0.1141}};
  for (const auto& row : rows)
    EXPECT_NEAR(undissociated_share(row.ph, row.pka), row.share, 0.00006) << row.ph;
}

// Computed: (0.0283 x 21)^2 = 0.5943^2.
TEST(FermentationGrowth, RatkowskysSquareRoot) {
  EXPECT_NEAR(ratkowsky_rate(25.0, 0.0283, 4.0), 0.3532, 0.00005);
  EXPECT_EQ(ratkowsky_rate(3.0, 0.0283, 4.0), 0.0);
}

// Far below the optimum the square root of the share rises in a straight line from the minimum.
TEST(FermentationGrowth, TheTemperatureShareBeginsAsRatkowskysLaw) {
  const double b = std::sqrt(temperature_share(7.8 + 0.001, plantarum_in_milk)) / 0.001;
  EXPECT_NEAR(temperature_share(8.3, plantarum_in_milk), ratkowsky_rate(8.3, b, 7.8),
              0.01 * ratkowsky_rate(8.3, b, 7.8));
}

// Law: Baranyi and Roberts (1994); computed outside of this program.
TEST(FermentationGrowth, BaranyisClosedForm) {
  const BaranyiGrowth growth{0.4, 1.0, 1e5, 1e9};
  EXPECT_NEAR(baranyi_time(growth, 2), 0.93038, 0.000006);
  EXPECT_NEAR(baranyi_time(growth, 12), 9.53510, 0.000006);
  EXPECT_DOUBLE_EQ(baranyi_lag(growth), 2.5);
  const struct {
    double hours, log10;
  } rows[] = {{2, 5.16160}, {6, 5.67076}, {12, 6.65450}, {24, 8.54658}, {36, 8.99347}};
  for (const auto& row : rows)
    EXPECT_NEAR(baranyi_log10(growth, row.hours), row.log10, 0.000006) << row.hours;
}

}  // namespace
}  // namespace wheyfield::fermentation
