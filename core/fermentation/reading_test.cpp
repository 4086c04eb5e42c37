#include "fermentation/reading.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::fermentation {
namespace {

using Kind = Reading::Kind;

const ReadingErrors& errors() {
  static const ReadingErrors read(
      testing::value_or_abort(ParameterTable::parse(testing::bundle())));
  return read;
}

double likelihood(const Reading& reading, double ph, double celsius = 20, double bias = 0) {
  return std::exp(log_likelihood(reading, ph, celsius, bias, errors()));
}

// By hand from the table of the normal distribution: a step of 0.5 is two deviations of 0.25 wide.
TEST(FermentationReading, ACoarseStripThatFitsHasTheShareOfItsStep) {
  EXPECT_NEAR(likelihood({Kind::strip, 24, 4.5, 0.5}, 4.5), 0.0025 + 0.98 * 0.682689, 1e-6);
  EXPECT_NEAR(likelihood({Kind::strip, 24, 4.5, 0.5}, 4.75), 0.0025 + 0.98 * 0.477250, 1e-6);
  EXPECT_NEAR(likelihood({Kind::strip, 24, 4.5, 0.5}, 4.25, 20, 0.25), 0.0025 + 0.98 * 0.682689,
              1e-6);
}

TEST(FermentationReading, AFineStripAndAMeterAreTrustedMore) {
  // 0.15 / 0.20 = 0.75 and 0.05 / 0.08 = 0.625 deviations
  EXPECT_NEAR(likelihood({Kind::strip, 24, 4.2, 0.3}, 4.2), 0.0015 + 0.98 * 0.546745, 1e-6);
  EXPECT_NEAR(likelihood({Kind::meter, 24, 4.2, 0.1}, 4.2), 0.0005 + 0.98 * 0.468029, 1e-6);
}

TEST(FermentationReading, TheReadingsOfAStripShareOutAllThatItCanShow) {
  double sum = 0.0;
  for (int i = -20; i <= 40; ++i) sum += likelihood({Kind::strip, 24, i * 0.5, 0.5}, 4.3) - 0.0025;
  EXPECT_NEAR(sum, 0.98, 1e-9);
}

TEST(FermentationReading, AReadingFarOffKeepsTheFloor) {
  EXPECT_NEAR(likelihood({Kind::strip, 24, 7.0, 0.5}, 4.0), 0.0025, 1e-9);
  EXPECT_NEAR(likelihood({Kind::set, 24, 1}, 6.5), 0.01, 1e-9);
}

TEST(FermentationReading, SetAndNotYetAreEquallyLikelyAtItsPhAndAddUp) {
  EXPECT_NEAR(likelihood({Kind::set, 24, 1}, 4.85), 0.5, 1e-12);
  for (const double ph : {4.0, 4.7, 4.85, 5.3})
    EXPECT_NEAR(likelihood({Kind::set, 24, 1}, ph) + likelihood({Kind::set, 24, 0}, ph), 1.0,
                1e-12);
  EXPECT_GT(likelihood({Kind::set, 24, 1}, 4.6), 0.9);
}

TEST(FermentationReading, AThermometerFallsOffWithItsError) {
  EXPECT_DOUBLE_EQ(likelihood({Kind::thermometer, 24, 20}, 5, 20), 1.0);
  EXPECT_NEAR(likelihood({Kind::thermometer, 24, 20.7}, 5, 20), std::exp(-0.5), 1e-12);
}

}  // namespace
}  // namespace wheyfield::fermentation
