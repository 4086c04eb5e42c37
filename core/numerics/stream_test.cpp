#include "numerics/stream.h"

#include <gtest/gtest.h>

#include <set>
#include <vector>

namespace wheyfield::numerics {
namespace {

// The first outputs of the authors' own program from the state 1, 2, 3, 4, as the test suites of
// several libraries have them.
TEST(Stream, Xoshiro256StarStarGivesTheKnownOutputsFromTheStateOneTwoThreeFour) {
  Stream stream(Stream::State{1, 2, 3, 4});
  const std::vector<std::uint64_t> known = {11520u,
                                            0u,
                                            1509978240u,
                                            1215971899390074240u,
                                            1216172134540287360u,
                                            607988272756665600u,
                                            16172922978634559625u,
                                            8476171486693032832u,
                                            10595114339597558777u,
                                            2904607092377533576u};
  for (const std::uint64_t number : known) EXPECT_EQ(stream.next(), number);
}

TEST(Stream, SplitMix64GivesTheKnownOutputsFromTheStateNought) {
  std::uint64_t state = 0;
  const std::vector<std::uint64_t> known = {16294208416658607535u, 7960286522194355700u,
                                            487617019471545679u, 17909611376780542444u};
  for (const std::uint64_t number : known) EXPECT_EQ(split_mix(state), number);
}

TEST(Stream, TheSameSeedNumberAndPartGiveTheSameStreamAndAnyOtherDiffers) {
  std::set<std::uint64_t> first;
  for (std::uint64_t seed = 0; seed < 4; ++seed)
    for (std::uint64_t number = 0; number < 50; ++number)
      for (std::uint64_t part = 0; part < 50; ++part) {
        const std::uint64_t drawn = Stream(seed, number, part).next();
        EXPECT_EQ(drawn, Stream(seed, number, part).next());
        first.insert(drawn);
      }
  EXPECT_EQ(first.size(), 4u * 50u * 50u);
}

// Chi-squared of 600,000 draws below 6 has five degrees of freedom: above 30 once in 70,000.
TEST(Stream, BoundedDrawsAreEvenlySpreadOverTheStreamsOfOneSeed) {
  std::vector<int> count(6, 0);
  for (std::uint64_t number = 0; number < 60'000; ++number) {
    Stream stream(20270201, number);
    for (int i = 0; i < 10; ++i) ++count[stream.below(6)];
  }
  double chi_squared = 0.0;
  for (const int n : count) chi_squared += (n - 100'000.0) * (n - 100'000.0) / 100'000.0;
  EXPECT_LT(chi_squared, 30.0);
}

// Of 2^32 numbers, 3 x 2^30 take the place of each number once and of a third of them twice when
// drawn by remainder; drawn fairly, the lower third comes up once in three.
TEST(Stream, ABoundThatDoesNotDivideTheRangeFavoursNoNumber) {
  const std::uint32_t bound = 3u << 30;
  Stream stream(7, 0);
  int low = 0;
  for (int i = 0; i < 90'000; ++i) low += stream.below(bound) < bound / 3 ? 1 : 0;
  EXPECT_NEAR(low, 30'000, 4 * 142);  // standard error 141.4
}

TEST(Stream, BelowOneIsNought) {
  Stream stream(1, 2, 3);
  for (int i = 0; i < 10; ++i) EXPECT_EQ(stream.below(1), 0u);
}

}  // namespace
}  // namespace wheyfield::numerics
