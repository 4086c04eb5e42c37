#include "dosing/soak.h"

#include <cmath>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::dosing {
namespace {

using crop::Seed;
using crop::Start;
using nlohmann::json;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::kilograms;
using testing::value;

const SoakTable& table() {
  static const SoakTable rows = testing::value_or_abort(SoakTable::parse(testing::bundle()));
  return rows;
}
outcome::Result<Soak> soak(SoakRequest request) {
  return table().soak(request, testing::bundle().constant("soak-most-hours").value);
}
SoakRequest of(const char* crop, double kg = 20) {
  return {crop, Start::direct, Seed::own, kilograms(kg), 500};
}

// Source: Harris et al. 1999, abstract: safe limits maize 24 h, rice 24 h, chickpea 10 h,
// published; Harris et al. 2001, wheat, 8 h tested; Chivasa et al., sorghum 10 h; the taught 12 h
// cut the first two.
TEST(DosingSoak, TheSmallerOfTwelveHoursAndTheCropsOwnLimit) {
  const struct {
    const char* crop;
    double published, hours;
  } rows[] = {{"maize", 24, 12},
              {"rice", 24, 12},
              {"chickpea", 10, 10},
              {"sorghum", 10, 10},
              {"wheat", 8, 8}};
  for (const auto& row : rows) {
    const auto got = soak(of(row.crop));
    ASSERT_TRUE(got) << row.crop;
    EXPECT_DOUBLE_EQ(got->row.hours.value, row.published) << row.crop;
    EXPECT_EQ(got->row.hours.origin.kind, "published") << row.crop;
    EXPECT_DOUBLE_EQ(got->hours, row.hours) << row.crop;
    EXPECT_EQ(got->crop_is_limit, row.published < 12) << row.crop;
  }
}

// Source: memory: millet 8 to 10 h; cowpea, groundnut and bean at most 6 to 8 h or none.
TEST(DosingSoak, LegumesTakeLessOrNone) {
  for (const char* crop : {"cowpea", "groundnut", "bean", "green-bean"}) {
    const auto got = soak(of(crop));
    ASSERT_TRUE(got) << crop;
    EXPECT_GE(got->hours, 6) << crop;
    EXPECT_LE(got->hours, 8) << crop;
    EXPECT_TRUE(got->or_none) << crop;
    EXPECT_EQ(got->splits, got->row.crop != "cowpea") << crop;
    EXPECT_EQ(got->row.hours.origin.kind, "memory") << crop;
  }
  EXPECT_FALSE(soak(of("maize"))->or_none);
  EXPECT_LE(soak(of("millet"))->hours, 10);
}

// Source: computed, water from memory: 20 kg of cereal seed take 20 L and 40 mL at 1:500; legumes
// half as much again.
TEST(DosingSoak, TwentyKilogramsTakeTwentyLitresAndFortyMillilitres) {
  EXPECT_NEAR(in_litres(soak(of("maize"))->water), 20, 1e-9);
  EXPECT_NEAR(in_millilitres(soak(of("maize"))->serum), 40, 1e-9);
  EXPECT_NEAR(in_litres(soak(of("bean"))->water), 30, 1e-9);
  EXPECT_NEAR(in_millilitres(soak(of("bean"))->serum), 60, 1e-9);
}

TEST(DosingSoak, DressedSeedTubersCuttingsAndUnknownCropsAreNotSoaked) {
  const auto code = [](const char* crop, Start start, Seed seed) {
    const auto got = soak({crop, start, seed, kilograms(5), 500});
    return got ? "" : got.error()[0].code;
  };
  EXPECT_EQ(code("maize", Start::direct, Seed::dressed), "seed-dressed");
  EXPECT_EQ(code("rice", Start::nursery, Seed::bought), "");
  EXPECT_EQ(code("potato", Start::tuber, Seed::own), "soak-not-seed");
  EXPECT_EQ(code("cassava", Start::cutting, Seed::own), "soak-not-seed");
  EXPECT_EQ(code("tomato", Start::nursery, Seed::own), "soak-crop-unknown");
  EXPECT_EQ(soak({"tomato", Start::direct, Seed::dressed, kilograms(-1), 500}).error().size(), 3u);
  for (double kg : {0.0, -2.0, std::nan("")})
    EXPECT_EQ(soak(of("maize", kg)).error()[0].field, "/mass");
}

TEST(DosingSoak, NoCropIsSoakedBeyondItsRowOrTheTaughtLimitAndWaterGrowsWithTheSeed) {
  testing::Draw draw(12);
  for (const SoakRow& row : table().rows())
    for (int i = 0; i < 50; ++i) {
      const double kg = draw.real(0.1, 60), most = draw.real(2, 30);
      const auto got = table().soak(of(row.crop.c_str(), kg), most);
      const auto twice = table().soak(of(row.crop.c_str(), 2 * kg), most);
      ASSERT_LE(got->hours, row.hours.value);
      ASSERT_LE(got->hours, most);
      ASSERT_TRUE(got->hours == most || got->hours == row.hours.value);
      ASSERT_NEAR(twice->water / got->water, 2, 1e-12);
      ASSERT_NEAR(got->water / got->serum, 500, 1e-9);
    }
}

TEST(DosingSoak, ATableWithoutNumbersIsRefused) {
  const auto code = [](const json& rows) {
    json tables = json::parse(embedded::data_json());
    tables["soak"] = rows;
    const auto data = testing::value_or_abort(reference_data::ReferenceData::parse(tables.dump()));
    const auto read = SoakTable::parse(data);
    return read ? "" : read.error()[0].code;
  };
  json rows = testing::bundle().section("soak");
  EXPECT_EQ(code(rows), "");
  EXPECT_EQ(code(json::array()), "data-missing");
  rows[0].erase("hours");
  EXPECT_EQ(code(rows), "data-missing");
  EXPECT_EQ(code({1}), "data-missing");
}

// In at 19:00, out at 07:00 is twelve hours on a clock, 21:00 to 07:00 ten; six hours overnight
// would end at 01:00, so they begin at 06:00 and end at noon.
TEST(DosingSoak, AShortSoakBeginsOnTheMorningOfSowing) {
  const SoakClock clock{value("soak-morning-up-to"), value("soak-morning-in"),
                        value("soak-evening-out")};
  const struct {
    double hours;
    bool morning;
    double in, out;
  } rows[] = {{12, false, 19, 7}, {10, false, 21, 7}, {8, true, 6, 14}, {6, true, 6, 12}};
  for (const auto& row : rows) {
    const SoakTimes times = soak_times(row.hours, clock);
    EXPECT_EQ(times.morning, row.morning) << row.hours;
    EXPECT_EQ(times.in, row.in) << row.hours;
    EXPECT_EQ(times.out, row.out) << row.hours;
  }
}

}  // namespace
}  // namespace wheyfield::dosing
