// How big is this field, and how sure is that: by tape, corners, GPS and paces.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DoseArea : public ::testing::Test {
 protected:
  Json ask(const Json& body) { return facade.ask("dose.area", body); }
  Facade facade;
};

// Heron: 13-14-15 is 84, 30-40-50 is 600.
TEST_F(DoseArea, ThreeTapedSides) {
  EXPECT_NEAR(ask({{"side", {"13 m", "14 m", "15 m"}}})["area_m2"].get<double>(), 84, 1e-6);
  EXPECT_NEAR(ask({{"side", {"30 m", "40 m", "50 m"}}})["area_m2"].get<double>(), 600, 1e-6);
}

// Corners (0,0) (8,0) (14,8) (0,6): sides 8, 10, sqrt(200), 6, diagonal from the first to the third
// corner sqrt(260); by the shoelace (8*8 - 0) + (14*6 - 0) = 148, half of it 74.
TEST_F(DoseArea, FourSidesAndADiagonalAgainstTheMeanOfOppositeSides) {
  const Json answer =
      ask({{"side", {"8 m", "10 m", "14.1421356 m", "6 m"}}, {"diagonal", "16.1245155 m"}});
  EXPECT_NEAR(answer["area_m2"].get<double>(), 74, 1e-5);
  const double mean = (8 + 14.1421356) / 2 * (10 + 6) / 2;
  EXPECT_NEAR(answer["mean_sides_m2"].get<double>(), mean, 1e-5);
  EXPECT_NEAR(answer["mean_sides_over"].get<double>(), mean / 74 - 1, 1e-5);
}

// Shoelace: 1312.5 m2. The corners as people write them.
TEST_F(DoseArea, CornersInMetresHoweverTheyAreWritten) {
  for (const Json& corners :
       {Json{"0 0", "40 0", "45 30", "5 35"}, Json{"0; 0", "40;0", "45,0; 30,0", "5; 35"},
        Json{"0, 0", "40, 0", "45, 30", "5, 35"}})
    EXPECT_EQ(ask({{"corner", corners}})["area_m2"], 1312.5) << corners.dump();
}

// WGS-84: 1336.434 m2 = 0.33024 acre (computed apart).
TEST_F(DoseArea, GpsPointsOfASmallFieldCarryTheirErrorAndAskForATape) {
  const Json points{"-1.2921,36.8219", "-1.2921 36.82226", "-1.29183; 36.8223", "-1.2918 36.8219"};
  const Json answer = ask({{"point", points}, {"pages", true}});
  EXPECT_NEAR(answer["area_m2"].get<double>(), 1336.434, 5e-4);
  EXPECT_NEAR(answer["acres"].get<double>(), 0.33024, 5e-6);
  EXPECT_FALSE(answer["use_tape"].get<bool>());  // 0.13 ha
  // About 38 m of side: 1.41 x 3 m / 37 m is 11 to 12 %.
  EXPECT_NEAR(answer["error_part"].get<double>(), 0.116, 0.006);
  EXPECT_NE(answer["pages"].dump().find("A position that is 3 m off"), std::string::npos);
}

// 20 m square at the equator: 20 / 110574.276 and 20 / 111319.491 degrees. 3 m noise: 21 %.
TEST_F(DoseArea, TwentyMetresByGpsAreATwentyPercentGuess) {
  const Json square{"0.000000000 0.000000000", "0.000000000 0.000179663", "0.000180874 0.000179663",
                    "0.000180874 0.000000000"};
  const Json answer = ask({{"point", square}});
  EXPECT_NEAR(answer["area_m2"].get<double>(), 400, 0.01);
  EXPECT_NEAR(answer["error_part"].get<double>(), 0.212, 5e-4);
  EXPECT_TRUE(answer["use_tape"].get<bool>());
  EXPECT_EQ(problem(answer, "area-use-tape")["severity"], "notice");
  EXPECT_NEAR(ask({{"point", square}, {"noise", "1 m"}})["error_part"].get<double>(), 0.0707, 5e-4);
}

// 50 m in 66 paces; 60 x 40 paces are 2400 x (50 / 66)^2 = 1377.41 m2. 3 % a side: 6.09 %.
TEST_F(DoseArea, PacesCarryTwiceTheirError) {
  const Json answer = ask({{"taped", "50 m"}, {"paces", 66}, {"paced", {"60", "40"}}});
  EXPECT_NEAR(answer["area_m2"].get<double>(), 1377.41, 5e-3);
  EXPECT_NEAR(answer["error_part"].get<double>(), 0.0609, 1e-6);
}

// Two decimals are steps of 1.1 km. Four are 11 m, 3.192 m of deviation: with 3 m of noise
// sqrt(9 + 10.19) = 4.38 m.
TEST_F(DoseArea, TheErrorKnowsHowManyDecimalsWereWritten) {
  const Json rough{"-1.29 36.82", "-1.29 36.83", "-1.28 36.83"};
  EXPECT_EQ(problem(ask({{"point", rough}}), "gps-decimals-few")["field"], "/point");
  const auto error = [&](const Json& points) {
    return ask({{"point", points}})["error_m2"].get<double>();
  };
  const double four = error({"-1.2921 36.8219", "-1.2921 36.8229", "-1.2911 36.8229"});
  const double six = error({"-1.292100 36.821900", "-1.292100 36.822900", "-1.291100 36.822900"});
  EXPECT_NEAR(four / six, 4.3806 / 3.00017, 1e-3);
}

