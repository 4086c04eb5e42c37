// When is this field due? Asked as a trainer asks: by the calendar, by warmth, by what she saw.
#include <gtest/gtest.h>

#include "calendar/date.h"
#include "support/bundle.h"
#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

calendar::Date day(const std::string& iso) {
  return testing::value_or_abort(calendar::parse_date(iso));
}

class WhenIsItDue : public ::testing::Test {
 protected:
  Json ask(const Json& body) { return facade.ask("crop.windows", body); }

  static Json planting(const char* crop, const char* sowing, const char* sown_on,
                       const char* harvest_after = "") {
    return {{"crop", crop},
            {"sowing", sowing},
            {"sown_on", sown_on},
            {"seed", "own"},
            {"harvest_after", harvest_after}};
  }

  static Json with(Json body, const char* name, Json value) {
    body[name] = std::move(value);
    return body;
  }

  // Every day from `first` on with the same minimum and maximum.
  static Json readings(const char* first, int days, double min, double max) {
    Json list = Json::array();
    for (int i = 0; i < days; ++i)
      list.push_back({{"date", (day(first) + i).iso()}, {"min", min}, {"max", max}});
    return list;
  }

  // The months `first` to `last` of one year with the same means.
  static Json months(int year, int first, int last, double min, double max) {
    Json list = Json::array();
    for (int month = first; month <= last; ++month)
      list.push_back({{"month", calendar::Date::from_civil(year, month, 1).iso().substr(0, 7)},
                      {"min", min},
                      {"max", max}});
    return list;
  }

  static Json window(const Json& answer, const char* use) {
    if (use == std::string("harvest")) return answer["harvest"];
    for (const Json& one : answer["uses"])
      if (one["use"] == use) return one["window"];
    return nullptr;
  }
  static calendar::Date on(const Json& window, const char* edge) {
    return day(window.at(edge).get<std::string>());
  }
  static int days_to(const Json& answer, const char* use, const char* sown_on) {
    return on(window(answer, use), "likely") - day(sown_on);
  }
  static int wide(const Json& window) { return on(window, "late") - on(window, "early"); }
  static bool says(const Json& answer, const std::string& text) {
    return answer["pages"].dump().find(text) != std::string::npos;
  }
  Facade facade;
};

// FAO-56 Table 11, maize, East Africa (altitude), April: 30 + 50 = 80 days to flowering, 180 in
// all. By warmth at Nairobi's own height (WMO normals) 86 and 190 days: within a tenth of it.
TEST_F(WhenIsItDue, MaizeAtNairobiByWarmthIsNearTheEastAfricanRowOfTheCalendar) {
  const Json body =
      with(with(planting("maize", "direct", "2027-04-01", "180 days"), "station", "nairobi"),
           "altitude", "1798 m");
  const Json answer = ask(body);
  EXPECT_EQ(answer["road"], "degree-days");
  EXPECT_EQ(answer["why"]["code"], "thermal-row");
  EXPECT_EQ(days_to(answer, "flowering", "2027-04-01"), 86);
  EXPECT_EQ(days_to(answer, "harvest", "2027-04-01"), 190);
  EXPECT_EQ(answer["temperatures"]["origin"], "station");
  EXPECT_EQ(answer["temperatures"]["spread"], 1.5);
  ASSERT_EQ(answer["beside"].size(), 1u);
  EXPECT_EQ(answer["beside"][0]["road"], "calendar");
  EXPECT_EQ(days_to(answer["beside"][0], "flowering", "2027-04-01"), 80);
  EXPECT_EQ(days_to(answer["beside"][0], "harvest", "2027-04-01"), 180);
  EXPECT_FALSE(answer["sources"].empty());
}

// Potato at 17 C: tubers start after about three weeks by the European row of warmth, after
// 55 of 130 days by the calendar.
TEST_F(WhenIsItDue, RoadsThatDoNotMeetAreSaid) {
  const Json potato =
      ask(with(planting("potato", "tuber", "2027-03-30", "130 days"), "altitude", "1980 m"));
  const Json apart = problem(potato, "roads-apart");
  EXPECT_EQ(apart["severity"], "notice");
  EXPECT_NE(apart["cure"].get<std::string>().find("field"), std::string::npos);
  EXPECT_FALSE(problem(potato, "european-row").is_null());
  const Json maize =
      ask(with(with(planting("maize", "direct", "2027-04-01", "180 days"), "station", "nairobi"),
               "altitude", "1798 m"));
  EXPECT_TRUE(problem(maize, "roads-apart").is_null());
}

