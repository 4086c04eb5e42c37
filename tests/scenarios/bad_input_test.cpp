// What a tired hand writes into a season file, and what it is told.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

class BadInput : public ::testing::Test {
 protected:
  // Plans `season` and expects this error at this field; nothing of a plan may be given.
  Json refused(const Json& season, const char* code, const char* field) {
    const Json answer = facade.plan(season);
    const Json found = problem(answer, code);
    EXPECT_FALSE(found.is_null()) << code << " in " << answer["problems"].dump(1);
    if (found.is_null()) return found;
    EXPECT_EQ(found["field"], field);
    EXPECT_EQ(found["severity"], "error");
    EXPECT_FALSE(found["expected"].get<std::string>().empty());
    EXPECT_FALSE(found["cure"].get<std::string>().empty());
    EXPECT_EQ(found["text"].get<std::string>().find("[problem."), std::string::npos)
        << found["text"];
    EXPECT_FALSE(answer.contains("uses"));
    return found;
  }
  Json asked(const Json& season, const char* code, const char* field) {
    const Json answer = facade.plan(season);
    const Json found = problem(answer, code);
    EXPECT_FALSE(found.is_null()) << code << " in " << answer["problems"].dump(1);
    if (found.is_null()) return found;
    EXPECT_EQ(found["field"], field);
    EXPECT_EQ(found["severity"], "question");
    EXPECT_TRUE(answer.contains("uses"));
    return found;
  }
  Facade facade;
  Json season = practice();
};

// The JSON library copies and writes what it read by functions that call themselves.
TEST_F(BadInput, ARequestNestedThousandsDeepIsRefused) {
  for (const std::size_t depth : {1'000u, 100'000u}) {
    const std::string deep = std::string(depth, '[') + std::string(depth, ']');
    const Json answer = Json::parse(
        facade.core().call("call", R"({"action":"season.plan","body":{"season":)" + deep + "}}"));
    EXPECT_FALSE(problem(answer, "json-unreadable").is_null()) << depth;
  }
}

TEST_F(BadInput, AnUnknownKeyIsAnsweredWithTheNearestOne) {
  season["season"]["frist_start"] = "2027-03-04";
  const Json found = refused(season, "key-unknown", "/season/frist_start");
  EXPECT_NE(found["cure"].get<std::string>().find("first_start"), std::string::npos);
}

TEST_F(BadInput, ABlankPriceIsNeverGuessed) {
  season["prices"][0]["price"] = "";
  refused(season, "missing-price", "/prices/0/price");
}

TEST_F(BadInput, AnItemWithoutAnyPriceIsNamed) {
  Json kept = Json::array();
  for (const Json& price : season["prices"])
    if (price["item"] != "molasses") kept.push_back(price);
  season["prices"] = kept;
  EXPECT_EQ(refused(season, "price-missing", "/prices")["value"], "molasses");
  EXPECT_FALSE(
      problem(facade.ask("season.check", {{"season", season}}), "price-missing").is_null());
}

TEST_F(BadInput, ANegativeAreaIsRefused) {
  season["farms"][2]["fields"][0]["area"] = "-0.5 acre";
  refused(season, "not-above-zero", "/farms/2/fields/0/area");
}

TEST_F(BadInput, HectaresAmongAcresAreAskedAbout) {
  season["farms"][8]["fields"][0]["area"] = "0.5 ha";
  const Json found = asked(season, "area-other-unit", "/farms/8/fields/0/area");
  EXPECT_NE(found["text"].get<std::string>().find("71 x 71 m"), std::string::npos);
}

TEST_F(BadInput, AFieldAboveTheSetSizeIsAskedAboutWithItsSide) {
  season["farms"][0]["fields"][0]["area"] = "5 acre";
  const Json found = asked(season, "area-large", "/farms/0/fields/0/area");
  EXPECT_NE(found["text"].get<std::string>().find("142 x 142 m"), std::string::npos);
}

TEST_F(BadInput, AStrengthThatDisagreesWithTheSeasonDoseIsAskedAbout) {
  season["season"]["strength"] = "1:50";
  const Json found = asked(season, "season-dose-disagrees", "/season/strength");
  EXPECT_NE(found["text"].get<std::string>().find("10 L an acre-season"), std::string::npos);
  EXPECT_TRUE(problem(facade.plan(practice()), "season-dose-disagrees").is_null());
}

