// The hot heap through the facade: what goes in, when it is turned, what its log says.
#include <gtest/gtest.h>

#include "support/draw.h"
#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class Compost : public ::testing::Test {
 protected:
  Json mix(Json body) {
    body["pages"] = true;
    return facade.ask("compost.mix", body);
  }
  Json straw_to(const char* manure, Json more = Json::object()) {
    Json body{{"put", Json::array({manure})}, {"add", Json::array({"straw"})}};
    body.update(more);
    return mix(body);
  }
  // Days 1 to `days`, turned by the calendar.
  static Json rows(int days, double celsius) {
    Json list = Json::array();
    for (int day = 1; day <= days; ++day) {
      const std::string date = "2027-03-" + std::string(day < 10 ? "0" : "") + std::to_string(day);
      const bool turned = day >= 4 && day <= 16 && day % 2 == 0;
      list.push_back({{"date", date}, {"celsius", celsius}, {"turned", turned ? "yes" : "no"}});
    }
    return list;
  }
  Json log(const Json& readings, Json more = Json::object()) {
    Json body{{"built", "2027-02-28"}, {"readings", readings}, {"pages", true}};
    body.update(more);
    return facade.ask("compost.log", body);
  }
  static Json rule(const Json& answer, const char* id) {
    for (const Json& one : answer["rules"])
      if (one["rule"] == id) return one;
    return nullptr;
  }
  static bool says(const Json& answer, const char* part) {
    return answer["pages"].dump().find(part) != std::string::npos;
  }
  Facade facade{"2027-04-20"};
};

// Formula of Cornell's pages with the rows cattle-manure and straw: 16.286 kg.
TEST_F(Compost, StrawForThirtyToOneToAHundredKilosOfCattleManure) {
  const Json answer = straw_to("100 kg cattle-manure");
  EXPECT_EQ(answer["way"], "for-ratio");
  EXPECT_NEAR(answer["parts"][1]["kg"].get<double>(), 16.286, 5e-4);
  EXPECT_NEAR(answer["c_to_n"]["likely"].get<double>(), 30.0, 1e-5);
  EXPECT_TRUE(says(answer, "For 30:1 add 16 kg straw to 100 kg cattle manure."));
  EXPECT_TRUE(answer["too_wet"].get<bool>());
  EXPECT_EQ(answer["water_l"]["high"], 0.0);
  EXPECT_TRUE(says(answer, "lie spread thin"));
  EXPECT_TRUE(says(answer, "Nobody with asthma"));
  EXPECT_TRUE(says(answer, "Fresh manure carries germs"));
}

// data/recipes/compost-heap.toml: manure at 65 % water, 0.3 kg straw to 1 kg, 53 % water, and
// 0.0644 L to sprinkle make it 55 %.
TEST_F(Compost, AgreesWithTheRecipeOfTheHeap) {
  const Json answer = straw_to("100 kg cattle manure at 65 %");
  EXPECT_NEAR(answer["parts"][1]["kg"].get<double>(), 30.0, 1e-5);
  EXPECT_NEAR(answer["water_l"]["likely"].get<double>(), 6.4444, 5e-4);
  EXPECT_FALSE(answer["too_wet"].get<bool>());
}

// Cornell's pages: 10 g of wet sample weigh 2.3 g dry, 77 %.
TEST_F(Compost, WaterIsReadFromADriedSample) {
  const auto moisture = [&](const char* put) { return mix({{"put", {put}}})["moisture"]; };
  EXPECT_NEAR(moisture("10 kg grass at 10 g dried to 2.3 g").get<double>(), 77.0, 1e-6);
  EXPECT_EQ(moisture("10 kg grass at 77"), moisture("10 kg grass at 77 %"));
  for (const char* wrong : {"2.3 g dried to 10 g", "10 g dried to 0 g", "10 dried to 2.3", "wet"}) {
    const Json answer = mix({{"put", {std::string("10 kg grass at ") + wrong}}});
    EXPECT_EQ(problem(answer, "compost-moisture-impossible")["value"], wrong);
  }
}

// 865 kg/m3 and 135 kg/m3, loose.
TEST_F(Compost, LitresAreLooseOnes) {
  const Json parts = mix({{"put", {"100 L cattle-manure", "200 litres straw"}}})["parts"];
  EXPECT_NEAR(parts[0]["kg"].get<double>(), 86.5, 1e-9);
  EXPECT_NEAR(parts[1]["kg"].get<double>(), 27.0, 1e-9);
}