TEST_F(WhenIsItDue, EveryListedCropIsDatedOrToldHowToGoOn) {
  const Json crops = facade.ask("crop.list", Json::object())["crops"];
  EXPECT_GE(crops.size(), 30u);
  int dated = 0;
  for (const Json& crop : crops) {
    const std::string id = crop["id"];
    const Json length =
        crop["lengths"].empty() ? Json("") : Json(crop["lengths"][0].dump() + " days");
    for (const char* sowing : {"direct", "nursery", "tuber", "cutting"}) {
      const Json answer =
          ask(with(planting(id.c_str(), sowing, "2027-03-22"), "harvest_after", length));
      if (answer.contains("uses")) {
        ++dated;
        EXPECT_FALSE(window(answer, "flowering").is_null()) << id;
        for (const Json& use : answer["uses"]) {
          const bool one_evening = use["use"] == "seed-soak" && sowing == std::string("direct");
          EXPECT_EQ(use["window"]["early"] < use["window"]["late"], !one_evening) << id;
        }
        continue;
      }
      ASSERT_FALSE(answer["problems"].empty()) << id;
      EXPECT_GT(answer["problems"][0]["cure"].get<std::string>().size(), 20u) << id;
    }
  }
  EXPECT_GE(dated, 4 * 30);
}

// Shares of FAO-56's spinach row, which stands in for amaranth: 40 of 65 days.
TEST_F(WhenIsItDue, ACropWithoutARowIsToldHowToScaleByHand) {
  const Json amaranth =
      problem(ask(planting("amaranth", "direct", "2027-03-22", "60 days")), "crop-has-like-row");
  ASSERT_FALSE(amaranth.is_null());
  EXPECT_EQ(amaranth["field"], "/crop");
  EXPECT_NE(amaranth["cure"].get<std::string>().find("times 40, divided by 65"), std::string::npos);
  EXPECT_FALSE(problem(ask(planting("okra", "direct", "2027-03-22", "60 days")), "crop-without-row")
                   .is_null());
  const Json counted =
      ask(with(planting("amaranth", "direct", "2027-03-22"), "own_count", "37 days"));
  EXPECT_EQ(counted["road"], "own-count");
  EXPECT_EQ(days_to(counted, "flowering", "2027-03-22"), 37);
}

// By hand: the East African maize row, 30 + 50 of 180 days, at 90 days: 40; at 120: 53.3.
TEST_F(WhenIsItDue, TheRuleByHandIsPrintedWithAWorkedLine) {
  const auto cure = [&](const char* crop, const char* length, const char* code) {
    return problem(ask(planting(crop, "direct", "2027-03-22", length)), code)["cure"]
        .get<std::string>();
  };
  for (const std::string& text :
       {cure("teff", "", "crop-not-listed"), cure("okra", "", "crop-without-row"),
        cure("pigeon-pea", "", "crop-without-row")}) {
    EXPECT_NE(text.find("30 + 50 + 60 + 40 = 180"), std::string::npos) << text;
    EXPECT_NE(text.find("80 x 90 / 180 = 40"), std::string::npos) << text;
    EXPECT_NE(text.find("--own-count"), std::string::npos) << text;
  }
  EXPECT_NE(cure("teff", "120 days", "crop-not-listed").find("80 x 120 / 180 = 53"),
            std::string::npos);
  EXPECT_NE(cure("amaranth", "60 days", "crop-has-like-row").find("60 days give 37"),
            std::string::npos);
}

TEST_F(WhenIsItDue, CoffeeIsDatedByItsBlossomAlone) {
  EXPECT_EQ(problem(ask({{"crop", "coffee"}}), "crop-waits-for-event")["field"], "/seen");
  const Json seen =
      ask({{"crop", "coffee"}, {"seen", {{{"what", "flowering"}, {"on", "2027-03-30"}}}}});
  EXPECT_EQ(seen["road"], "event");
  EXPECT_EQ(window(seen, "flowering")["early"], "2027-03-30");
  EXPECT_TRUE(window(seen, "land-preparation").is_null());
}