TEST_F(BadInput, HalfAnAcreIsEchoedAsFortyFiveByFortyFiveMetres) {
  const Json answer = facade.ask("season.check", {{"season", season}, {"pages", true}});
  EXPECT_NE(answer["pages"].dump().find("about 45 x 45 m"), std::string::npos);
}

TEST_F(BadInput, The29thOfFebruaryIsRefusedWithTheLastDay) {
  season["season"]["first_start"] = "2027-02-29";
  const Json found = refused(season, "date-impossible", "/season/first_start");
  EXPECT_NE(found["text"].get<std::string>().find("2027-02-28"), std::string::npos);
}

TEST_F(BadInput, AnUnknownCropIsAnsweredWithTheNearestOne) {
  season["farms"][0]["fields"][0]["crop"] = "maise";
  const Json found = refused(season, "crop-unknown", "/farms/0/fields/0/crop");
  EXPECT_NE(found["cure"].get<std::string>().find("maize"), std::string::npos);
}

TEST_F(BadInput, AVesselWithoutFillLineIsToldHowToMeasure) {
  season["vessels"][0].erase("fill_line");
  const Json found = refused(season, "missing-fill_line", "/vessels/0/fill_line");
  EXPECT_NE(found["cure"].get<std::string>().find("two thirds"), std::string::npos);
}

TEST_F(BadInput, HeatedOrRawIsARequiredAnswer) {
  season["vessels"][0].erase("milk");
  const Json found = refused(season, "missing-milk", "/vessels/0/milk");
  const std::string cure = found["cure"];
  EXPECT_LT(cure.find("heated"), cure.find("raw"));
}

TEST_F(BadInput, TheLifeOfTheSerumMustBeEnteredByTheGroup) {
  season["season"].erase("serum_life");
  refused(season, "missing-serum_life", "/season/serum_life");
}

TEST_F(BadInput, AFarmCodeUsedTwiceIsRefused) {
  season["farms"].push_back(season["farms"][10]);
  const std::string field = "/farms/" + std::to_string(season["farms"].size() - 1) + "/code";
  refused(season, "farm-code-twice", field.c_str());
}

TEST_F(BadInput, AnUnmeasuredCapIsSaidAndNeverGuessed) {
  const Json answer = facade.plan(season);
  const Json found = problem(answer, "cap-unmeasured-farm");
  ASSERT_FALSE(found.is_null());
  EXPECT_EQ(found["field"], "/farms/13/cap");
  EXPECT_EQ(found["severity"], "notice");
}

TEST_F(BadInput, AMinimumAboveTheMaximumIsRefused) {
  season["places"][0]["months"][1]["min"] = "29.8";
  refused(season, "minimum-above-maximum", "/places/0/months/1/min");
}

TEST_F(BadInput, FahrenheitIsSeen) {
  season["places"][0]["months"][1]["max"] = "84";
  const Json found = refused(season, "temperature-out-of-range", "/places/0/months/1/max");
  EXPECT_NE(found["cure"].get<std::string>().find("Fahrenheit"), std::string::npos);
}

TEST_F(BadInput, TheAltitudeRuleIsRefusedAtTheCoast) {
  season["places"][0].erase("months");
  season["places"][0]["altitude"] = "55 m";
  refused(season, "altitude-too-low", "/places/0/altitude");
}

TEST_F(BadInput, AltitudeAloneIsUsedAndSaid) {
  season["places"][0].erase("months");
  const Json found = problem(facade.plan(season), "temperature-from-altitude");
  ASSERT_FALSE(found.is_null());
  EXPECT_EQ(found["severity"], "notice");
}

TEST_F(BadInput, ANumberThatCouldBeAThousandIsNotRead) {
  season["farms"][0]["fields"][0]["area"] = "1,234 m2";
  refused(season, "number-ambiguous", "/farms/0/fields/0/area");
}

TEST_F(BadInput, ADecimalCommaIsReadAsADecimalComma) {
  season["farms"][0]["fields"][0]["area"] = "0,5 acre";
  const Json plan = facade.plan(season);
  EXPECT_NEAR(plan["season"]["acres"].get<double>(), 19.125, 1e-9);
}