TEST_F(Compost, TheRangesOfTheTablesAreTold) {
  const Json ratio = straw_to("100 kg cattle-manure")["c_to_n"];
  EXPECT_LT(ratio["low"].get<double>(), 20.0);
  EXPECT_GT(ratio["high"].get<double>(), 33.0);
  const Json own = mix({{"ingredients", Json::array({{{"name", "trash"},
                                                      {"amount", "10 kg"},
                                                      {"nitrogen", 1.2},
                                                      {"ratio", 38},
                                                      {"moisture", 15}}})}});
  EXPECT_EQ(own["c_to_n"]["low"], own["c_to_n"]["high"]);
}

TEST_F(Compost, ASmallHeapSaysHowMuchIsLacking) {
  const Json answer = straw_to("100 kg cattle-manure");
  EXPECT_NEAR(answer["lacking_l"].get<double>(), 1000.0 - 236.2, 0.1);
  EXPECT_EQ(problem(answer, "heap-small")["severity"], "notice");
  EXPECT_TRUE(problem(straw_to("500 kg cattle-manure"), "heap-small").is_null());
  const Json refused =
      problem(straw_to("100 kg cattle-manure", {{"heap", "600 L"}}), "heap-too-small");
  EXPECT_EQ(refused["field"], "/heap");
  EXPECT_NE(refused["expected"].get<std::string>().find("400 L are lacking"), std::string::npos);
}

TEST_F(Compost, TheCheapestOfWhatIsToBeHad) {
  const Json list = Json::array(
      {{{"name", "cattle-manure"}, {"at_most", "400 kg"}, {"price", 0}, {"moisture", 65}},
       {{"name", "straw"}, {"at_most", "60 kg"}, {"price", 2}},
       {{"name", "maize-stalks"}, {"at_least", "10 kg"}, {"price", 1}}});
  const Json answer = mix({{"ingredients", list}, {"heap", "1000 L"}});
  EXPECT_EQ(answer["way"], "cheapest");
  const double ratio = answer["c_to_n"]["likely"];
  EXPECT_GE(ratio, 25.0 - 1e-5);
  EXPECT_LE(ratio, 30.0 + 1e-5);
  EXPECT_LE(answer["moisture"].get<double>(), 60.0 + 1e-5);
  EXPECT_GE(answer["litres"].get<double>(), 1000.0 - 1e-3);
  Json fewer = list;
  fewer.erase(fewer.begin() + 1);
  EXPECT_LE(answer["cost"].get<double>(),
            mix({{"ingredients", fewer}, {"heap", "1000 L"}})["cost"].get<double>() + 1e-6);
  Json unpriced = list;
  unpriced[1].erase("price");
  EXPECT_EQ(problem(mix({{"ingredients", unpriced}, {"heap", "1000 L"}}),
                    "compost-price-missing")["value"],
            "straw");
}

TEST_F(Compost, LimitsOfTheRatioAreToldAsLimits) {
  const Json answer =
      mix({{"put", {"100 kg hen-manure"}}, {"add", {"straw", "sawdust"}}, {"ratio", "25 to 35"}});
  EXPECT_EQ(answer["way"], "nearest");
  EXPECT_TRUE(says(answer, "Nearest to C:N 25 to 35 that can be had"));
  EXPECT_FALSE(says(answer, "Counted as 58 %"));  // no sawdust was taken
}

TEST_F(Compost, WhereNoMixKeepsTheLimitsTheNearestIsNamed) {
  const Json list = Json::array({{{"name", "cattle-manure"}, {"amount", "100 kg"}},
                                 {{"name", "straw"}, {"at_most", "60 kg"}, {"price", 2}}});
  const Json refused = problem(mix({{"ingredients", list}}), "compost-no-mix");
  EXPECT_NE(refused["expected"].get<std::string>().find("at most 60 % water"), std::string::npos);
  EXPECT_NE(refused["expected"].get<std::string>().find("C:N 30 and 71 %"), std::string::npos);
  EXPECT_EQ(
      problem(mix({{"put", {"10 kg cattle-manure"}}, {"add", {"10 kg straw"}}, {"heap", "2000 L"}}),
              "compost-not-enough")["field"],
      "/heap");
}

TEST_F(Compost, GreenOrBrownThatIsMissingIsNamed) {
  const Json green = mix({{"put", {"100 kg cattle-manure"}}, {"add", {"grass"}}});
  EXPECT_TRUE(problem(green, "compost-no-green").is_null());
  EXPECT_EQ(problem(green, "compost-no-brown")["value"], "cattle-manure, grass");
  const Json brown = mix({{"put", {"100 kg straw"}}, {"add", {"sawdust"}}});
  EXPECT_EQ(problem(brown, "compost-no-green")["value"], "straw, sawdust");
}

