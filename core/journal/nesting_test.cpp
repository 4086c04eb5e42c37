#include "journal/nesting.h"

#include <gtest/gtest.h>

#include <string>

namespace wheyfield::journal {
namespace {

TEST(JournalNesting, CountsBracketsThatAreOpenAtOnce) {
  EXPECT_FALSE(deeper_than("", 0));
  EXPECT_FALSE(deeper_than("7", 0));
  EXPECT_TRUE(deeper_than("[]", 0));
  EXPECT_FALSE(deeper_than("[[],[],{}]", 2));
  EXPECT_TRUE(deeper_than("[[],[],{\"a\":[]}]", 2));
  EXPECT_TRUE(deeper_than(std::string(1'000'000, '{'), 999'999));
  EXPECT_FALSE(deeper_than(std::string(1'000'000, '{'), 1'000'000));
}

TEST(JournalNesting, BracketsInTextsDoNotCount) {
  EXPECT_FALSE(deeper_than(R"(["[[[[","\"[[[","\\",1])", 1));
  EXPECT_TRUE(deeper_than(R"(["\\",[[1]]])", 2));
  EXPECT_FALSE(deeper_than("[\"cut off \\", 1));
}

}  // namespace
}  // namespace wheyfield::journal
