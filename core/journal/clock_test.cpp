#include "journal/clock.h"

#include <gtest/gtest.h>

namespace wheyfield::journal {
namespace {

constexpr std::int64_t now = 1804399200;  // 7 March 2027, 6:00 UTC
constexpr std::int64_t day = 24 * 60 * 60;

TEST(Clock, TheFirstStampIsNow) { EXPECT_EQ(Clock(now).next(), (Stamp{now, 0})); }

TEST(Clock, WithinOneSecondTheCountGoesUp) {
  Clock clock(now);
  EXPECT_EQ(clock.next(), (Stamp{now, 0}));
  EXPECT_EQ(clock.next(), (Stamp{now, 1}));
}

TEST(Clock, AStampComesAfterWhatOthersWrote) {
  Clock clock(now);
  EXPECT_TRUE(clock.saw({now + 3600, 4}));
  EXPECT_EQ(clock.next(), (Stamp{now + 3600, 5}));
}

TEST(Clock, AStampMoreThanADayAheadIsNotGoneBy) {
  Clock clock(now);
  EXPECT_TRUE(clock.saw({now + day, 0}));
  EXPECT_FALSE(clock.saw({now + day + 1, 0}));
  EXPECT_EQ(clock.next(), (Stamp{now + day, 1}));
}

TEST(Clock, AFullSecondGoesOverIntoTheNext) {
  Clock clock(now);
  clock.saw({now + 60, largest_count});
  EXPECT_EQ(clock.next(), (Stamp{now + 61, 0}));
}

TEST(Clock, WhatCorrectsAFarStampComesAfterItAndDoesNotSetTheClock) {
  Clock clock(now);
  const Stamp far{now + 1000 * day, 2};
  EXPECT_EQ(clock.next(far), (Stamp{now + 1000 * day, 3}));
  EXPECT_EQ(clock.next(), (Stamp{now, 0}));
}

}  // namespace
}  // namespace wheyfield::journal
