#include "reference_data/reference_data.h"

#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <nlohmann/json.hpp>

namespace wheyfield::reference_data {
namespace {

using nlohmann::json;

json real_tables() { return json::parse(embedded::data_json()); }

std::string first_code(const json& tables, std::string* field = nullptr) {
  const auto read = ReferenceData::parse(tables.dump());
  if (read) return "";
  if (field) *field = read.error()[0].field;
  return read.error()[0].code;
}

// Source: NIST Special Publication 811 (2008), B.8, published: factors as printed, to seven digits
// where they are not exact. The acre printed there is the US survey acre (4.046 873 E+03); ours is
// the international acre of 66 ft x 660 ft, 0.0004 % smaller.
TEST(ReferenceData, UnitFactorsAreThoseOfNistSp811) {
  const struct {
    const char* unit;
    double printed, tolerance;
  } rows[] = {{"ft", 3.048e-1, 0},
              {"in", 2.54e-2, 0},
              {"ha", 1.0e4, 0},
              {"L", 1.0e-3, 0},
              {"US gallon", 3.785412e-3, 0.5e-9},
              {"imperial gallon", 4.54609e-3, 0},
              {"lb", 4.535924e-1, 0.5e-7},
              {"oz", 2.834952e-2, 0.5e-8},
              {"t", 1.0e3, 0},
              {"acre", 4.046873e3, 0.02}};
  for (const auto& row : rows) {
    const quantity::Unit* unit = testing::bundle().units().find(row.unit);
    ASSERT_NE(unit, nullptr) << row.unit;
    EXPECT_NEAR(unit->factor, row.printed, row.tolerance) << row.unit;
  }
}

// Computed from the exact foot, inch and pound: another road to the factors.
TEST(ReferenceData, UnitFactorsAgreeWithEachOther) {
  const auto factor = [](const char* name) { return testing::bundle().units().find(name)->factor; };
  EXPECT_NEAR(factor("acre"), 66 * 660 * factor("ft") * factor("ft"), 1e-9);
  EXPECT_NEAR(factor("US gallon"), 231 * factor("in") * factor("in") * factor("in"), 1e-15);
  EXPECT_NEAR(factor("ft"), 12 * factor("in"), 1e-15);
  EXPECT_NEAR(factor("lb"), 16 * factor("oz"), 1e-12);
  EXPECT_DOUBLE_EQ(factor("m3"), 1000 * factor("L"));
  EXPECT_DOUBLE_EQ(factor("L"), 1000 * factor("mL"));
}

// Local tins, bags and barrows have no fixed size (published: national household surveys list them
// without one), so none is built in.
TEST(ReferenceData, NoUnitWithoutFixedSizeIsBuiltIn) {
  for (const char* name : {"debe", "bag", "tin", "teaspoon", "cap", "handful", "timad", "bucket"})
    EXPECT_EQ(testing::bundle().units().find(name), nullptr) << name;
}

TEST(ReferenceData, EveryRequiredConstantLiesInItsRangeAndNamesAListedSource) {
  for (const std::string& id : ReferenceData::required_constants()) {
    const Sourced& constant = testing::bundle().constant(id);
    EXPECT_LE(constant.low, constant.value) << id;
    EXPECT_LE(constant.value, constant.high) << id;
    EXPECT_FALSE(constant.unit.empty()) << id;
    EXPECT_EQ(testing::bundle().sources().count(constant.origin.source), 1u) << id;
  }
}

TEST(ReferenceData, EveryConstantIsMissedWhenItIsTakenAway) {
  for (const std::string& id : ReferenceData::required_constants()) {
    json tables = real_tables();
    json kept = json::array();
    for (const json& row : tables["constants"])
      if (row["id"] != id) kept.push_back(row);
    ASSERT_EQ(kept.size() + 1, tables["constants"].size()) << id;
    tables["constants"] = kept;
    EXPECT_EQ(first_code(tables), "data-missing") << id;
  }
}

TEST(ReferenceData, ANumberWithoutItsBirthCertificateIsRefusedNeverFilledIn) {
  for (const char* member : {"value", "low", "high", "unit", "kind", "source"}) {
    json tables = real_tables();
    ASSERT_EQ(tables["constants"][0].erase(member), 1u) << member;
    std::string field;
    EXPECT_EQ(first_code(tables, &field), "data-missing") << member;
    EXPECT_EQ(field, std::string("/data/constants/0/") + member);
  }
}

TEST(ReferenceData, AValueOutsideItsOwnRangeIsRefused) {
  json tables = real_tables();
  tables["constants"][0]["value"] = tables["constants"][0]["high"].get<double>() + 1;
  EXPECT_EQ(first_code(tables), "data-range");
}

TEST(ReferenceData, AUnitOfNoKnownKindIsRefused) {
  json tables = real_tables();
  tables["units"][0]["dimension"] = "time";
  std::string field;
  EXPECT_EQ(first_code(tables, &field), "data-missing");
  EXPECT_EQ(field, "/data/units/0/dimension");
}

TEST(ReferenceData, AllMistakesAreToldAtOnce) {
  json tables = real_tables();
  tables["constants"][0].erase("value");
  tables["units"][0].erase("factor");
  const auto read = ReferenceData::parse(tables.dump());
  ASSERT_FALSE(read);
  EXPECT_GE(read.error().size(), 2u);
}

TEST(ReferenceData, BrokenOrEmptyTextIsRefused) {
  for (const char* text : {"", "{", "[]", "7", "\xFF"}) {
    const auto read = ReferenceData::parse(text);
    ASSERT_FALSE(read) << text;
    EXPECT_EQ(read.error()[0].code, "data-unreadable") << text;
  }
  EXPECT_EQ(first_code(json::object()), "data-missing");
}

TEST(ReferenceData, SourcesUsedAreListedOnceAndInAFixedOrder) {
  UsedSources used;
  used.note({"published", "b", "p. 2"}, "dose");
  used.note({"published", "a", ""}, "dose");
  used.note({"published", "b", "p. 2"}, "dose");
  ASSERT_EQ(used.rows().size(), 2u);
  EXPECT_EQ(std::get<0>(*used.rows().begin()), "a");
}

}  // namespace
}  // namespace wheyfield::reference_data
