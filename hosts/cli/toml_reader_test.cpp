#include "cli/toml_reader.h"

#include <gtest/gtest.h>

#include <string>

#include "cli/toml_guard.h"

namespace wheyfield::cli {
namespace {

std::string code_of(const Reading<Document>& reading) {
  return reading ? "read" : reading.error().front().code;
}

TEST(TomlReader, EveryValueKnowsItsLineAndColumn) {
  const auto read = parse_toml(
      "[season]\nname = \"Täler\"\n\n[[farms]]\ncode = \"1\"\n[[farms.fields]]\ncrop = \"bean\"\n"
      "[[farms]]\ncode = \"2\"\nsizes = [1,\n  22]\n",
      "s.toml");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->places.find("/season/name").line, 2);
  EXPECT_EQ(read->places.find("/season/name").column, 8);
  EXPECT_EQ(read->places.find("/farms/0/fields/0/crop").line, 7);
  EXPECT_EQ(read->places.find("/farms/1/code").line, 9);
  EXPECT_EQ(read->places.find("/farms/1/sizes/1").line, 11);
  EXPECT_EQ(read->places.find("/farms/1/sizes/1").column, 3);
}

TEST(TomlReader, AMissingFieldIsShownAtTheNearestThingAboveIt) {
  const auto read = parse_toml("[season]\nname = \"x\"\n[[farms]]\ncode = \"1\"\n", "s.toml");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->places.find("/farms/0/fields/3/area").line, 3);
  EXPECT_EQ(read->places.find("/season/to").line, 1);
  EXPECT_EQ(read->places.find("/market").line, 0);
  EXPECT_EQ(read->places.find("/market").file, "s.toml");
}

TEST(TomlReader, BareDatesBecomeTheSameTextAsQuotedOnes) {
  const auto read = parse_toml("a = 2028-02-29\nb = \"2028-02-29\"\nc = 07:30:00\n", "s.toml");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->json["a"], read->json["b"]);
  EXPECT_EQ(read->json["c"], "07:30:00");
}

TEST(TomlReader, AWholeNumberTooLongForTheMachineStaysText) {
  const auto read = parse_toml("a = 99999999999999999999999\nb = 12\n", "s.toml");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->json["a"], "99999999999999999999999");
  EXPECT_EQ(read->json["b"], 12);
}

TEST(TomlReader, EachKindOfRefusalNamesItsLine) {
  struct Case {
    const char* text;
    const char* code;
    int line;
  };
  for (const Case& c : {Case{"a = 1\nb = 2027-02-29\n", "toml-date", 2},
                        Case{"a = 1\n\na = 2\n", "toml-key-twice", 3},
                        Case{"[a]\nb = 1\n[a]\n", "toml-key-twice", 3},
                        Case{"a = 1\narea = 12,5\n", "toml-syntax", 2},
                        Case{"a = 1\nb = \"open\n", "toml-syntax", 2}}) {
    const auto read = parse_toml(c.text, "s.toml");
    ASSERT_FALSE(read) << c.text;
    EXPECT_EQ(code_of(read), c.code) << c.text;
    EXPECT_EQ(read.error().front().place.line, c.line) << c.text;
    EXPECT_EQ(read.error().front().exit, exit_codes::unreadable);
  }
}

TEST(TomlReader, NestingThatWouldUseUpTheStackIsRefused) {
  EXPECT_EQ(code_of(parse_toml("a = " + std::string(200000, '['), "s.toml")), "toml-nested");
  std::string dotted = "a";
  for (int i = 0; i < 200000; ++i) dotted += ".a";
  EXPECT_EQ(code_of(parse_toml(dotted + " = 1\n", "s.toml")), "toml-nested");
}

TEST(TomlGuard, BracketsAndPointsInTextAndCommentsDoNotCount) {
  const std::string many(100, '[');
  EXPECT_EQ(too_deep_at("a = \"" + many + "\"\n"), std::string::npos);
  EXPECT_EQ(too_deep_at("a = '" + many + "'\n# " + many + "\n"), std::string::npos);
  EXPECT_EQ(too_deep_at("a = '''\n" + many + "'\n'''\n"), std::string::npos);
  EXPECT_NE(too_deep_at("a = \"\\\"\"\nb = " + many), std::string::npos);
}

}  // namespace
}  // namespace wheyfield::cli