TEST_F(BadInput, AMisspeltStockItemIsAnsweredWithTheNearestOne) {
  season["stock"].push_back({{"item", "mollasses"}, {"amount", "2 L"}});
  const std::string field = "/stock/" + std::to_string(season["stock"].size() - 1) + "/item";
  const Json found = refused(season, "stock-item-unknown", field.c_str());
  EXPECT_NE(found["cure"].get<std::string>().find("\"molasses\""), std::string::npos);
}

TEST_F(BadInput, SerumByWeightIsRefused) {
  season["stock"] =
      Json::array({{{"item", "serum"}, {"amount", "5 kg"}, {"made_on", "2027-02-01"}}});
  refused(season, "stock-unit", "/stock/0/amount");
}

TEST_F(BadInput, TwoVesselsOfOneNameAreRefused) {
  season["vessels"][1]["name"] = season["vessels"][0]["name"];
  refused(season, "vessel-name-twice", "/vessels/1/name");
}

TEST_F(BadInput, AFillLineNearTheBrimIsAskedAbout) {
  season["vessels"][0]["fill_line"] = season["vessels"][0]["size"];
  EXPECT_NE(asked(season, "fill-line-high", "/vessels/0/fill_line")["text"].get<std::string>().find(
                "75 %"),
            std::string::npos);
}

TEST_F(BadInput, AYearWrittenWrongIsRefused) {
  season["farms"][0]["fields"][0]["sown_on"] = "2072-03-22";
  refused(season, "sown-outside", "/farms/0/fields/0/sown_on");
}

TEST_F(BadInput, AFieldOfLastSeasonIsSaidToGetNothing) {
  season["farms"][0]["fields"][0]["sown_on"] = "2026-05-01";
  const Json found = problem(facade.plan(season), "field-without-use");
  ASSERT_FALSE(found.is_null());
  EXPECT_EQ(found["field"], "/farms/0/fields/0/sown_on");
}

TEST_F(BadInput, ADayToHarvestIsAskedAbout) {
  season["farms"][0]["fields"][0]["harvest_after"] = "1 day";
  asked(season, "harvest-far-from-table", "/farms/0/fields/0/harvest_after");
}

TEST_F(BadInput, AHectareAmongAFewAcresIsAskedAbout) {
  Json few = Json::array({season["farms"][0], season["farms"][1], season["farms"][2]});
  for (Json& farm : few) {
    farm["fields"] = Json::array({farm["fields"][0]});
    farm.erase("borrows_sprayer_of");
  }
  few[0]["fields"][0]["area"] = "1 ha";
  season["farms"] = few;
  season["absences"] = Json::array();
  for (Json& vessel : season["vessels"]) vessel["at"] = few[1]["code"];
  asked(season, "area-other-unit", "/farms/0/fields/0/area");
}

TEST_F(BadInput, CansThatCannotHoldTheStockAreNamed) {
  season["containers"] = Json::array({{{"kind", "can"}, {"size", "5 L"}, {"count", 1}}});
  EXPECT_FALSE(problem(facade.plan(season), "storage-short").is_null());
  season["containers"][0]["count"] = 40;
  EXPECT_TRUE(problem(facade.plan(season), "storage-short").is_null());
}

TEST_F(BadInput, ASeasonWithoutMilkIsToldOfItsMilkAndNotOfAVessels) {
  season.erase("milk");
  EXPECT_EQ(refused(season, "missing", "/milk")["text"].get<std::string>().find("Heated"),
            std::string::npos);
}

TEST_F(BadInput, AFlowerSeenBeforeSowingIsRefused) {
  season["farms"][2]["fields"][0]["flower_or_swelling_on"] = "2027-03-01";
  refused(season, "observation-before-planting", "/farms/2/fields/0/flower_or_swelling_on");
}

TEST_F(BadInput, SeedByTheLitreIsRefused) {
  season["farms"][4]["fields"][0]["seed_mass"] = "4 L";
  refused(season, "unit-other-kind", "/farms/4/fields/0/seed_mass");
}

TEST_F(BadInput, AnUnknownStationIsAnsweredWithTheKnownOnes) {
  season["places"][0]["station"] = "nairoby";
  refused(season, "station-unknown", "/places/0/station");
}

TEST_F(BadInput, AGapInTheReadingsIsNamedByItsFirstDay) {
  season["places"][0]["readings"] =
      Json::array({{{"date", "2027-03-01"}, {"min", "15"}, {"max", "28"}},
                   {{"date", "2027-03-03"}, {"min", "15"}, {"max", "28"}}});
  EXPECT_FALSE(problem(facade.plan(season), "reading-gap").is_null());
}