TEST_F(Compost, ASecondOnTheSameSideIsRefusedWithBothNumbers) {
  const Json list = {{"put", Json::array({"100 kg cattle-manure", "40 kg straw"})},
                     {"add", Json::array({"dry-leaves"})}};
  const Json refused = problem(mix(list), "compost-wrong-way");
  EXPECT_EQ(refused["field"], "/add/0");
  EXPECT_NE(refused["expected"].get<std::string>().find("to 30"), std::string::npos);
}

TEST_F(Compost, MistakesInIngredientsAreNamedWithFieldAndCure) {
  const Json unknown = problem(straw_to("100 kg catle-manure"), "ingredient-unknown");
  EXPECT_EQ(unknown["field"], "/put/0/name");
  EXPECT_NE(unknown["cure"].get<std::string>().find("\"cattle-manure\""), std::string::npos);
  EXPECT_EQ(problem(straw_to("cattle-manure"), "compost-part-unreadable")["field"], "/put/0");
  EXPECT_EQ(problem(straw_to("100 kg"), "compost-part-unreadable")["value"], "100 kg");
  EXPECT_EQ(
      problem(straw_to("100 kg cattle-manure at 100 %"), "compost-moisture-impossible")["value"],
      "100 %");
  EXPECT_EQ(problem(straw_to("100 m cattle-manure"), "unit-other-kind")["field"], "/put/0/amount");
  EXPECT_EQ(problem(straw_to("100 L goat-manure"), "compost-density-missing")["value"], "100 L");
  EXPECT_EQ(problem(straw_to("0 kg cattle-manure"), "compost-kg-out-of-range")["value"], "0 kg");
  EXPECT_EQ(problem(straw_to("1 kg straw"), "ingredient-twice")["value"], "straw");
  EXPECT_FALSE(problem(mix(Json::object()), "compost-nothing-in").is_null());
  EXPECT_FALSE(problem(mix({{"put", ""}, {"ingredients", ""}}), "compost-nothing-in").is_null());
  EXPECT_FALSE(problem(mix({{"add", {"straw", "grass"}}}), "compost-no-size").is_null());
  EXPECT_EQ(
      problem(straw_to("1 kg grass", {{"ratio", "thirty"}}), "compost-ratio-unreadable")["value"],
      "thirty");
  EXPECT_EQ(
      problem(straw_to("1 kg grass", {{"ratio", 300}}), "compost-ratio-out-of-range")["field"],
      "/ratio");
}

// 2.4 typed as 24: 24 x 19 = 456 % carbon. Sawdust of the table, 0.24 x 442, is cut and it is said.
TEST_F(Compost, MoreCarbonThanThereCanBeIsRefusedOfHersAndCutInTheTable) {
  const auto own = [&](double nitrogen, double ratio) {
    return mix({{"ingredients", Json::array({{{"name", "own-dung"},
                                              {"amount", "10 kg"},
                                              {"nitrogen", nitrogen},
                                              {"ratio", ratio},
                                              {"moisture", 60}}})}});
  };
  const Json refused = problem(own(24.0, 19.0), "compost-carbon-impossible");
  EXPECT_EQ(refused["field"], "/ingredients/0/ratio");
  EXPECT_NE(refused["expected"].get<std::string>().find("456 %"), std::string::npos);
  EXPECT_TRUE(own(2.4, 19.0)["problems"].empty());
  EXPECT_FALSE(problem(own(2.0, 30.1), "compost-carbon-impossible").is_null());
  const Json cut = mix({{"put", {"10 kg sawdust"}}});
  EXPECT_EQ(cut["parts"][0]["carbon"], 58.0);
  EXPECT_TRUE(says(cut, "Counted as 58 % carbon"));
  const Json half =
      mix({{"ingredients",
            Json::array({{{"name", "own-dung"}, {"amount", "10 kg"}, {"nitrogen", 2.4}}})}});
  EXPECT_EQ(problem(half, "missing-ratio")["field"], "/ingredients/0/ratio");
  EXPECT_EQ(problem(half, "missing-moisture")["field"], "/ingredients/0/moisture");
}

