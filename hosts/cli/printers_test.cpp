#include <gtest/gtest.h>

#include <sstream>

#include "cli/page_printer.h"
#include "cli/problem_printer.h"
#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

std::size_t longest_line(const std::string& text) {
  std::istringstream in(text);
  std::size_t longest = 0;
  for (std::string line; std::getline(in, line);) longest = std::max(longest, width(line));
  return longest;
}

words::Catalogue words_with(const std::string& sentences) {
  return *words::Catalogue::parse(
      R"({"language":"en","decimal":".","group":",","plural":"one-other","sentences":)" +
      sentences + "}");
}

TEST(PagePrinter, TextIsWrappedAndListsHang) {
  const std::string page = page_text(ordered_json::parse(R"({"title":"Fälle","blocks":[
      {"kind":"text","text":"one two three four"},{"kind":"list","items":["five six seven"]},
      {"kind":"caution","text":"hot"},{"kind":"unheard-of","text":"x"}]})"),
                                     12);
  EXPECT_EQ(page, "Fälle\n=====\n\none two\nthree four\n\n- five six\n  seven\n\n! hot\n");
}

TEST(PagePrinter, ColumnsLineUpByCharactersNotBytes) {
  const std::string table = table_text(ordered_json::parse(R"({"columns":[
      {"title":"Crop","align":"left"},{"title":"L","align":"right"}],
      "rows":[["maïs","1.5"],["bean","10"]]})"));
  EXPECT_EQ(table, "Crop    L\n----  ---\nmaïs  1.5\nbean   10\n");
}

TEST(PagePrinter, AWideTableIsWrappedInsideItsWidestColumn) {
  const std::string table = table_text(ordered_json::parse(R"({"columns":[
      {"title":"Farm","align":"right"},{"title":"What to do there","align":"left"}],
      "rows":[["1","carry five cans to the field above the road"]]})"),
                                       30);
  EXPECT_LE(longest_line(table), 30U);
  EXPECT_NE(table.find("   1  carry five cans to the\n"), std::string::npos) << table;
  EXPECT_NE(table.find("\n      field above the road\n"), std::string::npos) << table;
}

TEST(PagePrinter, ControlCharactersDoNotReachTheTerminal) {
  EXPECT_EQ(printable("a\x1b[31m\x7f\xc2\x9b"), "a?[31m??");
  EXPECT_EQ(wrapped("x\x1b]0;", 80), "x?]0;\n");
}

TEST(ProblemPrinter, AFieldIsNamedAsPeopleSayIt) {
  const auto words =
      words_with(R"({"cli.element.farms":"farm {id}","cli.element.fields":"field {id}"})");
  const auto document = nlohmann::json::parse(
      R"({"farms":[{"code":"8","fields":[{"crop":"bean"}]}],"prices":[{"item":"rice"},{}]})");
  EXPECT_EQ(field_label(document, "/farms/0/fields/0/area", words), "farm \"8\", field 1, area");
  EXPECT_EQ(field_label(document, "/farms/7/code", words), "farm 8, code");
  EXPECT_EQ(field_label(document, "/prices/1/pack", words), "prices[2], pack");
  EXPECT_EQ(field_label(document, "", words), "");
}

TEST(ProblemPrinter, AProblemOfAFileNamesItsPlaceAndAFlagItsName) {
  const auto words = words_with(R"({"cli.severity.question":"question:"})");
  const auto problem = ordered_json::parse(R"({"code":"c","severity":"question",
      "field":"/season/to","value":"x\n","expected":"A day.","cure":"Write one."})");
  Document file;
  file.from_file = true;
  file.places.put("/season", file.places.add_file("s.toml"), 3, 1);
  EXPECT_EQ(problem_line(problem, file, words),
            "s.toml:3: question: season, to \"x?\": A day. Write one.");
  EXPECT_EQ(problem_line(problem, Document(), words),
            "question: --season \"x?\": A day. Write one.");
}

TEST(ProblemPrinter, AProblemWithoutSentencesShowsItsCode) {
  const auto problem = ordered_json::parse(R"({"code":"words-unreadable","severity":"error",
      "field":"/words","value":"xx","expected":"","cure":"","text":""})");
  EXPECT_EQ(problem_line(problem, Document(), words_with("{}")),
            "--words \"xx\": words-unreadable");
}

TEST(Utf8, TheFirstBadByteIsFound) {
  EXPECT_EQ(first_bad_byte("aé€😀"), std::string::npos);
  EXPECT_EQ(first_bad_byte("ab\xff"), 2U);
  EXPECT_EQ(first_bad_byte("\xc0\xaf"), 0U);          // overlong
  EXPECT_EQ(first_bad_byte("\xed\xa0\x80"), 0U);      // surrogate
  EXPECT_EQ(first_bad_byte("\xf4\x90\x80\x80"), 0U);  // above U+10FFFF
  EXPECT_EQ(first_bad_byte("a\xe2\x82"), 1U);         // cut off
  EXPECT_EQ(shortened("éééé", 3), "éé…");
}

}  // namespace
}  // namespace wheyfield::cli