// What the refusal asks for is accepted, and the page counts from that day and no other.
TEST_F(WhenIsItDue, TheBlossomOfCoffeeIsGivenInTheWordTheRefusalUses) {
  const Json refused = problem(ask({{"crop", "coffee"}}), "crop-waits-for-event");
  EXPECT_NE(refused["cure"].get<std::string>().find("--seen \"blossom"), std::string::npos);
  const Json seen = ask({{"crop", "coffee"},
                         {"sown_on", "2027-01-10"},
                         {"seen", {{{"what", "blossom"}, {"on", "2027-02-10"}}}},
                         {"pages", true}});
  EXPECT_EQ(window(seen, "flowering")["early"], "2027-02-10");
  EXPECT_TRUE(says(seen, "blossom seen on Wednesday 10 February 2027"));
  EXPECT_FALSE(says(seen, "January"));
  const Json unknown =
      problem(ask({{"crop", "coffee"}, {"seen", {{{"what", "rows"}, {"on", "2027-02-10"}}}}}),
              "seen-unknown");
  EXPECT_NE(unknown["expected"].get<std::string>().find("blossom"), std::string::npos);
  EXPECT_FALSE(
      problem(ask({{"crop", "coffee"}, {"own_count", "60 days"}}), "missing-sown_on").is_null());
}

TEST_F(WhenIsItDue, AWarmerPlaceIsNeverLater) {
  calendar::Date before = day("2030-01-01");
  for (const char* altitude : {"2200 m", "1900 m", "1600 m", "1300 m", "1000 m", "700 m"}) {
    const Json answer =
        ask(with(with(planting("maize", "direct", "2027-03-22"), "station", "nairobi"), "altitude",
                 altitude));
    ASSERT_TRUE(answer.contains("uses")) << altitude << answer.dump();
    EXPECT_LT(on(window(answer, "flowering"), "likely"), before) << altitude;
    before = on(window(answer, "flowering"), "likely");
  }
}

// Trust: her readings, her months, the station, the altitude. Each is +/- wider than the one
// before.
TEST_F(WhenIsItDue, TheBestTemperaturesThatAreGivenAreUsed) {
  const auto origin = [&](const Json& body) {
    return ask(body)["temperatures"]["origin"].get<std::string>();
  };
  Json body = with(planting("maize", "direct", "2027-03-22"), "altitude", "1250 m");
  EXPECT_EQ(origin(body), "altitude");
  body["station"] = "nairobi";
  EXPECT_EQ(origin(body), "station");
  body["months"] = months(2027, 3, 7, 15, 27);
  EXPECT_EQ(origin(body), "monthly-means");
  const Json by_months = ask(body);
  body["readings"] = readings("2027-03-22", 60, 22, 32);
  EXPECT_EQ(origin(body), "monthly-means") << "the coming days rest on the months";
  EXPECT_EQ(ask(body)["temperatures"]["read_to"], "2027-05-20");
  EXPECT_LT(on(window(ask(body), "flowering"), "likely"),
            on(window(by_months, "flowering"), "likely"));
  body["readings"] = readings("2027-03-01", 800, 22, 32);
  EXPECT_EQ(origin(body), "readings");
}

// Sown on 1 March for 95 days, first flower counted on day 40 (15 + 25 of 95 days, FAO-56): seen on
// 3 May.
TEST_F(WhenIsItDue, FirstFlowerOnTheThirdOfMayShiftsAndNarrowsWhatFollows) {
  const Json body = planting("bean", "direct", "2027-03-01", "95 days");
  const Json before = ask(body);
  const Json after = ask(with(body, "seen", {{{"what", "first-flower"}, {"on", "2027-05-03"}}}));
  EXPECT_EQ(window(before, "flowering")["likely"], "2027-04-10");
  EXPECT_EQ(window(after, "flowering")["early"], "2027-05-03");
  EXPECT_LT(wide(window(after, "flowering")), wide(window(before, "flowering")));
  EXPECT_GT(on(window(after, "first-fruit"), "early"), day("2027-05-03"));
  EXPECT_GT(after["pace"].get<double>(), 1.5);
  const Json asked = problem(after, "observation-far-off");
  EXPECT_EQ(asked["severity"], "question");
  EXPECT_EQ(asked["field"], "/seen/0/on");
}

TEST_F(WhenIsItDue, ASightingThatCannotBeIsAskedAboutAndNotCounted) {
  const Json body = planting("maize", "direct", "2027-03-22", "125 days");
  const Json unseen = ask(body);
  for (const char* day_seen : {"2027-03-28", "2027-04-05", "2027-09-10"}) {
    const Json answer = ask(with(body, "seen", {{{"what", "first-flower"}, {"on", day_seen}}}));
    const Json asked = problem(answer, "observation-unbelievable");
    EXPECT_EQ(asked["severity"], "question") << day_seen;
    EXPECT_EQ(asked["field"], "/seen/0/on");
    EXPECT_EQ(asked["value"], day_seen);
    EXPECT_EQ(answer["pace"], 1.0);
    for (const char* use : {"seedling", "flowering", "first-fruit", "harvest"})
      EXPECT_EQ(window(answer, use), window(unseen, use)) << use << " " << day_seen;
    EXPECT_EQ(on(window(answer, "harvest"), "likely"), day("2027-03-22") + 125);
  }
}

