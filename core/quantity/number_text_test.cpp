#include "quantity/number_text.h"

#include <cstdlib>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <support/draw.h>

namespace wheyfield::quantity {
namespace {

std::string outcome_of(const std::string& text) {
  const auto read = parse_number(text);
  return read ? "read" : read.error()[0].code;
}

struct Written {
  const char* text;
  double value;
};

// Source: how people write; the values are the writer's own meaning (assumption, no publication).
TEST(NumberText, WhatPeopleWriteIsReadAtItsOwnSize) {
  const Written rows[] = {{"12,5", 12.5},
                          {"12.5", 12.5},
                          {"125", 125},
                          {"1 234,5", 1234.5},
                          {"1 234.5", 1234.5},
                          {"1,234.5", 1234.5},
                          {"1.234,5", 1234.5},
                          {"1'234.5", 1234.5},
                          {"1.234.567", 1234567},
                          {"1,234,567", 1234567},
                          {"1 234 567", 1234567},
                          {"12 345,75", 12345.75},
                          {"0,125", 0.125},
                          {"0.125", 0.125},
                          {"1234,567", 1234.567},
                          {"1,2345", 1.2345},
                          {"007", 7},
                          {" 8 ", 8},
                          {"-3,5", -3.5},
                          {"0", 0}};
  for (const Written& row : rows) {
    const auto read = parse_number(row.text);
    ASSERT_TRUE(read) << row.text;
    EXPECT_DOUBLE_EQ(*read, row.value) << row.text;
  }
}

TEST(NumberText, LocalDigitsAndSpacesAreRead) {
  const Written rows[] = {{"١٢٫٥", 12.5},           {"१२.५", 12.5},           {"১২,৫", 12.5},
                          {"۱۲٫۵", 12.5},           {"１２.５", 12.5},        {"١٬٢٣٤٫٥", 1234.5},
                          {"1\u00A0234,5", 1234.5}, {"1\u202F234,5", 1234.5}, {"12,5\u00A0", 12.5},
                          {"\u22123", -3}};
  for (const Written& row : rows) {
    const auto read = parse_number(row.text);
    ASSERT_TRUE(read) << row.text;
    EXPECT_DOUBLE_EQ(*read, row.value) << row.text;
  }
}

TEST(NumberText, HalvesAndQuartersAreRead) {
  const Written rows[] = {{"1/2", 0.5},  {"3/4", 0.75}, {"1 1/2", 1.5}, {"½", 0.5},
                          {"1½", 1.5},   {"1 ½", 1.5},  {"2¼", 2.25},   {"¾", 0.75},
                          {"10/4", 2.5}, {"-1/2", -0.5}};
  for (const Written& row : rows) {
    const auto read = parse_number(row.text);
    ASSERT_TRUE(read) << row.text;
    EXPECT_DOUBLE_EQ(*read, row.value) << row.text;
  }
}

TEST(NumberText, OneMarkBeforeThreeDigitsCouldBeAThousandAndIsRefused) {
  for (const char* text : {"1,234", "1.234", "12,345", "999.999", "-1,234", "012,345", "१,२३४"})
    EXPECT_EQ(outcome_of(text), "number-ambiguous") << text;
}

TEST(NumberText, WhatIsNoNumberIsRefusedNotReadAsNothing) {
  for (const char* text :
       {"",       " ",     "3..2", "3,,2",   "12 5",     "1 23,4", "1,23,456", "12.5.1", "1.2,3",
        "five",   "12O",   "1e3",  "0x10",   "+5",       "--5",    "5-3",      "- 5",    ",5",
        "5,",     "1/0",   "1/",   "/2",     "1/2/3",    "0 125",  "inf",      "nan",    "1,5.3",
        "12٫5٫1", "1 2,3", "\xFF", "12\xC3", "1234 567", "½2",     "1½2",      "½½",     ",½"})
    EXPECT_EQ(outcome_of(text), "number-unreadable") << text;
}

// "1 000/2" is five hundred or a half more than one: nobody can know.
TEST(NumberText, AThousandInFrontOfAFractionIsRefused) {
  for (const char* text : {"1 000/2", "1 234/2", "1 234/500", "1 001/2", "1 3/2", "1 02/4"})
    EXPECT_EQ(outcome_of(text), "number-unreadable") << text;
}

TEST(NumberText, TheRefusedTextIsToldBackAsItWasWritten) {
  const auto read = parse_number(" 3..2 ");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error()[0].value, " 3..2 ");
}

TEST(NumberText, AnAmountSplitsIntoNumberAndUnit) {
  const struct {
    const char *text, *number, *unit;
  } rows[] = {{"12,5 kg", "12,5", "kg"},     {"20L", "20", "L"},       {"1/2 acre", "1/2", "acre"},
              {" 3 m2 ", "3", "m2"},         {"500", "500", ""},       {"acre", "", "acre"},
              {"1 ½ acres", "1 ½", "acres"}, {"١٢٫٥ kg", "١٢٫٥", "kg"}};
  for (const auto& row : rows) {
    const NumberAndUnit parts = split_unit(row.text);
    EXPECT_EQ(parts.number, row.number) << row.text;
    EXPECT_EQ(parts.unit, row.unit) << row.text;
  }
}

// ---- The naive second reading: every way in which a text of digits and marks can be meant. ----

bool digits(const std::string& text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
}

// Digits in groups of three by `mark`, or plain digits; "" when it is neither.
std::string without_groups(const std::string& text, char mark) {
  std::string out;
  std::vector<std::string> groups{""};
  for (char c : text)
    if (c == mark)
      groups.push_back("");
    else
      groups.back() += c;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (!digits(groups[i]) || (i > 0 && groups[i].size() != 3)) return "";
    out += groups[i];
  }
  const bool some_thousands =
      groups[0].size() <= 3 && groups[0].find_first_not_of('0') != std::string::npos;
  return groups.size() == 1 || some_thousands ? out : "";
}