TEST_F(BadInput, AllMistakesAreToldInOnePass) {
  season["season"]["first_start"] = "2027-02-29";
  season["farms"][0]["fields"][0]["area"] = "-1 acre";
  season["vessels"][1].erase("fill_line");
  const Json answer = facade.plan(season);
  for (const char* code : {"date-impossible", "not-above-zero", "missing-fill_line"})
    EXPECT_FALSE(problem(answer, code).is_null()) << code;
}

TEST_F(BadInput, TheDoorSurvivesNonsense) {
  for (const char* text : {"", "{", "[]", "null", "{\"action\":5}", "{\"action\":\"season.plan\"}",
                           "{\"action\":\"season.plan\",\"body\":[]}",
                           "{\"action\":\"season.plan\",\"body\":{\"season\":{\"farms\":7}}}",
                           "{\"action\":\"recipe.show\",\"body\":{\"recipe\":7}}",
                           "{\"action\":\"recipe.check\",\"body\":{\"definition\":[1,2]}}",
                           "{\"action\":\"dose.mix\",\"body\":{\"water\":{}}}", "\xff\xfe"}) {
    const Json answer = Json::parse(facade.core().call("call", text));
    EXPECT_FALSE(answer["problems"].empty()) << text;
  }
  api::Core closed;
  EXPECT_EQ(Json::parse(closed.call("call", "{}"))["problems"][0]["code"], "session-missing");
}

TEST_F(BadInput, ABrokenDataBundleIsRefusedAtOpening) {
  Json answer =
      Json::parse(facade.core().call("open", "{\"data\":{},\"words\":{},\"date\":\"x\"}"));
  EXPECT_EQ(answer["problems"][0]["code"], "words-unreadable");
}

TEST_F(BadInput, ARefusedOpeningIsSaidInTheWordsItBrought) {
  const auto opened = [](const std::string& data, const std::string& date) {
    api::Core core;
    const std::string request = "{\"data\":" + data +
                                ",\"words\":" + std::string(embedded::words_json("en")) +
                                ",\"date\":\"" + date + "\"}";
    return Json::parse(core.call("open", request))["problems"];
  };
  const Json date = opened(std::string(embedded::data_json()), "2027-02-30");
  ASSERT_EQ(date.size(), 1u);
  EXPECT_EQ(date[0]["code"], "date-impossible");
  EXPECT_EQ(date[0]["field"], "/date");
  EXPECT_EQ(date[0]["expected"], "There is no such day; that month ends on 2027-02-28.");
  const Json data = opened("{}", "2027-02-20");
  ASSERT_FALSE(data.empty());
  for (const Json& one : data) {
    EXPECT_EQ(one["code"], "data-missing");
    EXPECT_NE(one["expected"].get<std::string>().find("is missing from the data"),
              std::string::npos);
  }
}

TEST_F(BadInput, WithoutAnyWordsAProblemHasItsCodeAndNoSentence) {
  api::Core closed;
  const Json found = Json::parse(closed.call("open", "{}"))["problems"][0];
  EXPECT_EQ(found["code"], "words-unreadable");
  for (const char* sentence : {"expected", "cure", "text"}) EXPECT_EQ(found[sentence], "");
}

TEST_F(BadInput, AMixOrACapBeyondItsLimitsIsRefusedWithThem) {
  season["farms"][0]["mix_rate"] = "9 L/acre";
  season["farms"][1]["cap"] = "0.2 L";
  EXPECT_EQ(refused(season, "mix-rate-out-of-range", "/farms/0/mix_rate")["expected"],
            "Between 10 and 5000 L an acre was expected.");
  EXPECT_EQ(refused(season, "cap-out-of-range", "/farms/1/cap")["expected"],
            "A cap of 1 to 100 mL was expected.");
}

TEST_F(BadInput, AMixOrACapAtItsLimitIsTaken) {
  season["farms"][0]["mix_rate"] = "5000 L/acre";
  season["farms"][1]["mix_rate"] = "10 L/acre";
  season["farms"][0]["cap"] = "0.1 L";
  season["farms"][1]["cap"] = "1 mL";
  const Json answer = facade.ask("season.check", {{"season", season}});
  EXPECT_TRUE(problem(answer, "mix-rate-out-of-range").is_null());
  EXPECT_TRUE(problem(answer, "cap-out-of-range").is_null());
}

