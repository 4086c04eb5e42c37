#include "fermentation/quality.h"

#include <functional>
#include <string>

#include <nlohmann/json.hpp>

#include <gtest/gtest.h>

#include <support/bundle.h>

namespace wheyfield::fermentation {
namespace {

const QualityTable& table_of_signs() {
  static const auto parsed = testing::value_or_abort(QualityTable::parse(testing::bundle()));
  return parsed;
}

TEST(FermentationQuality, TheGravestSignsOverrideTheModelInEveryStage) {
  for (const char* stage : {"milk", "rinse-water"})
    for (const char* sign : {"putrid", "coloured-mould", "ph-rising"}) {
      const QualityRow* row = table_of_signs().find(stage, sign);
      ASSERT_NE(row, nullptr) << stage << " " << sign;
      EXPECT_EQ(row->verdict, Verdict::discard);
      EXPECT_TRUE(row->overrides);
    }
}

TEST(FermentationQuality, OnlyWhatIsThrownAwayOverrides) {
  for (const QualityRow& row : table_of_signs().rows())
    EXPECT_TRUE(!row.overrides || row.verdict == Verdict::discard) << row.sign;
}

TEST(FermentationQuality, TheSignsThatALookCanNoteAreKnown) {
  for (const char* sign : {"clean-sour", "sweet", "other", "white-film", "gas", "gas-before-acid",
                           "milky", "not-set-late", "not-set-lost"})
    EXPECT_NE(table_of_signs().find("milk", sign), nullptr) << sign;
  EXPECT_EQ(table_of_signs().find("milk", "clear"), nullptr);
  EXPECT_EQ(table_of_signs().find("beer", "putrid"), nullptr);
}

TEST(FermentationQuality, WordsOfVerdicts) {
  EXPECT_EQ(verdict_word(Verdict::use), "use");
  EXPECT_EQ(verdict_word(Verdict::extend), "extend");
  EXPECT_EQ(verdict_word(Verdict::discard), "discard");
}

TEST(FermentationQuality, MistakesInTheTableAreNamed) {
  const auto problems_with = [](const std::function<void(nlohmann::json&)>& change) {
    auto data = nlohmann::json::parse(embedded::data_json());
    change(data["quality"][0]);
    const auto read = reference_data::ReferenceData::parse(data.dump());
    const auto table = QualityTable::parse(*read);
    return table ? std::string() : table.error().front().field;
  };
  EXPECT_EQ(problems_with([](auto& row) { row["verdict"] = "eat"; }), "/data/quality/0/verdict");
  EXPECT_EQ(problems_with([](auto& row) { row["causes"] = nlohmann::json::array(); }),
            "/data/quality/0/causes");
  EXPECT_EQ(problems_with([](auto& row) { row["sign"] = "sweet"; }), "/data/quality/1/sign");
  EXPECT_EQ(problems_with([](auto& row) { row.erase("overrides"); }), "/data/quality/0");
  EXPECT_EQ(problems_with([](auto&) {}), "");
}

}  // namespace
}  // namespace wheyfield::fermentation
