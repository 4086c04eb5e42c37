#include "fermentation/warmth.h"

#include <cmath>

#include <gtest/gtest.h>

namespace wheyfield::fermentation {
namespace {

TEST(FermentationWarmth, AColdBucketWarmsAsTheClosedFormSays) {
  const Warmth bucket(Air::constant(25), 10, 1, 6.1, 48);
  for (const double hours : {0.0, 0.3, 6.0, 47.9})
    EXPECT_NEAR(bucket.at(hours), 26 - 16 * std::exp(-hours / 6.1), 1e-10) << hours;
}

// The naive road: small steps of Euler's method, with corners that lie beside the half hours.
TEST(FermentationWarmth, UnderSwingingAirItFollowsTheEquation) {
  const Air air = Air::daily(14, 28, 8.2);
  EXPECT_NEAR(air.first_corner(), 0.3, 1e-12);
  const Warmth bucket(air, 12, -0.5, 2.4, 72);
  constexpr int steps_an_hour = 20000;
  double celsius = 12;
  for (int i = 0; i < 72 * steps_an_hour; ++i) {
    const double hours = static_cast<double>(i) / steps_an_hour;
    if (i % steps_an_hour == 0) {
      ASSERT_NEAR(bucket.at(hours), celsius, 5e-4) << hours;
    }
    celsius += (air.at(hours) - 0.5 - celsius) / 2.4 / steps_an_hour;
  }
}

}  // namespace
}  // namespace wheyfield::fermentation
