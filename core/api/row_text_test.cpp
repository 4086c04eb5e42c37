// Rows written as text are held to the JSON library's own text of the same values.
#include "api/row_text.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "api/session.h"

namespace wheyfield::api {
namespace {

TEST(RowText, ATextIsWrittenAsTheLibraryWritesIt) {
  for (const std::string& value :
       std::vector<std::string>{"", "farm 1", "a \"quoted\" \\ word", "two\nlines\ttab", "Grüße ½",
                                std::string("nul\0byte", 8), "\x7f", "broken \xc3", "\x1f"}) {
    std::string out;
    RowText(out).text("name", value);
    EXPECT_EQ(out, written(Json{{"name", value}})) << value;
  }
}

TEST(RowText, ANumberIsWrittenAsTheLibraryWritesIt) {
  for (const double value :
       {0.0, -0.0, 1.0, -1.0, 0.1, -2.5, 2023.428, 1e-7, 999999999999999.0, 1e15, 1e16, 1e22, 1e300,
        9007199254740993.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
    std::string out;
    RowText(out).number("n", value);
    EXPECT_EQ(out, written(Json{{"n", value}})) << value;
  }
}

TEST(RowText, AWholeRowIsWrittenAsTheLibraryWritesIt) {
  const std::vector<std::string> none, two{"a", "b\""};
  std::string out;
  append_rows(out, std::vector<int>{7, -8}, [&](RowText& row, int item) {
    row.whole("item", item).flag("yes", true).flag("no", false);
    row.texts("none", none).texts("two", two);
    row.text_or_null("t", std::nullopt).number_or_null("n", std::nullopt);
    row.number_or_null("half", 0.5).text_or_null("some", "x");
    row.object("edge", [](RowText& edge) { edge.text("early", "2027-03-04"); });
    row.list("empty", none, [](RowText&, const std::string&) {});
    row.list("rows", two, [](RowText& one, const std::string& s) { one.text("s", s); });
  });
  Json rows = Json::array();
  for (const int item : {7, -8})
    rows.push_back({{"item", item},
                    {"yes", true},
                    {"no", false},
                    {"none", none},
                    {"two", two},
                    {"t", nullptr},
                    {"n", nullptr},
                    {"half", 0.5},
                    {"some", "x"},
                    {"edge", {{"early", "2027-03-04"}}},
                    {"empty", Json::array()},
                    {"rows", {{{"s", two[0]}}, {{"s", two[1]}}}}});
  EXPECT_EQ(out, written(rows));
}

TEST(RowText, AnEmptyListIsAPairOfBrackets) {
  std::string out;
  append_rows(out, std::vector<int>(), [](RowText&, int) {});
  EXPECT_EQ(out, "[]");
}

}  // namespace
}  // namespace wheyfield::api
