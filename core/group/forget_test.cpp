#include "group/forget.h"

#include <gtest/gtest.h>

#include <support/journal.h>

namespace wheyfield::group {
namespace {

using testing::Device;
using Codes = std::vector<std::string>;

class GroupForget : public ::testing::Test {
 protected:
  GroupForget() { a.note("member", {{"member", "5"}, {"farm", "5"}}); }
  Codes farms(const char* member) { return forgetting(a.facts(), member).farms; }
  void answer(const char* member, const char* says) {
    a.note("agreed", {{"member", member}, {"purpose", "result-nameless"}, {"answer", says}});
  }
  Device a{"A"};
};

TEST_F(GroupForget, HerFarmGoesUnlessSheAgreedToNamelessResults) {
  EXPECT_EQ(farms("5"), Codes{"5"});
  answer("5", "yes");
  EXPECT_EQ(farms("5"), Codes{});
  answer("5", "no");
  EXPECT_EQ(farms("5"), Codes{"5"});
}

TEST_F(GroupForget, AFarmThatSomebodyElseHoldsStaysHoweverThatWasWritten) {
  a.note("joined", {{"member", "10"}, {"farm", "5"}});
  EXPECT_EQ(farms("5"), Codes{});
}

TEST_F(GroupForget, AFarmHeldByJoiningGoesToo) {
  a.note("joined", {{"member", "7"}, {"farm", "7"}});
  EXPECT_EQ(farms("7"), Codes{"7"});
}

TEST_F(GroupForget, OnePersonWithTwoCodesIsForgottenUnderBoth) {
  a.note("member", {{"member", "12"}, {"farm", "5"}});
  a.note("same-person", {{"member", "5"}, {"other", "12"}});
  answer("12", "yes");
  EXPECT_EQ(forgetting(a.facts(), "12").codes, (Codes{"5", "12"}));
  EXPECT_EQ(farms("12"), Codes{});
  answer("5", "no");
  EXPECT_EQ(farms("12"), Codes{"5"});
}

TEST_F(GroupForget, SomebodyNobodyKnowsHasNothingToForget) {
  EXPECT_TRUE(forgetting(a.facts(), "99").codes.empty());
}

}  // namespace
}  // namespace wheyfield::group