TEST_F(WhenIsItDue, RowsSeenOnTheDayCountedNarrowAndShiftNothing) {
  const Json body = planting("maize", "direct", "2027-03-22", "125 days");
  const Json before = ask(body);
  const Json after = ask(with(body, "seen", {{{"what", "emerged"}, {"on", "2027-03-29"}}}));
  for (const char* use : {"seedling", "flowering", "first-fruit"}) {
    EXPECT_EQ(window(after, use)["likely"], window(before, use)["likely"]) << use;
    EXPECT_LT(wide(window(after, use)), wide(window(before, use))) << use;
  }
}

TEST_F(WhenIsItDue, WhatTheCropDoesNotShowIsRefusedWithWhatItShows) {
  const Json body = planting("cabbage", "direct", "2027-03-01", "100 days");
  const Json refused = problem(
      ask(with(body, "seen", {{{"what", "first-flower"}, {"on", "2027-05-03"}}})), "seen-unknown");
  EXPECT_EQ(refused["expected"],
            "For this crop one of these was expected: planted, emerged, head-swells.");
  const Json order = ask(with(planting("bean", "direct", "2027-03-01", "95 days"), "seen",
                              {{{"what", "first-flower"}, {"on", "2027-04-20"}},
                               {{"what", "first-fruit"}, {"on", "2027-04-10"}}}));
  EXPECT_EQ(problem(order, "observation-out-of-order")["field"], "/seen/1/on");
  const Json twice = ask(with(planting("bean", "direct", "2027-03-01", "95 days"), "seen",
                              {{{"what", "first-flower"}, {"on", "2027-04-20"}},
                               {{"what", "fourth"}, {"on", "2027-04-21"}}}));
  EXPECT_EQ(problem(twice, "seen-twice")["field"], "/seen/1/what");
}

TEST_F(WhenIsItDue, BadTemperaturesAreNamedByTheirRow) {
  const Json body = planting("maize", "direct", "2027-03-22", "125 days");
  Json gap = readings("2027-03-22", 30, 15, 28);
  gap.erase(10);
  EXPECT_EQ(problem(ask(with(body, "readings", gap)), "reading-gap")["value"], "2027-04-01");
  const Json hot = ask(with(body, "readings", readings("2027-03-22", 30, 60, 84)));
  ASSERT_EQ(hot["problems"].size(), 1u) << "told once, not for every day";
  EXPECT_EQ(hot["problems"][0]["code"], "readings-fahrenheit");
  Json swapped = readings("2027-03-22", 30, 15, 28);
  swapped[4] = {{"date", "2027-03-26"}, {"min", 28}, {"max", 15}};
  const Json above = problem(ask(with(body, "readings", swapped)), "minimum-above-maximum");
  EXPECT_EQ(above["field"], "/readings/4/min");
  Json twice = readings("2027-03-22", 30, 15, 28);
  twice.push_back(twice[3]);
  EXPECT_EQ(problem(ask(with(body, "readings", twice)), "reading-twice")["field"],
            "/readings/30/date");
  EXPECT_FALSE(problem(ask(with(body, "readings", Json::array())), "readings-missing").is_null());
}

TEST_F(WhenIsItDue, APlaceTooCoolIsAskedAboutAndReadingsThatEndAreSaid) {
  const Json body = planting("maize", "direct", "2027-03-22", "125 days");
  for (const Json& cold : {with(body, "altitude", "5000 m"),
                           with(body, "readings", readings("2027-03-22", 300, 2, 6))}) {
    const Json answer = ask(cold);
    EXPECT_EQ(answer["why"]["code"], "too-cool");
    EXPECT_EQ(problem(answer, "too-cool")["severity"], "question");
    EXPECT_NE(problem(answer, "too-cool")["cure"].get<std::string>().find("Celsius"),
              std::string::npos);
  }
  const Json ends = ask(with(body, "readings", readings("2027-03-22", 30, 16, 28)));
  EXPECT_EQ(ends["why"]["code"], "temperatures-end");
  const Json said = problem(ends, "temperatures-end");
  EXPECT_EQ(said["severity"], "notice");
  EXPECT_NE(said["cure"].get<std::string>().find("--altitude"), std::string::npos);
}

