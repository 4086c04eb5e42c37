#include "journal/base64.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include <support/draw.h>
#include "journal/crc32.h"

namespace wheyfield::journal {
namespace {

// RFC 4648, section 10.
const std::vector<std::pair<std::string, std::string>> rfc4648_vectors{{"", ""},
                                                                       {"f", "Zg=="},
                                                                       {"fo", "Zm8="},
                                                                       {"foo", "Zm9v"},
                                                                       {"foob", "Zm9vYg=="},
                                                                       {"fooba", "Zm9vYmE="},
                                                                       {"foobar", "Zm9vYmFy"}};

TEST(JournalBase64, GivesTheVectorsOfRfc4648BothWays) {
  for (const auto& [bytes, text] : rfc4648_vectors) {
    EXPECT_EQ(to_base64(bytes), text);
    EXPECT_EQ(from_base64(text), bytes);
  }
}

TEST(JournalBase64, AnyBytesComeBack) {
  testing::Draw draw(4);
  for (int i = 0; i < 300; ++i) {
    std::string bytes;
    for (int b = draw.between(0, 40); b > 0; --b) bytes += static_cast<char>(draw.below(256));
    EXPECT_EQ(from_base64(to_base64(bytes)), bytes);
  }
}

TEST(JournalBase64, RefusesWhatItDoesNotWrite) {
  for (const char* text : {"Z", "Zg", "Zg=", "Zg===", "Zh==", "Zm9=", "=", "====", "Z===", "Zm 8",
                           "Zm9v\n", "Zm-_", "Zg==Zg==", "Zm\xC3\xA9"})
    EXPECT_EQ(from_base64(text), std::nullopt) << text;
}

// "The check value" of CRC-32/ISO-HDLC in Williams, "A painless guide to CRC error detection
// algorithms" (1993): CBF43926 for "123456789". The empty text has 0.
TEST(JournalCrc32, GivesThePublishedCheckValue) {
  EXPECT_EQ(crc32_of("123456789"), 0xCBF43926u);
  EXPECT_EQ(crc32_of("6789", crc32_of("12345")), 0xCBF43926u);
  EXPECT_EQ(crc32_of(""), 0u);
}

}  // namespace
}  // namespace wheyfield::journal
