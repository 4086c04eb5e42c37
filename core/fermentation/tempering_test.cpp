#include "fermentation/tempering.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "fermentation/normal.h"
#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

TEST(FermentationTempering, TheMeanOfPowersIsThatOfPlainSums) {
  const std::vector<double> heights{0.0, std::log(3.0), std::log(8.0)};
  EXPECT_NEAR(log_mean_of_power(heights, 1.0), std::log(4.0), 1e-12);
  EXPECT_NEAR(log_mean_of_power(heights, 0.0), 0.0, 1e-12);
  EXPECT_NEAR(log_mean_of_power({-5000.0, -5000.0}, 1.0), -5000.0, 1e-9);  // nothing underflows
}

TEST(FermentationTempering, TheShareThatCounts) {
  EXPECT_NEAR(share_counting({1.0, 1.0, 1.0, 1.0}, 1.0), 1.0, 1e-12);
  EXPECT_NEAR(share_counting({0.0, -1000.0, -1000.0, -1000.0}, 1.0), 0.25, 1e-12);
  // Weights 1 and 3: (2)^2 / 5.
  EXPECT_NEAR(share_counting({0.0, std::log(3.0)}, 1.0), 0.8, 1e-12);
}

TEST(FermentationTempering, ThePowerRisesUntilJustSoManyCount) {
  const std::vector<double> heights{0.0, -10.0, -20.0, -40.0};
  const double next = next_power(heights, 0.0, 0.5);
  EXPECT_GT(next, 0.0);
  EXPECT_LT(next, 1.0);
  EXPECT_NEAR(share_counting(heights, next), 0.5, 1e-9);
  EXPECT_EQ(next_power({0.0, -0.1}, 0.3, 0.5), 1.0);
}

TEST(FermentationTempering, SystematicDrawingGivesEachItsShareToWithinOne) {
  const std::vector<double> heights{0.0, std::log(2.0), std::log(5.0), -1000.0,
                                    0.0, std::log(1.5), 0.0,           std::log(0.5),
                                    0.0, std::log(3.0)};
  const double all = log_mean_of_power(heights, 1.0);
  for (const double offset : {0.0, 0.3, 0.999}) {
    const auto places = drawn_places(heights, 1.0, offset);
    ASSERT_EQ(places.size(), heights.size());
    std::vector<int> times(heights.size());
    for (const std::size_t place : places) ++times[place];
    for (std::size_t i = 0; i < heights.size(); ++i)
      EXPECT_NEAR(times[i], std::exp(heights[i] - all), 1.0) << i << " " << offset;
  }
}

// A case in closed form: x normal (0, 1), read once as 3 with an error of 0.5. What is believed
// then is normal with mean 3 / 1.25 and variance 0.2, and the evidence is normal (0, 1.25) at 3.
TEST(FermentationTempering, AgreesWithTheClosedFormOfANormalReading) {
  constexpr std::size_t count = 4000;
  std::vector<double> at;
  for (std::size_t i = 0; i < count; ++i) {
    numerics::Stream stream(7, i);
    at.push_back(standard_normal(stream));
  }
  const auto height = [](double x) { return -0.5 * std::pow((3.0 - x) / 0.5, 2); };
  std::vector<double> heights;
  for (const double x : at) heights.push_back(height(x));
  double evidence = 0.0;
  std::uint64_t turn = 0;
  for (double power = 0.0; power < 1.0;) {
    const double next = next_power(heights, power, 0.5);
    evidence += log_mean_of_power(heights, next - power);
    const auto places = drawn_places(heights, next - power, 0.5);
    at = taken(at, places);
    heights = taken(heights, places);
    for (int move = 0; move < 5; ++move, ++turn)
      for (std::size_t i = 0; i < count; ++i) {
        numerics::Stream stream(8, turn * count + i);
        const double to = at[i] + 0.5 * standard_normal(stream);
        const double gain = 0.5 * (at[i] * at[i] - to * to) + next * (height(to) - heights[i]);
        if (std::log(even(stream)) >= gain) continue;
        at[i] = to;
        heights[i] = height(to);
      }
    power = next;
  }
  double mean = 0.0, squares = 0.0;
  for (const double x : at) {
    mean += x / count;
    squares += x * x / count;
  }
  EXPECT_NEAR(mean, 2.4, 0.05);
  EXPECT_NEAR(squares - mean * mean, 0.2, 0.03);
  // Without the constant of the reading's error, which heights leave out.
  EXPECT_NEAR(evidence, std::log(0.5 / std::sqrt(1.25)) - 0.5 * 9.0 / 1.25, 0.15);
}

}  // namespace
}  // namespace wheyfield::fermentation