// Days 4, 6 ... 16, ready on 18.
TEST_F(Compost, TurnsAreOnEverySecondDayFromTheFourth) {
  const Json answer = facade.ask("compost.turns", {{"built", "2027-03-11"}, {"pages", true}});
  ASSERT_EQ(answer["turns"].size(), 7u);
  EXPECT_EQ(answer["turns"][0]["on"], "2027-03-15");
  EXPECT_EQ(answer["turns"][6]["on"], "2027-03-27");
  EXPECT_EQ(answer["ready_on"], "2027-03-29");
  EXPECT_TRUE(says(answer, "meet no rule"));
  EXPECT_FALSE(problem(facade.ask("compost.turns", Json::object()), "missing-built").is_null());
}

// The recipe compost-heap plans the same days and the same least heap.
TEST_F(Compost, CalendarAndLeastHeapAreThoseOfTheRecipe) {
  const Json data = Json::parse(embedded::data_json());
  Json days = Json::array();
  double least = 0.0;
  for (const Json& recipe : data["recipes"]) {
    if (recipe["id"] != "compost-heap") continue;
    for (const Json& step : recipe["steps"]) {
      if (step["id"] == "heat") least = step["least_fill"]["value"];
      for (const Json& task : step["tasks"])
        if (task["id"] == "turn-heap") days.push_back(task["day"]);
    }
  }
  Json ours = Json::array();
  const Json answer = facade.ask("compost.turns", {{"built", "2027-03-11"}, {"pages", true}});
  for (const Json& turn : answer["turns"]) ours.push_back(turn["day"]);
  EXPECT_EQ(days, ours);
  const Json small = straw_to("1 kg cattle-manure", {{"heap", "1 L"}});
  const std::string expected = problem(small, "heap-too-small")["expected"];
  EXPECT_EQ(least, 1000.0);
  EXPECT_NE(expected.find("at least 1,000 L"), std::string::npos) << expected;
}

// 40 CFR 257, Appendix II.
TEST_F(Compost, AFullLogMeetsTheWindrowRuleOnPaperAndProvesNothing) {
  const Json answer = log(rows(18, 58.0));
  EXPECT_EQ(rule(answer, "windrow")["verdict"], "met");
  EXPECT_EQ(rule(answer, "windrow")["days"], 18);
  EXPECT_EQ(rule(answer, "windrow")["turnings"], 7);
  EXPECT_EQ(rule(answer, "us-organic")["verdict"], "cannot-say");  // no first C:N
  EXPECT_EQ(rule(log(rows(18, 58.0), {{"ratio", 30}}), "us-organic")["verdict"], "met");
  EXPECT_EQ(rule(log(rows(18, 58.0), {{"ratio", 20}}), "us-organic")["verdict"], "not-met");
  EXPECT_TRUE(says(answer, "no proof"));
  EXPECT_FALSE(says(answer, "pathogen"));
  EXPECT_EQ(rule(log(rows(12, 58.0)), "windrow")["verdict"], "not-met");
}

TEST_F(Compost, DaysNobodyReadAreNamed) {
  Json list = rows(18, 58.0);
  for (const std::size_t day : {5u, 8u, 11u, 13u}) list[day].erase("celsius");
  list[5]["turned"] = list[8]["turned"] = list[11]["turned"] = list[13]["turned"] = "yes";
  const Json answer = log(list);
  EXPECT_EQ(rule(answer, "windrow")["verdict"], "cannot-say");
  EXPECT_EQ(rule(answer, "windrow")["days_open"],
            Json::array({"2027-03-06", "2027-03-09", "2027-03-12", "2027-03-14"}));
  EXPECT_EQ(answer["days_unread"].size(), 4u);
  EXPECT_TRUE(says(answer, "4 days without a reading: Sat 6 Mar"));
}

TEST_F(Compost, HintsSayWhatToDoNow) {
  const auto hint = [](const Json& answer, const char* part) {
    return answer["hints"].dump().find(part) != std::string::npos;
  };
  EXPECT_TRUE(hint(log(rows(3, 66.0)), "Turn it now and sprinkle: 66 degrees on Wed 3 Mar"));
  EXPECT_FALSE(hint(log(rows(3, 65.0)), "Turn it now"));
  EXPECT_FALSE(hint(log(rows(4, 66.0)), "Turn it now"));  // turned that day
  EXPECT_TRUE(hint(log(rows(4, 45.0)), "By day 4 it had not reached 50"));
  EXPECT_FALSE(hint(log(rows(4, 50.0)), "had not reached"));
  EXPECT_TRUE(hint(log(rows(3, 58.0)), "Next turning Thu 4 Mar (day 4)"));
  Json missed = rows(5, 58.0);
  missed[3]["turned"] = "no";
  EXPECT_TRUE(hint(log(missed), "A turning is due since Thu 4 Mar"));
  Json cooled = rows(9, 58.0);
  cooled[8]["celsius"] = 48.0;
  EXPECT_TRUE(hint(log(cooled), "It cooled to 48"));
  EXPECT_TRUE(says(log(rows(18, 58.0)), "smells of earth"));
  EXPECT_FALSE(says(log(rows(17, 58.0)), "smells of earth"));
}

