#include "cli/deflate.h"

#include <gtest/gtest.h>

namespace wheyfield::cli {
namespace {

using namespace std::string_literals;

// RFC 1950 and 1951 by hand: header 78 01, one stored block of 3 bytes, Adler-32 of "abc" =
// 024d0127.
const std::string stored_abc = "\x78\x01\x01\x03\x00\xfc\xff\x61\x62\x63\x02\x4d\x01\x27"s;

TEST(CliDeflate, TextsComeBack) {
  for (const std::string& text : {""s, "a"s, std::string(100'000, 'x'), "\0\xff\n"s}) {
    const auto back = inflate(deflate(text), 200'000);
    ASSERT_TRUE(back);
    EXPECT_EQ(back->text, text);
    EXPECT_FALSE(back->too_large);
  }
}

TEST(CliDeflate, ReadsAStreamWrittenByHandFromTheRfcs) {
  const auto text = inflate(stored_abc, 100);
  ASSERT_TRUE(text);
  EXPECT_EQ(text->text, "abc");
}

TEST(CliDeflate, MoreThanTheMostIsRefusedWhileItIsUnpacked) {
  const std::string bomb = deflate(std::string(50'000'000, '0'));
  ASSERT_LT(bomb.size(), 60'000u);
  const auto text = inflate(bomb, 60'000);
  ASSERT_TRUE(text);
  EXPECT_TRUE(text->too_large);
  EXPECT_LT(text->text.capacity(), 100u);
}

TEST(CliDeflate, ExactlyTheMostIsTaken) {
  const std::string bytes = deflate(std::string(40'000, 'x'));
  EXPECT_FALSE(inflate(bytes, 40'000)->too_large);
  EXPECT_TRUE(inflate(bytes, 39'999)->too_large);
}

TEST(CliDeflate, WhatIsCutOffGoesOnOrIsNoZlibGivesNothing) {
  for (std::size_t length = 0; length < stored_abc.size(); ++length)
    EXPECT_FALSE(inflate(stored_abc.substr(0, length), 100)) << length;
  EXPECT_FALSE(inflate(stored_abc + "x", 100));
  EXPECT_FALSE(inflate("PK\x03\x04", 100));
  std::string flipped = stored_abc;
  flipped.back() ^= 1;
  EXPECT_FALSE(inflate(flipped, 100));
}

}  // namespace
}  // namespace wheyfield::cli