TEST_F(WhenIsItDue, AMonthLeftOutIsRefusedByItsName) {
  Json list = months(2027, 3, 7, 15, 27);
  list.erase(1);
  const Json gap =
      problem(ask(with(planting("maize", "direct", "2027-03-22"), "months", list)), "month-gap");
  EXPECT_EQ(gap["field"], "/months/1/month");
  EXPECT_EQ(gap["value"], "2027-04");
  EXPECT_GT(gap["cure"].get<std::string>().size(), 20u);
}

TEST_F(WhenIsItDue, DaysOutsideTheMonthsEnteredAreSaid) {
  const Json body = planting("maize", "direct", "2027-03-22");
  const auto outside = [&](const Json& list) {
    return problem(ask(with(body, "months", list)), "days-outside-months");
  };
  EXPECT_TRUE(outside(months(2027, 3, 12, 18, 30)).is_null());
  const Json late = outside(months(2027, 3, 5, 18, 30));
  EXPECT_EQ(late["severity"], "notice");
  EXPECT_EQ(late["value"], "2027-06-01");
  EXPECT_EQ(late["field"], "/months");
  EXPECT_EQ(outside(months(2027, 4, 12, 18, 30))["value"], "2027-03-22");
  EXPECT_EQ(outside(months(2026, 1, 12, 18, 30))["severity"], "question") << "of another year";
  EXPECT_TRUE(problem(ask(with(body, "altitude", "1250 m")), "days-outside-months").is_null());
}

TEST_F(WhenIsItDue, AltitudeAloneSaysNothingAtTheCoast) {
  const Json body = with(planting("maize", "direct", "2027-03-22"), "altitude", "20 m");
  const Json low = problem(ask(body), "altitude-too-low");
  EXPECT_EQ(low["field"], "/altitude");
  EXPECT_EQ(problem(ask(with(planting("maize", "direct", "2027-03-22"), "station", "nairobi")),
                    "altitude-missing")["field"],
            "/altitude");
}

TEST_F(WhenIsItDue, AStationMovedBeyondAnyFieldIsRefusedOnce) {
  const Json answer = ask(with(
      with(planting("maize", "direct", "2027-03-22"), "station", "nairobi"), "altitude", "5900 m"));
  ASSERT_EQ(answer["problems"].size(), 1u) << answer["problems"].dump();
  EXPECT_EQ(answer["problems"][0]["code"], "station-moved-too-far");
  EXPECT_EQ(answer["problems"][0]["field"], "/altitude");
}

TEST_F(WhenIsItDue, WhatIsNotKnownComesWithTheNearestName) {
  const Json answer =
      ask(with(with(planting("maise", "direct", "2027-03-22", "125 days"), "station", "nairoby"),
               "altitude", "1250 m"));
  const auto cure = [&](const char* code) {
    return problem(answer, code)["cure"].get<std::string>();
  };
  EXPECT_NE(cure("crop-unknown").find("\"maize\""), std::string::npos);
  EXPECT_NE(cure("station-unknown").find("\"nairobi\""), std::string::npos);
}

TEST_F(WhenIsItDue, NoNumberIsGuessed) {
  const Json nothing = ask({{"crop", "maize"}});
  EXPECT_FALSE(problem(nothing, "missing-sowing").is_null());
  EXPECT_FALSE(problem(nothing, "missing-sown_on").is_null());
  const Json bare = ask(planting("maize", "direct", "2027-03-22"));
  EXPECT_EQ(problem(bare, "harvest-length-missing")["field"], "/harvest_after");
  const Json slip = ask(planting("maize", "direct", "2027-03-22", "12 days"));
  EXPECT_EQ(problem(slip, "harvest-far-from-table")["severity"], "question");
}

TEST_F(WhenIsItDue, AStartThatTheCropDoesNotHaveIsAskedAbout) {
  const Json tuber = ask(planting("maize", "tuber", "2027-03-22", "125 days"));
  EXPECT_EQ(problem(tuber, "sowing-unusual")["severity"], "question");
  EXPECT_EQ(problem(tuber, "sowing-unusual")["field"], "/sowing");
  EXPECT_TRUE(tuber.contains("uses"));
  for (const auto& [crop, sowing] : {std::pair{"maize", "direct"},
                                     {"tomato", "nursery"},
                                     {"potato", "tuber"},
                                     {"cassava", "cutting"},
                                     {"coffee", "cutting"}})
    EXPECT_TRUE(
        problem(ask(planting(crop, sowing, "2027-03-22", "125 days")), "sowing-unusual").is_null())
        << crop;
}

