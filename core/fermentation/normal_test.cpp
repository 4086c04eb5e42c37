#include "fermentation/normal.h"

#include <cmath>

#include <gtest/gtest.h>

namespace wheyfield::fermentation {
namespace {

// The usual table of the normal distribution.
TEST(FermentationNormal, SharesBelow) {
  EXPECT_NEAR(normal_below(0), 0.5, 1e-12);
  EXPECT_NEAR(normal_below(1.2816), 0.9, 0.00001);
  EXPECT_NEAR(normal_below(-1.96), 0.0249979, 1e-7);
}

TEST(FermentationNormal, DrawsFollowTheDistribution) {
  numerics::Stream stream(3, 0);
  constexpr int draws = 100000;
  double sum = 0, squares = 0;
  int below = 0;
  for (int i = 0; i < draws; ++i) {
    const double z = standard_normal(stream);
    sum += z;
    squares += z * z;
    below += z < -1.2816;
  }
  EXPECT_NEAR(sum / draws, 0.0, 0.013);  // four standard errors
  EXPECT_NEAR(squares / draws, 1.0, 0.018);
  EXPECT_NEAR(static_cast<double>(below) / draws, 0.1, 0.004);
}

TEST(FermentationNormal, EvenDrawsNeverReachTheirEnds) {
  numerics::Stream stream(4, 0);
  for (int i = 0; i < 10000; ++i) {
    const double x = even(stream);
    ASSERT_GT(x, 0.0);
    ASSERT_LT(x, 1.0);
  }
}

}  // namespace
}  // namespace wheyfield::fermentation
