// What a sprayer, can or leafy branch puts on the land, and what that means for one field.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DoseSprayer : public ::testing::Test {
 protected:
  Json ask(Json body) {
    if (!body.contains("strength")) body["strength"] = "1:500";
    return facade.ask("dose.sprayer", body);
  }
  static bool says(const Json& answer, const char* text) {
    return answer["pages"].dump().find(text) != std::string::npos;
  }
  Facade facade;
};

// Published example: 25 m2 in 50 s for 200 L/ha catches 0.5 L; at 55 s it would be 220.
TEST_F(DoseSprayer, FiftySecondsForTwentyFiveSquareMetresAndHalfALitreAre200LitresAHectare) {
  const Json timed = ask({{"by", "time"}, {"plot", "25 m2"}, {"cover", 50}, {"run", {"0.5 L"}}});
  EXPECT_EQ(timed["litres_per_ha"], 200.0);
  EXPECT_EQ(timed["serum_ml_per_100_m2"], 4.0);  // 2 L on 100 m2, a five-hundredth
  const Json slow =
      ask({{"by", "time"}, {"plot", "25 m2"}, {"cover", 55}, {"catch", 50}, {"run", {"0.5 L"}}});
  EXPECT_EQ(slow["litres_per_ha"], 220.0);
}

// Published class example: 1.01 L/min, 46 m/min, 0.51 m: 430.52 L/ha. 100 m then take 100/46 min.
TEST_F(DoseSprayer, FlowWalkAndSwathGiveThePublished430) {
  const Json answer =
      ask({{"by", "flow"}, {"run", {"1.01 L"}}, {"walk", 6000.0 / 46.0}, {"swath", "0.51 m"}});
  EXPECT_NEAR(answer["litres_per_ha"].get<double>(), 430.52, 0.005);
}

// Five extension sheets: fluid ounces caught are US gallons an acre. 40 oz are 1182.94 mL.
TEST_F(DoseSprayer, FortyOuncesOfThe128thAcreAreFortyGallonsAnAcre) {
  const Json answer = ask({{"by", "128th-acre"}, {"run", {"1182.94 mL"}}});
  EXPECT_NEAR(answer["us_gallons_per_acre"].get<double>(), 40.0, 2e-4);
  EXPECT_NEAR(answer["litres_per_ha"].get<double>(), 374.16, 0.005);
}

// Computed by hand: 300 L/ha on an acre are 121.406 L; 8 tanks of 15 L with 30 mL, 1.406 L with
// 2.81 mL. A cap of 7.5 mL: 4 caps a tank; half a cap (3.75 mL) is a third too much for the rest.
TEST_F(DoseSprayer, LoadsAndCapsForThisFieldAndTheLastPartLoad) {
  const Json answer = ask({{"by", "rate"},
                           {"rate", "300 L/ha"},
                           {"field", "1 acre"},
                           {"tank", "15 L"},
                           {"cap", "7.5 mL"},
                           {"pages", true}});
  const Json& field = answer["field"];
  EXPECT_NEAR(field["mix_l"].get<double>(), 121.406, 5e-4);
  EXPECT_NEAR(field["serum_ml"].get<double>(), 242.81, 5e-3);
  EXPECT_EQ(field["full_loads"], 8);
  EXPECT_EQ(field["serum_full_ml"], 30.0);
  EXPECT_EQ(field["caps"]["count"], 4.0);
  EXPECT_NEAR(field["last_l"].get<double>(), 1.406, 5e-4);
  EXPECT_NEAR(field["serum_last_ml"].get<double>(), 2.81, 5e-3);
  EXPECT_FALSE(field["caps_last"]["fits"].get<bool>());
  EXPECT_TRUE(says(answer, "8 full sprayers, each 4 caps of 7.5 mL (30 mL) in 15 L"));
  EXPECT_TRUE(says(answer, "2.81 mL by syringe in 1.41 L"));
}

TEST_F(DoseSprayer, LoadsThatComeOutEvenHaveNoLastLoad) {
  const Json answer = ask({{"by", "rate"},
                           {"rate", "200 L/ha"},
                           {"field", "1 ha"},
                           {"tank", "20 L"},
                           {"strength", "1:1000"}});
  EXPECT_EQ(answer["field"]["full_loads"], 10);
  EXPECT_EQ(answer["field"]["last_l"], 0.0);
  EXPECT_EQ(answer["field"]["caps_last"], nullptr);
}

