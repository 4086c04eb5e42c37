#include "journal/nesting.h"

#include <gtest/gtest.h>

#include <string>

#include "journal/event.h"

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

TEST(JournalNesting, ANoteNestedThousandsDeepIsRefused) {
  const std::string deep = std::string(100'000, '[') + std::string(100'000, ']');
  const auto event = parse_event(std::string_view(R"({"id":)" + deep + "}"));
  ASSERT_FALSE(event);
  EXPECT_EQ(event.error().front().code, "event-too-deep");
}

}  // namespace
}  // namespace wheyfield::journal
