#include "words/catalogue.h"

#include <cctype>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "embedded.h"
#include "words/plural.h"

namespace wheyfield::words {
namespace {

Catalogue sample(const char* decimal = ".", const char* group = ",") {
  nlohmann::json json = {
      {"language", "en"}, {"decimal", decimal}, {"group", group}, {"plural", "one-other"}};
  json["sentences"] = {{"cans", {{"one", "{n} can"}, {"other", "{n} cans"}}},
                       {"on", "on {day}"},
                       {"date.short", "{weekday} {day} {month}"},
                       {"date.span", "{first_day} {first_month} - {last_day} {last_month}"},
                       {"date.span-same-month", "{first_day}-{last_day} {last_month}"},
                       {"weekday.short.thursday", "Thu"},
                       {"month.short.3", "Mar"},
                       {"month.short.4", "Apr"}};
  return std::move(*Catalogue::parse(json.dump()));
}

TEST(WordsCatalogue, TheNumberChoosesThePluralForm) {
  const Catalogue words = sample();
  EXPECT_EQ(words.text("cans", {{"n", 1}}), "1 can");
  EXPECT_EQ(words.text("cans", {{"n", 5}}), "5 cans");
  EXPECT_EQ(words.text("cans", {{"n", 1.25}}), "1.25 cans");
}

TEST(WordsCatalogue, NumbersAreWrittenWithTheReadersMarks) {
  EXPECT_EQ(sample().number({12345.67, 2}), "12,345.67");
  EXPECT_EQ(sample(",", ".").number({12345.67, 2}), "12.345,67");
  EXPECT_EQ(sample(",", "\u202f").number({1234567, 0}), "1\u202f234\u202f567");
  EXPECT_EQ(sample().number({2.50, 2}), "2.5");
  EXPECT_EQ(sample().number({2.5, 2, false}), "2.50");
  EXPECT_EQ(sample().number({-0.001, 1}), "0");
}

TEST(WordsCatalogue, DatesNameTheWeekdayAndTheMonth) {
  const auto day = calendar::Date::from_civil(2027, 3, 4);
  EXPECT_EQ(sample().text("on", {{"day", day}}), "on Thu 4 Mar");
  EXPECT_EQ(sample().span(day, day + 3), "4-7 Mar");
  EXPECT_EQ(sample().span(day, day + 30), "4 Mar - 3 Apr");
}

TEST(WordsCatalogue, AMissingSentenceOrPlaceIsSeen) {
  EXPECT_EQ(sample().text("nothing"), "[nothing]");
  EXPECT_EQ(sample().text("on"), "on {day}");
}

// They are printed one behind the other: what was expected, then the cure.
TEST(WordsCatalogue, EveryProblemAndCureIsAWholeSentence) {
  const auto english = nlohmann::json::parse(embedded::words_json("en"));
  int read = 0;
  for (const auto& [key, text] : english["sentences"].items()) {
    if (key.rfind("problem.", 0) != 0 && key.rfind("cure.", 0) != 0 && key.rfind("decide.", 0) != 0)
      continue;
    if (text == "{sentence}" || text == "{decide}") continue;
    const std::string sentence = (text.is_object() ? text["other"] : text).get<std::string>();
    ++read;
    EXPECT_NE(std::string(".?").find(sentence.back()), std::string::npos) << key;
    EXPECT_FALSE(std::islower(static_cast<unsigned char>(sentence.front()))) << key;
  }
  EXPECT_GT(read, 100);
}

TEST(WordsCatalogue, ABrokenCatalogueIsRefused) {
  EXPECT_FALSE(Catalogue::parse("{"));
  EXPECT_FALSE(Catalogue::parse("{\"sentences\":{\"a\":{\"one\":\"x\"}}}"));
}

// Unicode CLDR 48 cardinal rules, as tabulated in the language notes of this project.
TEST(WordsPlural, FamiliesFollowCldr) {
  struct Row {
    const char* family;
    double n;
    const char* category;
  };
  for (const Row& row : std::initializer_list<Row>{{"one-other", 0, "other"},
                                                   {"one-other", 1, "one"},
                                                   {"one-other", 1.5, "other"},
                                                   {"french", 0, "one"},
                                                   {"french", 1.5, "one"},
                                                   {"french", 2, "other"},
                                                   {"french", 1000000, "many"},
                                                   {"zero-one", 0, "one"},
                                                   {"zero-one", 0.5, "one"},
                                                   {"zero-one", 1.5, "other"},
                                                   {"zero-and-one", 0, "one"},
                                                   {"zero-and-one", 0.5, "other"},
                                                   {"arabic", 0, "zero"},
                                                   {"arabic", 2, "two"},
                                                   {"arabic", 7, "few"},
                                                   {"arabic", 111, "many"},
                                                   {"arabic", 100, "other"},
                                                   {"none", 1, "other"}})
    EXPECT_EQ(plural_category(row.family, row.n), row.category) << row.family << ' ' << row.n;
}

}  // namespace
}  // namespace wheyfield::words
