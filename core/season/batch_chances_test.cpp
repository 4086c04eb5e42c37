#include "season/batch_chances.h"

#include <gtest/gtest.h>
#include <support/bundle.h>

#include <array>
#include <cstdint>

namespace wheyfield::season {
namespace {

using wheyfield::testing::bundle;

TEST(BatchChances, TheGuessOfTheDataIsATenthFailedAndThreeTenthsLateInAll) {
  const lot_sizing::Chances guess = guessed_chances(bundle());
  EXPECT_EQ(guess.failed, 100'000);
  EXPECT_EQ(guess.late, (std::array<std::int32_t, 4>{700'000, 150'000, 100'000, 50'000}));
}

TEST(BatchChances, NineOwnBatchesLeaveTheGuessAndSayThatOneIsMissing) {
  const FailureShare share = failure_share(bundle(), 5, 9);
  EXPECT_EQ(share.share, 100'000);
  EXPECT_FALSE(share.own);
  EXPECT_EQ(share.missing, 1);
}

TEST(BatchChances, TenOwnBatchesReplaceTheGuess) {
  // (1 + 1/2) / (10 + 1) = 3/22
  EXPECT_EQ(failure_share(bundle(), 1, 10).share, 136'364);
  EXPECT_TRUE(failure_share(bundle(), 1, 10).own);
  EXPECT_EQ(failure_share(bundle(), 1, 10).missing, 0);
}

TEST(BatchChances, NeitherNoneNorAllOfManyIsTakenForCertain) {
  EXPECT_EQ(failure_share(bundle(), 0, 10).share, 45'455);    // 1/22
  EXPECT_EQ(failure_share(bundle(), 10, 10).share, 954'545);  // 21/22
}

TEST(BatchChances, TheShareGoesToWhatWasCountedAsBatchesAreRecorded) {
  EXPECT_NEAR(failure_share(bundle(), 2'000, 10'000).share, 200'000, 50);
}

}  // namespace
}  // namespace wheyfield::season