TEST_F(BadInput, ACanASprayerAPlantsMixOrASpacingBeyondItsLimitsIsRefusedWithThem) {
  season["farms"][0]["can"] = "20 mL";
  season["farms"][1]["can"] = "200 L";
  season["farms"][0]["sprayer"] = "160 L";
  season["farms"][5]["fields"][0]["per_plant"] = "200 L";
  season["farms"][5]["fields"][0]["spacing"] = "60 x 60 m";
  EXPECT_EQ(refused(season, "can-out-of-range", "/farms/0/can")["expected"],
            "A can of 1 to 50 L was expected.");
  EXPECT_EQ(refused(season, "sprayer-out-of-range", "/farms/0/sprayer")["expected"],
            "A sprayer of 0.5 to 30 L was expected.");
  EXPECT_EQ(refused(season, "plant-mix-out-of-range", "/farms/5/fields/0/per_plant")["expected"],
            "Between 0.01 and 20 L a plant were expected.");
  EXPECT_EQ(refused(season, "spacing-out-of-range", "/farms/5/fields/0/spacing")["expected"],
            "Plants 0.02 to 15 m apart were expected.");
}

TEST_F(BadInput, EitherNumberOfASpacingCanBeTheWrongOneAndIsToldOnce) {
  season["farms"][5]["fields"][0]["spacing"] = "60 x 0.6 cm";
  refused(season, "spacing-out-of-range", "/farms/5/fields/0/spacing");
  season["farms"][5]["fields"][0]["spacing"] = "0.6 x 0.6 cm";
  int told = 0;
  const Json answer = facade.plan(season);
  for (const Json& one : answer["problems"]) told += one["code"] == "spacing-out-of-range";
  EXPECT_EQ(told, 1);
}

TEST_F(BadInput, MeasuresAtTheirLimitsAreTaken) {
  season["farms"][0]["can"] = "1 L";
  season["farms"][1]["can"] = "50 L";
  season["farms"][0]["sprayer"] = "500 mL";
  season["farms"][3]["sprayer"] = "30 L";
  season["farms"][5]["fields"][0]["per_plant"] = "10 mL";
  season["farms"][5]["fields"][0]["spacing"] = "2 x 1500 cm";
  const Json answer = facade.ask("season.check", {{"season", season}});
  for (const char* code : {"can-out-of-range", "sprayer-out-of-range", "plant-mix-out-of-range",
                           "spacing-out-of-range"})
    EXPECT_TRUE(problem(answer, code).is_null()) << code;
}

TEST_F(BadInput, ACropStartedInAnUnusualWayIsAskedAbout) {
  EXPECT_TRUE(problem(facade.plan(season), "sowing-unusual").is_null());
  season["farms"][0]["fields"][0]["sowing"] = "tuber";  // maize
  const Json found = asked(season, "sowing-unusual", "/farms/0/fields/0/sowing");
  EXPECT_EQ(found["value"], "tuber");
  EXPECT_NE(found["text"].get<std::string>().find("direct"), std::string::npos) << found["text"];
}

TEST_F(BadInput, WhatWasSeenOnADayToComeIsAskedAbout) {
  season["farms"][2]["fields"][0]["emerged_on"] = "2027-04-01";
  const Json found = asked(season, "seen-after-today", "/farms/2/fields/0/emerged_on");
  EXPECT_NE(found["text"].get<std::string>().find("2027-02-20"), std::string::npos);
  Facade later("2027-04-01");
  EXPECT_TRUE(problem(later.plan(season), "seen-after-today").is_null());
}

TEST_F(BadInput, AnUnknownUnitOfAPackIsAnsweredWithTheKnownOnes) {
  season["prices"][0]["pack"] = "2 debe";
  const Json found = refused(season, "unit-unknown", "/prices/0/pack");
  EXPECT_NE(found["cure"].get<std::string>().find("L, kg, m, piece"), std::string::npos);
}

// House rule: rinse-water and cleaning have their own words.
TEST_F(BadInput, NoSentenceSaysWash) {
  EXPECT_EQ(embedded::words_json("en").find("wash"), std::string_view::npos);
}

}  // namespace
}  // namespace wheyfield
