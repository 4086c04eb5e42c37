#include "fermentation/parameters.h"

#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "embedded.h"
#include "fermentation/priors.h"

namespace wheyfield::fermentation {
namespace {

using nlohmann::json;

const ParameterTable& table() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

// The bundle with `spoil` done to the fermentation row `id`.
template <class Spoil>
outcome::Result<ParameterTable> spoiled(const std::string& id, Spoil spoil) {
  json bundle = json::parse(embedded::data_json());
  json& rows = bundle["fermentation"];
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i]["id"] == id) {
      spoil(rows, i);
      break;
    }
  return ParameterTable::parse(
      testing::value_or_abort(reference_data::ReferenceData::parse(bundle.dump())));
}

TEST(FermentationParameters, ARowMovesByItsLaw) {
  EXPECT_DOUBLE_EQ(table().row("fast-min").at(0), 4.8);
  EXPECT_DOUBLE_EQ(table().row("fast-min").at(-2), 4.8 - 2 * 1.4);
  EXPECT_DOUBLE_EQ(table().row("milk-strength").at(1), 0.85 * std::exp(0.15));
  EXPECT_DOUBLE_EQ(table().row("lactose").at(3), 127.0);
}

// Spreads that were told as factors: x / 1.8, 1.65, 1.35.
TEST(FermentationParameters, OneDeviationIsTheFactorThatTheNoteNames) {
  EXPECT_NEAR(table().row("lag-work").at(1), 1.8, 0.0005);
  EXPECT_NEAR(table().row("tolerant-beta").at(1), 4.0 * 1.65, 0.001);
  EXPECT_NEAR(table().row("vessel-pace").at(1), 1.35, 0.0005);
}

TEST(FermentationParameters, VesselsComeSmallestFirst) {
  ASSERT_EQ(table().vessels().size(), 4u);
  EXPECT_EQ(table().vessels().front().litres, 2.0);
  EXPECT_EQ(table().vessels()[2].hours, 6.1);
}

TEST(FermentationParameters, AMissingRowASpreadThatIsNotThereAndAnUnknownLawAreRefused) {
  const auto none = spoiled("fast-rate", [](json& rows, std::size_t i) { rows.erase(i); });
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().front().code, "data-missing");
  EXPECT_EQ(none.error().front().value, "fast-rate");

  const auto flat = spoiled("speed", [](json& rows, std::size_t i) { rows[i].erase("spread"); });
  ASSERT_FALSE(flat);
  EXPECT_EQ(flat.error().front().code, "data-missing");

  const auto law = spoiled("speed", [](json& rows, std::size_t i) { rows[i]["law"] = "even"; });
  ASSERT_FALSE(law);
  EXPECT_EQ(law.error().front().code, "data-range");
}

TEST(FermentationParameters, AnAnswerRestsOnEveryRow) {
  reference_data::UsedSources used;
  table().note(used);
  EXPECT_EQ(used.rows().size(), ParameterTable::required().size() + table().vessels().size());
}

TEST(FermentationPriors, OnlyTheNamedNumbersDiffer) {
  Deviates z{};
  of(z, Differs::fast_start) = -1;
  of(z, Differs::speed) = 2;
  const BatchModel batch = batch_of(table(), z);
  EXPECT_NEAR(batch.fast.start, 1e4, 1e-6);
  EXPECT_NEAR(batch.speed, std::exp(0.5), 1e-12);
  EXPECT_NEAR(batch.tolerant.start, 1e7, 1e-3);
  EXPECT_EQ(batch.fast.rate, 1.10);
}

TEST(FermentationPriors, AFailingBatchWorksAtUpToAQuarterOfItsSpeed) {
  Deviates z{};
  EXPECT_NEAR(failing_batch_of(table(), z).speed, 0.125, 1e-12);
  of(z, Differs::failing) = 8;
  EXPECT_NEAR(failing_batch_of(table(), z).acid_speed, 0.25, 1e-9);
  of(z, Differs::failing) = -8;
  EXPECT_NEAR(failing_batch_of(table(), z).speed, 0.0, 1e-9);
}

}  // namespace
}  // namespace wheyfield::fermentation