std::set<double> meanings(const std::string& text) {
  std::set<double> found;
  for (char decimal : {'.', ',', '\0'})
    for (char group : {'.', ',', ' '}) {
      if (decimal == group) continue;
      const std::size_t at = decimal ? text.rfind(decimal) : text.size();
      if (at == std::string::npos) continue;
      const std::string whole = without_groups(text.substr(0, at), group);
      const std::string decimals = decimal ? text.substr(at + 1) : "0";
      if (whole.empty() || !digits(decimals)) continue;
      found.insert(std::strtod((whole + "." + decimals).c_str(), nullptr));
    }
  return found;
}

std::string random_text(testing::Draw& draw) {
  std::string text;
  const int pieces = draw.between(1, 4);
  for (int i = 0; i < pieces; ++i) {
    if (i > 0) text += draw.letter("..,, ");
    const int length = draw.below(2) ? 3 : draw.between(0, 4);
    for (int d = 0; d < length; ++d) text += draw.letter("0012345678");
  }
  return text;
}

TEST(NumberText, NoAcceptedTextCouldBeMeantAsAnyOtherNumber) {
  testing::Draw draw(20270304);
  int read_once = 0, refused_as_ambiguous = 0;
  for (int i = 0; i < wheyfield::testing::cases(200000); ++i) {
    const std::string text = random_text(draw);
    const std::set<double> all = meanings(std::string(trimmed(text)));
    const auto read = parse_number(text);
    if (all.empty()) {
      ASSERT_EQ(outcome_of(text), "number-unreadable") << text;
    } else if (all.size() > 1) {
      ASSERT_EQ(outcome_of(text), "number-ambiguous") << text;
      ++refused_as_ambiguous;
    } else {
      ASSERT_TRUE(read) << text;
      ASSERT_EQ(*read, *all.begin()) << text;
      ++read_once;
    }
  }
  EXPECT_GT(read_once, 20000);
  EXPECT_GT(refused_as_ambiguous, 1000);
}

TEST(NumberText, PointAndCommaAreEqualsSoThatNoNeighbourIsReadTenfold) {
  testing::Draw draw(3);
  for (int i = 0; i < wheyfield::testing::cases(50000); ++i) {
    const std::string text = random_text(draw);
    std::string swapped = text;
    for (char& c : swapped) c = c == '.' ? ',' : c == ',' ? '.' : c;
    const auto one = parse_number(text), other = parse_number(swapped);
    ASSERT_EQ(outcome_of(text), outcome_of(swapped)) << text;
    if (one) {
      ASSERT_EQ(*one, *other) << text;
    }
  }
}

}  // namespace
}  // namespace wheyfield::quantity
