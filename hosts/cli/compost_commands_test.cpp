// The compost commands as they are typed, with their tables.
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "api/fields.h"
#include "cli/commands.h"

namespace wheyfield::cli {
namespace {

testing::Typed heap_command(std::vector<std::string> given) {
  return testing::typed(std::move(given), {"2027-03-30", 180});
}

bool tells(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// A table in the test's own folder, gone afterwards.
class Table {
 public:
  Table(const char* name, const char* text) : path_(::testing::TempDir() + name) {
    std::ofstream(path_) << text;
  }
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;
  ~Table() { std::remove(path_.c_str()); }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

TEST(CompostCommands, EveryDeclaredFieldButListsIsAnOptionWithWords) {
  for (const char* verb : {"mix", "turns", "log", "list"}) {
    const testing::Typed help = heap_command({"compost", verb, "--help"});
    EXPECT_EQ(help.out.find('['), help.out.find("[OPTIONS]")) << help.out;
    for (const api::Field& field : api::fields_of(std::string("compost.") + verb)->fields) {
      std::string option = "--" + std::string(field.name);
      std::replace(option.begin(), option.end(), '_', '-');
      const bool own = field.name != "pages" && field.name != "readings";
      EXPECT_EQ(tells(help.out, option), own) << verb << " " << option;
    }
  }
  EXPECT_EQ(heap_command({"compost"}).code, 2);
}

TEST(CompostCommands, TheMixReadsAsASentence) {
  const testing::Typed told =
      heap_command({"compost", "mix", "--put", "100 kg cattle-manure", "--add", "straw"});
  EXPECT_EQ(told.code, 0);
  EXPECT_TRUE(tells(told.out, "For 30:1 add 16 kg straw to 100 kg cattle manure.")) << told.out;
  EXPECT_FALSE(tells(told.out, "[")) << told.out;
}

TEST(CompostCommands, JsonIsAnAnswerWithoutPages) {
  const testing::Typed told =
      heap_command({"compost", "mix", "--put", "100 kg cattle-manure", "--add", "straw", "--json"});
  const auto answer = nlohmann::ordered_json::parse(told.out);
  EXPECT_NEAR(answer["parts"][1]["kg"].get<double>(), 16.286, 5e-4);
  EXPECT_FALSE(answer.contains("pages"));
}

TEST(CompostCommands, ThePracticeHeapCannotBeSaidForOneDayNobodyRead) {
  const testing::Typed told = heap_command(
      {"compost", "log", "examples/practice-heap.csv", "--built", "2027-03-11", "--ratio", "30"});
  EXPECT_EQ(told.code, 0) << told.err;
  EXPECT_TRUE(tells(told.out, "CANNOT BE SAID. Counted: 14 of 15 days, 7 of 5 turnings"))
      << told.out;
  EXPECT_TRUE(tells(told.out, "1 day without a reading: Sat 20 Mar."));
  EXPECT_TRUE(tells(told.out, "Lower by 40 %"));
}

TEST(CompostCommands, ThePracticeIngredientsMakeAHeap) {
  const testing::Typed told =
      heap_command({"compost", "mix", "--ingredients", "examples/practice-heap-ingredients.csv",
                    "--heap", "1000 L"});
  EXPECT_EQ(told.code, 0) << told.err;
  EXPECT_TRUE(tells(told.out, "Cheapest for C:N 25 to 30:")) << told.out;
}

TEST(CompostCommands, ProblemsOfATableNameLineAndColumn) {
  const Table log("heap.csv",
                  "date,celsius,turned\n2027-03-12,40,no\n2027-03-13,700,no\n2027-03-13,50,no\n");
  const testing::Typed told = heap_command({"compost", "log", log.path(), "--built", "2027-03-11"});
  EXPECT_EQ(told.code, 1);
  EXPECT_TRUE(tells(told.err, "heap.csv:3: reading 2, celsius \"700\"")) << told.err;
  EXPECT_TRUE(tells(told.err, "heap.csv:4: reading 3, date \"2027-03-13\"")) << told.err;
  const Table typo("ingredients.csv", "name,prise\nstraw,2\n");
  EXPECT_TRUE(tells(heap_command({"compost", "mix", "--ingredients", typo.path()}).err, "price"));
  const Table bare("bare.csv", "amount\n5 kg\n");
  EXPECT_EQ(heap_command({"compost", "mix", "--ingredients", bare.path()}).code, 1);
}

}  // namespace
}  // namespace wheyfield::cli
