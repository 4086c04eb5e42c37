// One can at the water tap: how much serum, how many caps, and what is asked before it is believed.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DoseMix : public ::testing::Test {
 protected:
  Json mix(const char* strength, const char* cap = "20 mL", const char* reading = "added-to") {
    return facade.ask("dose.mix", {{"water", "20 L"},
                                   {"cap", cap},
                                   {"strength", strength},
                                   {"reading", reading},
                                   {"pages", true}});
  }
  static bool says(const Json& answer, const char* text) {
    return answer["pages"].dump().find(text) != std::string::npos;
  }
  Facade facade;
};

// Common practice: taught strengths run from 1:33 to 1:1000.
TEST_F(DoseMix, AStrengthBeyondWhatIsTaughtIsAskedAbout) {
  for (const char* strong : {"1:5", "1:32"}) {
    const Json asked = problem(mix(strong), "strength-strong");
    ASSERT_FALSE(asked.is_null()) << strong;
    EXPECT_EQ(asked["severity"], "question");
    EXPECT_EQ(asked["field"], "/strength");
    EXPECT_EQ(asked["value"], strong);
    EXPECT_NE(asked["text"].get<std::string>().find("1:33 to 1:1000"), std::string::npos);
  }
  for (const char* taught : {"1:33", "1:500", "1:1000"})
    EXPECT_TRUE(problem(mix(taught), "strength-strong").is_null()) << taught;
}

TEST_F(DoseMix, AMixStrongerThanOneTo250IsKeptOffLeaves) {
  const Json strong = mix("1:249"), limit = mix("1:250");
  EXPECT_EQ(problem(strong, "strength-not-for-leaves")["severity"], "notice");
  EXPECT_TRUE(says(strong, "Stronger than 1:250: not for leaves"));
  EXPECT_TRUE(problem(limit, "strength-not-for-leaves").is_null());
  EXPECT_FALSE(says(limit, "not for leaves"));
}

TEST_F(DoseMix, OnePartToOneOrLessIsRefused) {
  for (const char* text : {"1:1", "1:0.5", "1:0", "1:-5"}) {
    const Json answer = mix(text);
    EXPECT_EQ(problem(answer, "strength-unreadable")["value"], text);
    EXPECT_FALSE(answer.contains("serum_ml"));
  }
}

// Computed by hand: 20 L at 1:5 are 4,000 mL, or 20,000 / 6 = 3,333.33 mL in 20 L in all, a sixth
// less; at 1:500 40 mL against 39.92 mL, 0.2 % less.
TEST_F(DoseMix, WhatTheOtherReadingWouldGiveIsSaidInNumbers) {
  EXPECT_TRUE(says(mix("1:5"), "it would be 3,333.33 mL, 16.67 % less"));
  EXPECT_TRUE(says(mix("1:500"), "it would be 39.92 mL, 0.2 % less"));
}

// Computed by hand: (20,000 - 40) / 40 = 499.
TEST_F(DoseMix, TwoCapsInTwentyLitresInTotalAreReallyOneTo499) {
  const Json answer = mix("1:500", "20 mL", "in-total");
  EXPECT_EQ(answer["caps"], 2.0);
  EXPECT_EQ(answer["cap"]["strength"]["parts"], 499.0);
  EXPECT_TRUE(says(answer, "really 1:499"));
}

// 0.5 L at 1:500 is 1 mL: half a cap of 5 mL would be two and a half times that.
TEST_F(DoseMix, ADoseBelowHalfACapIsSaidAsSuch) {
  const Json answer = facade.ask(
      "dose.mix", {{"water", "1/2 L"}, {"cap", "5 mL"}, {"strength", "1:500"}, {"pages", true}});
  EXPECT_TRUE(says(answer, "less than half a cap of 5 mL"));
  EXPECT_FALSE(says(answer, "-100"));
}

TEST_F(DoseMix, ACapThatIsACupOrADropIsRefusedAsItWasWritten) {
  for (const char* cap : {"5 L", "0.9 mL", "100.5 mL"}) {
    const Json answer = mix("1:500", cap);
    const Json refused = problem(answer, "cap-out-of-range");
    ASSERT_FALSE(refused.is_null()) << cap;
    EXPECT_EQ(refused["value"], cap);
    EXPECT_EQ(refused["field"], "/cap");
    EXPECT_EQ(refused["expected"], "A cap of 1 to 100 mL was expected.");
    EXPECT_FALSE(answer.contains("caps"));
  }
  EXPECT_TRUE(mix("1:500", "100 mL").contains("caps"));
  EXPECT_TRUE(mix("1:500", "1 mL").contains("caps"));
}

}  // namespace
}  // namespace wheyfield