// Computed: 10 L on 10 m2 are 10,000 L/ha, fifty times a 200 L/ha spray: 200 mL instead of 4 mL.
TEST_F(DoseSprayer, TheSameStrengthByCanBringsFiftyTimesTheSerum) {
  const Json answer = ask({{"by", "area"},
                           {"method", "can"},
                           {"plot", "10 m2"},
                           {"run", {"10 L"}},
                           {"usual", "200 L/ha"},
                           {"pages", true}});
  EXPECT_EQ(answer["litres_per_ha"], 10000.0);
  EXPECT_EQ(answer["times_usual"], 50.0);
  EXPECT_EQ(answer["serum_ml_per_100_m2"], 200.0);
  EXPECT_TRUE(says(answer, "200 mL of serum on 100 m2"));
  EXPECT_TRUE(says(answer, "50 times your usual 200 L"));
  EXPECT_EQ(answer["cautions"][0]["id"], "strong-can");
}

TEST_F(DoseSprayer, WithoutHerOwnRateTheAssumedOneIsAmongTheSources) {
  const Json answer = ask({{"by", "area"}, {"plot", "100 m2"}, {"run", {"2 L"}}});
  bool found = false;
  for (const Json& source : answer["sources"])
    for (const Json& use : source["used_for"]) found = found || use == "usual rate";
  EXPECT_TRUE(found);
}

// Memory: three runs, redo above 10 %. 2.0, 2.2, 2.3 L: 0.3 / 2.1667 = 13.8 %. 40 % apart: 2, 2.4,
// 3 are 1 / 2.4667 = 40.5 %.
TEST_F(DoseSprayer, ThreeRunsAndTheirSpread) {
  const auto runs = [&](Json runs) {
    return ask({{"by", "area"}, {"plot", "100 m2"}, {"run", std::move(runs)}});
  };
  const Json good = runs({"2 L", "2.1 L", "2 L"});
  EXPECT_TRUE(good["problems"].empty()) << good["problems"].dump();
  EXPECT_NEAR(good["litres_per_ha"].get<double>(), 203.333333, 1e-6);
  EXPECT_EQ(problem(runs({"2 L", "2.2 L", "2.3 L"}), "runs-spread")["severity"], "question");
  const Json apart = problem(runs({"2 L", "2.4 L", "3 L"}), "runs-apart");
  EXPECT_EQ(apart["severity"], "question");
  EXPECT_EQ(apart["field"], "/run");
  EXPECT_NE(apart["text"].get<std::string>().find("Run 1 gave 200 L/ha and run 3 gave 300 L/ha"),
            std::string::npos);
  EXPECT_EQ(problem(runs({"2 L"}), "runs-few")["severity"], "notice");
}

// Until it is settled which run was another job, nothing is worked out from their mean.
TEST_F(DoseSprayer, RunsThatAreNotTheSameJobGiveNoRateNoLoadsAndNoLineToPaste) {
  const Json answer = ask({{"by", "area"},
                           {"plot", "100 m2"},
                           {"run", {"2 L", "2.4 L", "3 L"}},
                           {"field", "1 acre"},
                           {"tank", "16 L"},
                           {"pages", true}});
  EXPECT_EQ(problem(answer, "runs-apart")["severity"], "question");
  for (const char* name : {"litres_per_ha", "litres_per_acre", "serum_ml_per_100_m2",
                           "us_gallons_per_acre", "times_usual", "field"})
    EXPECT_TRUE(answer[name].is_null()) << name;
  EXPECT_EQ(answer["runs"]["litres_per_ha"], Json({200.0, 240.0, 300.0}));
  EXPECT_TRUE(says(answer, "Run 3: 300 L on a hectare"));
  EXPECT_TRUE(says(answer, "They lie 41 % apart"));  // 1 / 2.4667 is 40.5 %
  for (const char* text : {"mix_rate", "mL of serum", "full sprayer"})
    EXPECT_FALSE(says(answer, text)) << text;
}

// Size 02 at 2 bar: 0.645 L/min (size rule). 0.72 L in a minute is 11.6 % more: worn.
TEST_F(DoseSprayer, AWornNozzleIsToldFromOneMinuteOfFlow) {
  const Json answer = ask({{"by", "flow"},
                           {"run", {"0.72 L"}},
                           {"walk", 90},
                           {"swath", "1 m"},
                           {"nozzle", "02"},
                           {"pressure", 2}});
  EXPECT_NEAR(answer["nozzle"]["litres_per_minute"].get<double>(), 0.645, 5e-4);
  EXPECT_EQ(answer["nozzle"]["state"], "worn");
}

// 0.30 L against 0.645 L is 53 % less: nothing wears to less, so it is asked about.
TEST_F(DoseSprayer, ABlockedNozzleIsNeverCalledGood) {
  const Json answer = ask({{"by", "flow"},
                           {"run", {"0.30 L"}},
                           {"walk", 90},
                           {"swath", "1 m"},
                           {"nozzle", "02"},
                           {"pressure", 2},
                           {"pages", true}});
  EXPECT_EQ(answer["nozzle"]["state"], "low");
  const Json low = problem(answer, "nozzle-low");
  EXPECT_EQ(low["severity"], "question");
  EXPECT_EQ(low["field"], "/nozzle");
  EXPECT_TRUE(says(answer, "(53 % less): too little"));
  EXPECT_FALSE(says(answer, "still good"));
}

