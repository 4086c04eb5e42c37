#include "outcome/result.h"

#include <gtest/gtest.h>

namespace wheyfield::outcome {
namespace {

TEST(OutcomeResult, ReadersGoOnAndCollectEveryProblem) {
  Problems problems;
  const int value = take_or(Result<int>(failure({"below-zero", "/area", "-1", {}})), 7, problems);
  const int good = take_or(Result<int>(3), 7, problems);
  EXPECT_EQ(value, 7);
  EXPECT_EQ(good, 3);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].code, "below-zero");
}

TEST(OutcomeResult, NoticesAndQuestionsAreNoErrors) {
  EXPECT_FALSE(
      has_errors({{"a", "", "", {}, Severity::notice}, {"b", "", "", {}, Severity::question}}));
  EXPECT_TRUE(has_errors({{"a", "", "", {}, Severity::notice}, {"b", "", "", {}}}));
}

TEST(OutcomeResult, APrefixLeadsToTheFieldInTheWholeRequest) {
  EXPECT_EQ(under("/farms/3", {{"x", "/area", "", {}}})[0].field, "/farms/3/area");
}

}  // namespace
}  // namespace wheyfield::outcome