// 15 -> 30 % ash: 58.8 % (worked out).
TEST_F(Compost, HeightAndAshTellWhatIsGone) {
  Json list = rows(18, 58.0);
  list[0]["height"] = "1.5 m";
  list[17]["height"] = "90 cm";
  const Json answer = log(list, {{"ash_first", 15}, {"ash_last", 30}});
  EXPECT_NEAR(answer["height_lost"].get<double>(), 0.4, 1e-9);
  EXPECT_NEAR(answer["dry_matter_lost"].get<double>(), 0.588, 5e-4);
  EXPECT_TRUE(log(rows(2, 50.0))["height_lost"].is_null());
}

TEST_F(Compost, MistakesInTheLogAreNamedByRow) {
  const auto with = [&](std::size_t row, const char* name, const Json& value) {
    Json list = rows(5, 58.0);
    list[row][name] = value;
    return log(list);
  };
  EXPECT_EQ(problem(with(2, "date", "2027-03-01"), "heap-rows-out-of-order")["field"],
            "/readings/2/date");
  EXPECT_EQ(problem(with(1, "date", "2027-03-01"), "heap-rows-out-of-order")["value"],
            "2027-03-01");
  EXPECT_EQ(problem(with(0, "date", "2027-02-27"), "heap-before-built")["field"],
            "/readings/0/date");
  const Json hot = problem(with(3, "celsius", 700), "heap-celsius-out-of-range");
  EXPECT_EQ(hot["field"], "/readings/3/celsius");
  EXPECT_EQ(hot["value"], "700");
  EXPECT_NE(hot["cure"].get<std::string>().find("Fahrenheit"), std::string::npos);
  EXPECT_EQ(problem(with(0, "celsius", ""), "heap-row-empty")["field"], "/readings/0/celsius");
  EXPECT_EQ(problem(with(1, "height", "15 m"), "heap-height-out-of-range")["value"], "15 m");
  const Json later = with(4, "date", "2027-06-01");
  EXPECT_EQ(problem(later, "seen-after-today")["severity"], "question");
  EXPECT_EQ(problem(with(4, "date", "2028-03-05"), "heap-row-far")["value"], "2028-03-05");
  const Json unread = with(2, "date", "5 March");
  EXPECT_EQ(unread["problems"].size(), 1u);
  EXPECT_EQ(problem(unread, "date-unreadable")["field"], "/readings/2/date");
  EXPECT_FALSE(problem(log(Json::array()), "heap-no-rows").is_null());
  EXPECT_EQ(problem(log(rows(3, 58.0), {{"ash_first", 30}, {"ash_last", 15}}),
                    "heap-ash-impossible")["value"],
            "15");
  EXPECT_EQ(problem(log(rows(3, 58.0), {{"ash_first", 30}}), "missing-ash_last")["field"],
            "/ash_last");
}

TEST_F(Compost, EveryIngredientIsListedWithItsMark) {
  const Json list = facade.ask("compost.list", {{"pages", true}});
  EXPECT_GE(list["ingredients"].size(), 20u);
  int cut = 0;
  for (const Json& one : list["ingredients"]) {
    EXPECT_LE(one["carbon"].get<double>(), 58.0) << one["id"];
    cut += one["carbon_cut"].get<bool>() ? 1 : 0;
  }
  EXPECT_EQ(cut, 3);  // sawdust, newspaper, maize cobs
  EXPECT_FALSE(says(list, "[compost"));
}

// What the heap is worth does not depend on its size, and no request ends in a missing word.
TEST_F(Compost, ScalingTheManureScalesTheStraw) {
  testing::Draw draw(20270311);
  for (int round = 0; round < testing::cases(20); ++round) {
    const int kg = draw.between(20, 5000);
    const Json answer = straw_to((std::to_string(kg) + " kg cattle-manure").c_str());
    EXPECT_NEAR(answer["parts"][1]["kg"].get<double>(), 0.162857 * kg, 1e-3);
    EXPECT_FALSE(says(answer, "[compost"));
  }
}

}  // namespace
}  // namespace wheyfield