// 36.82 beside 36.822260: two decimals where six were written. Five beside three are a dropped zero
// or two: 36.822 for 36.82200.
TEST_F(DoseArea, APointWithFarFewerDecimalsIsRefusedByItsName) {
  const Json uneven =
      problem(ask({{"point", {"-1.292100 36.82", "-1.292100 36.822260", "-1.291830 36.822300"}}}),
              "gps-decimals-uneven");
  EXPECT_EQ(uneven["field"], "/point/0");
  EXPECT_EQ(uneven["value"], "-1.292100 36.82");
  EXPECT_EQ(uneven["severity"], "error");
  EXPECT_EQ(
      uneven["text"],
      "Point 1 has a coordinate with 2 decimals, where others have 6. Write all decimals that the "
      "phone shows, the zeros at the end too.");
  const Json answer =
      ask({{"point", {"-1.29210 36.822", "-1.29210 36.82226", "-1.29183 36.82230"}}});
  EXPECT_TRUE(problem(answer, "gps-decimals-uneven").is_null()) << answer["problems"];
  EXPECT_GT(answer["area_m2"].get<double>(), 0.0);
}

TEST_F(DoseArea, SwappedNumbersAreSeenOnThePage) {
  const Json points{"-1.29210 36.82190", "-1.29210 36.82226", "-1.29183 36.82230"};
  EXPECT_NE(ask({{"point", points}, {"pages", true}})["pages"].dump().find(
                "latitude 1.29 S, longitude 36.82 E"),
            std::string::npos);
}

// 1377 m2 after +-84 m2 are known to the ten, not to the metre.
TEST_F(DoseArea, TheLineForTheSeasonFileIsNoFinerThanWhatIsKnown) {
  const Json paced =
      ask({{"taped", "50 m"}, {"paces", 66}, {"paced", {"60", "40"}}, {"pages", true}});
  EXPECT_NE(paced["pages"].dump().find("1380 m2"), std::string::npos);
  EXPECT_NE(paced["pages"].dump().find("if the corners are square"), std::string::npos);
  const Json taped =
      ask({{"side", {"8 m", "10 m", "14.14 m", "6 m"}}, {"diagonal", "16.12 m"}, {"pages", true}});
  EXPECT_NE(taped["pages"].dump().find("if the diagonal runs inside"), std::string::npos);
  const Json five =
      problem(ask({{"side", {"5 m", "5 m", "5 m", "5 m", "5 m"}}}), "sides-three-or-four");
  EXPECT_NE(five["cure"].get<std::string>().find("split into triangles"), std::string::npos);
}

TEST_F(DoseArea, EveryWayTellsWhatItStandsOn) {
  for (const Json& body :
       {Json{{"side", {"13 m", "14 m", "15 m"}}}, Json{{"corner", {"0 0", "9 0", "9 9"}}},
        Json{{"taped", "50 m"}, {"paces", 66}, {"paced", {"60", "40"}}}}) {
    Json paged = body;
    paged["pages"] = true;
    const Json answer = ask(paged);
    bool computed = false;
    for (const Json& source : answer["sources"])
      computed = computed || source["kind"] == "computed";
    EXPECT_TRUE(computed) << body.dump();
    EXPECT_NE(answer["pages"].dump().find("The numbers here are: "), std::string::npos);
  }
}

TEST_F(DoseArea, MistakesAreNamedWithFieldAndCure) {
  const Json open = problem(ask({{"side", {"10 m", "20 m", "50 m"}}}), "triangle-cannot-close");
  EXPECT_EQ(open["field"], "/side/2");
  EXPECT_EQ(open["value"], "50 m");
  EXPECT_NE(open["text"].get<std::string>().find("30 m"), std::string::npos);
  EXPECT_EQ(problem(ask({{"side", {"5 m", "5 m", "5 m", "5 m"}}, {"diagonal", "11 m"}}),
                    "triangle-cannot-close")["field"],
            "/diagonal");
  EXPECT_EQ(problem(ask({{"side", {"5 m", "5 m", "5 m", "5 m"}}}), "sides-three-or-four")["field"],
            "/side");
  EXPECT_EQ(problem(ask({{"side", {"5 m", "5 kg", "5 m"}}}), "unit-other-kind")["field"],
            "/side/1");
  const Json crossed{"0 0", "10 10", "10 0", "0 10"};
  EXPECT_EQ(problem(ask({{"corner", crossed}}), "sides-cross")["field"], "/corner");
  EXPECT_EQ(problem(ask({{"corner", {"0 0", "0,5", "9 9"}}}), "corner-unreadable")["value"], "0,5");
  EXPECT_EQ(problem(ask({{"corner", {"0 0", "9 9"}}}), "corners-few")["field"], "/corner");
  EXPECT_EQ(problem(ask({{"point", {"91 0", "0 0.001", "0.001 0"}}}), "gps-out-of-range")["field"],
            "/point/0");
  EXPECT_EQ(problem(ask({{"paced", {"60"}}}), "paced-two-sides")["field"], "/paced");
  EXPECT_EQ(problem(ask({{"taped", "50 m"}, {"paces", 66}, {"paced", {"60", "0"}}}),
                    "not-above-zero")["field"],
            "/paced/1");
  EXPECT_EQ(problem(ask({{"corner", {"0 0", "9 0", "9 9"}}, {"noise", "2 m"}}),
                    "not-of-this-way")["field"],
            "/noise");
  EXPECT_EQ(problem(ask(Json::object()), "area-one-way")["severity"], "error");
  EXPECT_EQ(problem(ask({{"corner", crossed}, {"point", crossed}}), "area-one-way")["severity"],
            "error");
}

}  // namespace
}  // namespace wheyfield