TEST_F(WhenIsItDue, WhatWasSeenOnADayToComeIsAskedAbout) {
  Json body = planting("bean", "direct", "2027-01-22", "95 days");
  body["seen"] = {{{"what", "emerged"}, {"on", "2027-02-20"}}};  // today
  EXPECT_TRUE(problem(ask(body), "seen-after-today").is_null());
  body["seen"][0]["on"] = "2027-02-21";
  const Json found = problem(ask(body), "seen-after-today");
  EXPECT_EQ(found["severity"], "question");
  EXPECT_EQ(found["field"], "/seen/0/on");
}

TEST_F(WhenIsItDue, DressedSeedIsNotSoakedAndUnsaidSeedNeither) {
  Json body = planting("bean", "direct", "2027-03-22", "95 days");
  EXPECT_EQ(window(ask(body), "seed-soak")["likely"], "2027-03-21");
  body["seed"] = "dressed";
  EXPECT_TRUE(window(ask(body), "seed-soak").is_null());
  body.erase("seed");
  EXPECT_TRUE(window(ask(body), "seed-soak").is_null());
  EXPECT_EQ(problem(ask(body), "seed-not-said")["severity"], "notice");
}

// data/soak.toml has no row of kale: dose soak knows no safe time either.
TEST_F(WhenIsItDue, SeedWithoutAKnownSoakingTimeIsSownDry) {
  const Json kale = ask(planting("kale", "nursery", "2027-03-22", "80 days"));
  EXPECT_TRUE(window(kale, "seed-soak").is_null());
  const Json said = problem(kale, "soak-crop-unknown");
  EXPECT_EQ(said["severity"], "notice");
  EXPECT_NE(said["cure"].get<std::string>().find("sow dry"), std::string::npos);
  const Json maize = ask(planting("maize", "direct", "2027-03-22", "125 days"));
  EXPECT_FALSE(window(maize, "seed-soak").is_null());
  EXPECT_TRUE(problem(maize, "soak-crop-unknown").is_null());
  Json dressed = planting("kale", "nursery", "2027-03-22", "80 days");
  dressed["seed"] = "dressed";
  EXPECT_TRUE(problem(ask(dressed), "soak-crop-unknown").is_null());
}

// Source of the base: memory. Maize has a row of warmth, tomato only its base.
TEST_F(WhenIsItDue, ThePageSaysHowDegreeDaysAreCounted) {
  const Json maize =
      ask(with(with(planting("maize", "direct", "2027-04-01", "180 days"), "altitude", "1798 m"),
               "pages", true));
  EXPECT_EQ(maize["counting"]["rule"], "average");
  EXPECT_TRUE(maize["counting"]["base"].is_null());
  EXPECT_TRUE(says(maize, "counted by the daily mean above the base"));
  const Json tomato =
      ask(with(planting("tomato", "nursery", "2027-03-22", "135 days"), "pages", true));
  EXPECT_EQ(tomato["counting"]["base"]["celsius"], 10.0);
  EXPECT_TRUE(says(tomato, "daily mean above the base, 10 degrees C"));
  EXPECT_TRUE(ask(planting("maize", "direct", "2027-04-01", "180 days"))["counting"].is_null());
}

TEST_F(WhenIsItDue, ThePageSaysWhichHarvestTheDaysCountTo) {
  const Json answer =
      ask(with(planting("tomato", "nursery", "2027-03-22", "135 days"), "pages", true));
  EXPECT_TRUE(says(answer, "count to the last harvest"));
}

TEST_F(WhenIsItDue, ThePageSaysTheRoadTheReasonTheSpreadAndTheSources) {
  Json body =
      with(with(planting("maize", "direct", "2027-04-01", "180 days"), "station", "nairobi"),
           "altitude", "1798 m");
  body["pages"] = true;
  const Json answer = ask(body);
  for (const char* text :
       {"When is it due: maize", "Dated by degree-days", "1.5 degrees C either way",
        "Beside it, by the calendar of stages", "Thursday 1 April 2027", "(published)"})
    EXPECT_TRUE(says(answer, text)) << text;
  for (const char* unsaid : {"\"[", " [", "(["})
    EXPECT_FALSE(says(answer, unsaid)) << "a sentence is missing: " << answer["pages"].dump();
}

}  // namespace
}  // namespace wheyfield