// She caught twice as long as she covered: 237.2 L/ha would be double what the plot got.
TEST_F(DoseSprayer, WhatTheChosenWayDoesNotUseIsRefusedAndNeverPassedOver) {
  Json acre{{"by", "128th-acre"}, {"run", {"0.75 L"}}, {"cover", 51}, {"catch", 102}};
  const Json longer = problem(ask(acre), "catch-as-long");
  EXPECT_EQ(longer["field"], "/catch");
  EXPECT_NE(longer["cure"].get<std::string>().find("exactly as long"), std::string::npos);
  acre["catch"] = 51;
  EXPECT_NEAR(ask(acre)["litres_per_acre"].get<double>(), 96, 1e-6);
  acre.erase("cover");
  EXPECT_EQ(problem(ask(acre), "missing-cover")["field"], "/cover");
  acre.erase("catch");
  acre["plot"] = "100 m2";
  const Json plot = problem(ask(acre), "not-of-this-way");
  EXPECT_EQ(plot["field"], "/plot");
  EXPECT_NE(plot["cure"].get<std::string>().find("area, time"), std::string::npos);
  const Json timed{
      {"by", "area"}, {"plot", "100 m2"}, {"run", {"2 L"}}, {"cover", 50}, {"walk", 90}};
  Json fields = Json::array();
  const Json answer = ask(timed);
  for (const Json& one : answer["problems"])
    if (one["code"] == "not-of-this-way") fields.push_back(one["field"]);
  EXPECT_EQ(fields, Json({"/cover", "/walk"}));
  EXPECT_EQ(problem(ask({{"by", "rate"}, {"rate", "200 L/ha"}, {"cap", "5 mL"}}),
                    "missing-field")["field"],
            "/field");
}

TEST_F(DoseSprayer, SizesInTheWrongUnitAreRefusedAndUnusualRatesAsked) {
  Json field{{"by", "rate"}, {"rate", "200 L/ha"}, {"field", "1 acre"}, {"tank", "16 mL"}};
  EXPECT_EQ(problem(ask(field), "sprayer-out-of-range")["field"], "/tank");
  field["method"] = "can";
  field["tank"] = "160 L";
  EXPECT_EQ(problem(ask(field), "can-out-of-range")["field"], "/tank");
  EXPECT_EQ(problem(ask({{"by", "rate"}, {"rate", "1 L/ha"}}), "mix-rate-out-of-range")["field"],
            "/rate");
  const Json flow{{"by", "flow"}, {"run", {"1 L"}}, {"swath", "1 m"}, {"walk", 9}};
  EXPECT_EQ(problem(ask(flow), "walk-out-of-range")["field"], "/walk");
  // 20 L on 100 m2 by knapsack are 2000 L/ha, 809 L an acre: asked, and still told.
  const Json much = ask({{"by", "area"}, {"plot", "100 m2"}, {"run", {"20 L"}}});
  EXPECT_EQ(problem(much, "rate-unusual")["severity"], "question");
  EXPECT_EQ(problem(much, "rate-unusual")["field"], "/run");
  EXPECT_NEAR(much["litres_per_ha"].get<double>(), 2000, 1e-6);
  // By can it is within what a can puts on.
  EXPECT_TRUE(
      problem(ask({{"by", "area"}, {"plot", "100 m2"}, {"run", {"20 L"}}, {"method", "can"}}),
              "rate-unusual")
          .is_null());
}

// 0.05 L on 100 m2 are 2 L an acre: the season file takes 10 and more.
TEST_F(DoseSprayer, ALineThatTheSeasonFileWouldRefuseIsNotOffered) {
  const auto offers = [&](const char* run) {
    return says(ask({{"by", "area"}, {"plot", "100 m2"}, {"run", {run}}, {"pages", true}}),
                "mix_rate");
  };
  EXPECT_TRUE(offers("2 L"));
  EXPECT_FALSE(offers("0.05 L"));
}

// 0.6 L on 1/128 acre are 76.8 L an acre.
TEST_F(DoseSprayer, ACatchLeftOutIsAsLongAsTheCover) {
  const Json answer = ask({{"by", "128th-acre"}, {"run", {"0.6 L"}}, {"cover", 60}});
  EXPECT_NEAR(answer["litres_per_acre"].get<double>(), 76.8, 1e-6);
}

