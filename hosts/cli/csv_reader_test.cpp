#include "cli/csv_reader.h"

#include <gtest/gtest.h>

#include "cli/farms_csv.h"

namespace wheyfield::cli {
namespace {

const InputProblem& only_problem(const Reading<Document>& reading) {
  EXPECT_FALSE(reading);
  EXPECT_EQ(reading.error().size(), 1U);
  return reading.error().front();
}

Reading<Document> farms(const std::string& text) {
  return parse_csv(text, "f.csv").and_then([](const CsvTable& table) {
    return farms_from_csv(table, "f.csv");
  });
}

TEST(CsvReader, TheSeparatorIsTheOneThatGivesEvenRows) {
  EXPECT_EQ(separator_of("farm,area\n1,0.5\n2,1\n"), ',');
  EXPECT_EQ(separator_of("farm;area\n1;0,5\n2;1,25\n"), ';');
  EXPECT_EQ(separator_of("farm\tarea\n1\t0,5\n"), '\t');
  EXPECT_EQ(separator_of("farm\n1\n"), ',');
}

TEST(CsvReader, QuotedCellsHoldSeparatorsQuotesAndLineEnds) {
  const auto table = parse_csv("Farm, Sown On\n\"1,\n\"\"a\"\"\",x\n2,y\n", "f.csv");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->header.cells, (std::vector<std::string>{"farm", "sown_on"}));
  ASSERT_EQ(table->rows.size(), 2U);
  EXPECT_EQ(table->rows[0].cells[0], "1,\n\"a\"");
  EXPECT_EQ(table->rows[1].line, 4);
}

TEST(CsvReader, AQuoteThatNeverEndsIsRefusedWhereItBegins) {
  const auto table = parse_csv("farm,area\n1,\"0.5\n2,1\n", "f.csv");
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().front().code, "csv-quote-open");
  EXPECT_EQ(table.error().front().place.line, 2);
}

TEST(CsvReader, EveryUnevenRowIsNamed) {
  const auto table = parse_csv("farm,area\n1,0,5\n2,1\n3\n4,1\n5,1\n", "f.csv");
  ASSERT_FALSE(table);
  ASSERT_EQ(table.error().size(), 2U);
  EXPECT_EQ(table.error()[0].place.line, 2);
  EXPECT_EQ(table.error()[1].place.line, 4);
}

TEST(FarmsCsv, RowsOfOneFarmAreItsFieldsAndBlankIsAbsent) {
  const auto read = farms("farm,place,crop,area,cap\n1,low,bean,1 acre,\n\n1,,kale,2 acre,\n");
  ASSERT_TRUE(read);
  ASSERT_EQ(read->json.size(), 1U);
  EXPECT_EQ(read->json[0]["fields"].size(), 2U);
  EXPECT_FALSE(read->json[0].contains("cap"));
  EXPECT_EQ(read->places.find("/farms/0/fields/1/area").line, 4);
}

TEST(FarmsCsv, AFarmDescribedInTwoWaysNamesBothLines) {
  const auto read =
      farms("farm,place,crop,area\n1,low,bean,1 acre\n2,low,pea,1 acre\n1,up,pea,1 acre\n");
  const InputProblem& problem = only_problem(read);
  EXPECT_EQ(problem.code, "farm-differs");
  EXPECT_EQ(problem.place.line, 4);
  EXPECT_EQ(std::get<long long>(problem.details.at("line").held()), 2);
  EXPECT_EQ(problem.exit, exit_codes::problems);
}

TEST(FarmsCsv, TheSameRowTwiceIsRefused) {
  const auto read = farms("farm,crop,area\n1,bean,1 acre\n2,pea,1 acre\n1,bean,1 acre\n");
  EXPECT_EQ(only_problem(read).code, "row-twice");
}

TEST(FarmsCsv, AMissingAndADoubledColumnAreRefused) {
  EXPECT_EQ(only_problem(farms("farm,crop\n1,bean\n")).field, "area");
  EXPECT_EQ(only_problem(farms("farm,crop,area,crop\n1,bean,1 acre,pea\n")).code, "column-twice");
}

}  // namespace
}  // namespace wheyfield::cli