// Handbooks: 29.5735 and 28.4131 mL. 40 US ounces of the 1/128 acre are 40 US gallons an acre.
TEST_F(DoseSprayer, FluidOuncesAreOfTwoSizes) {
  const auto caught = [&](const char* run) { return ask({{"by", "128th-acre"}, {"run", {run}}}); };
  EXPECT_NEAR(caught("40 US fl oz")["us_gallons_per_acre"].get<double>(), 40, 1e-6);
  EXPECT_NEAR(caught("40 imperial fl oz")["us_gallons_per_acre"].get<double>(),
              40 * 28.4131 / 29.5735, 1e-4);
  const Json which = problem(caught("40 fl oz"), "unit-which");
  EXPECT_EQ(which["field"], "/run/0");
  EXPECT_NE(which["text"].get<std::string>().find("US fl oz, imperial fl oz"), std::string::npos);
  const Json unknown = problem(caught("2 tins"), "unit-unknown-here");
  EXPECT_EQ(unknown["cure"].get<std::string>().find("[[measures]]"), std::string::npos);
}

TEST_F(DoseSprayer, APlotIsWrittenByItsSidesToo) {
  EXPECT_EQ(ask({{"by", "area"}, {"plot", "10 x 5 m"}, {"run", {"1 L"}}})["litres_per_ha"], 200.0);
  EXPECT_EQ(problem(ask({{"by", "area"}, {"plot", "10 x 5"}, {"run", {"1 L"}}}),
                    "size-unreadable")["field"],
            "/plot");
}

// The usual mix is 247.1 L/ha: 250 is about that, 50 a fifth of it.
TEST_F(DoseSprayer, TheShareOfTheUsualMixIsASentenceThatCanBeSaid) {
  const auto page = [&](const char* rate) {
    return ask({{"by", "rate"},
                {"rate", rate},
                {"field", "8 acre"},
                {"tank", "16 L"},
                {"pages", true}})["pages"]
        .dump();
  };
  EXPECT_NE(page("250 L/ha").find("about the usual mix"), std::string::npos);
  EXPECT_NE(page("50 L/ha").find("20 % of the usual mix"), std::string::npos);
  EXPECT_NE(page("600 L/ha").find("2.4 times the usual mix"), std::string::npos);
  // 8 acres are 3.2375 ha; at 250 L/ha and 1:500 1618.7 mL: not to the hundredth of a millilitre.
  EXPECT_NE(page("250 L/ha").find("1,619 mL of serum in all"), std::string::npos);
}

TEST_F(DoseSprayer, MistakesAreNamedWithFieldAndCure) {
  const Json area{{"by", "area"}, {"plot", "100 m2"}, {"run", {"2 L"}}};
  const auto with = [&](const char* name, Json value) {
    Json body = area;
    body[name] = std::move(value);
    return ask(body);
  };
  Json both = area;
  both["nozzle"] = "02";
  both["pressure"] = 0;
  EXPECT_EQ(problem(ask(both), "pressure-zero")["field"], "/pressure");
  both["pressure"] = 200;  // kPa
  EXPECT_EQ(problem(ask(both), "pressure-out-of-range")["field"], "/pressure");
  both["pressure"] = 2;
  both["nozzle"] = "99";
  EXPECT_EQ(problem(ask(both), "nozzle-size-out-of-range")["field"], "/nozzle");
  both["nozzle"] = "big";
  EXPECT_EQ(problem(ask(both), "nozzle-size-unreadable")["field"], "/nozzle");
  EXPECT_EQ(problem(with("plot", "0 m2"), "not-above-zero")["field"], "/plot");
  EXPECT_EQ(problem(with("run", {"2 L", "0 L"}), "not-above-zero")["field"], "/run/1");
  EXPECT_EQ(problem(with("run", Json::array()), "missing-run")["field"], "/run");
  EXPECT_EQ(problem(with("field", "1 acre"), "missing-tank")["field"], "/tank");
  EXPECT_EQ(problem(with("cap", "5 L"), "cap-out-of-range")["field"], "/cap");
  EXPECT_EQ(problem(with("rnu", "2 L"), "key-unknown")["value"], "rnu");
  EXPECT_EQ(problem(ask({{"by", "time"}, {"plot", "25 m2"}, {"cover", 0}, {"run", {"1 L"}}}),
                    "not-above-zero")["field"],
            "/cover");
  EXPECT_EQ(problem(ask({{"by", "128th-acre"}, {"method", "can"}, {"run", {"1 L"}}}),
                    "sprayer-only")["field"],
            "/by");
  EXPECT_EQ(problem(ask({{"by", "rate"}, {"rate", "200"}}), "rate-unreadable")["field"], "/rate");
  const Json refused = ask({{"by", "rate"}});
  ASSERT_FALSE(refused["problems"].empty());
  for (const Json& one : refused["problems"]) EXPECT_FALSE(one["cure"].get<std::string>().empty());
}

}  // namespace
}  // namespace wheyfield
