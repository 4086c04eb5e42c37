// From the last use to the plate: when to pick, where a use may still go, how strong on leaves.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

class DoseHarvest : public ::testing::Test {
 protected:
  Json ask(const char* crop, const char* stage, const char* on, Json more = Json::object()) {
    Json body{{"crop", crop},    {"stage", stage},      {"on", on},     {"last_use", "2028-02-20"},
              {"method", "can"}, {"strength", "1:500"}, {"pages", true}};
    body.update(more);
    return facade.ask("dose.harvest", body);
  }
  Facade facade;
};

// A precaution from memory: 14 days for what is eaten raw, 7 (assumed) for what is cooked; counted
// on a wall calendar, 2028 has a 29 February.
TEST_F(DoseHarvest, FourteenDaysForRawSevenForCookedTheNextDayForSoil) {
  EXPECT_EQ(ask("tomato", "before-flowering", "leaves")["earliest_harvest"], "2028-03-05");
  EXPECT_EQ(ask("maize", "from-flowering", "leaves")["earliest_harvest"], "2028-02-27");
  EXPECT_EQ(ask("tomato", "after-first-picking", "soil")["earliest_harvest"], "2028-02-21");
  EXPECT_EQ(ask("tomato", "from-flowering", "leaves", {{"eaten", "cooked"}})["earliest_harvest"],
            "2028-02-27");
}

// Memory: the rule for raw manure, 120 days from 20 February 2028 on a wall calendar.
TEST_F(DoseHarvest, RawRootsInWettedSoilGetNoDayButTheRuleForRawManure) {
  for (const char* crop : {"carrot", "onion", "cabbage", "lettuce"}) {
    const Json answer = ask(crop, "before-flowering", "soil");
    EXPECT_TRUE(answer["earliest_harvest"].is_null()) << crop;
    EXPECT_TRUE(answer["wait_days"].is_null());
    EXPECT_EQ(answer["raw_manure_days"], 120);
    EXPECT_EQ(problem(answer, "ground-eaten-raw")["severity"], "notice");
    EXPECT_NE(answer["pages"].dump().find("Monday 19 June 2028"), std::string::npos);
    EXPECT_NE(answer["pages"].dump().find("Ask the local officer"), std::string::npos);
    bool marked = false;
    for (const Json& source : answer["sources"])
      for (const Json& use : source["used_for"])
        marked = marked || (use == "rule for raw manure" && source["kind"] == "memory");
    EXPECT_TRUE(marked);
  }
  EXPECT_EQ(ask("carrot", "before-flowering", "soil", {{"eaten", "cooked"}})["earliest_harvest"],
            "2028-02-21");
  EXPECT_EQ(ask("carrot", "before-flowering", "leaves")["earliest_harvest"], "2028-03-05");
}

TEST_F(DoseHarvest, ProduceEatenRawIsRinsedWhereverTheSerumWent) {
  for (const char* on : {"leaves", "soil"})
    EXPECT_NE(ask("tomato", "before-flowering", on)["pages"].dump().find("in clean water"),
              std::string::npos)
        << on;
}

TEST_F(DoseHarvest, AStrengthBeyondWhatIsTaughtIsAskedAboutOnSoilToo) {
  EXPECT_EQ(problem(ask("tomato", "from-flowering", "soil", {{"strength", "1:20"}}),
                    "strength-strong")["severity"],
            "question");
}

TEST_F(DoseHarvest, RawEatenCropsCloseTheirLeavesWithAReason) {
  const Json flowering = problem(ask("tomato", "from-flowering", "leaves"), "raw-flowering");
  EXPECT_EQ(flowering["severity"], "error");
  EXPECT_EQ(flowering["field"], "/on");
  EXPECT_NE(flowering["text"].get<std::string>().find("judgement"), std::string::npos);
  EXPECT_EQ(problem(ask("tomato", "after-first-picking", "leaves"), "raw-picked")["severity"],
            "error");
  EXPECT_EQ(ask("tomato", "from-flowering", "soil")["leaves_closed"], "raw-flowering");
}

TEST_F(DoseHarvest, TheRuleForLeavesEatenRawStandsInTheDataWithItsMark) {
  const Json answer = ask("tomato", "from-flowering", "soil");
  bool said = false, marked = false;
  for (const Json& caution : answer["cautions"]) said = said || caution["id"] == "leaves-eaten-raw";
  for (const Json& source : answer["sources"])
    for (const Json& used_for : source["used_for"])
      marked = marked || (used_for == "placement" && source["kind"] == "assumption");
  EXPECT_TRUE(said);
  EXPECT_TRUE(marked);
  const Json cooked = ask("maize", "from-flowering", "soil");
  for (const Json& caution : cooked["cautions"]) EXPECT_NE(caution["id"], "leaves-eaten-raw");
}

TEST_F(DoseHarvest, NothingStrongerThanOneTo250OnLeaves) {
  const Json strong = problem(ask("maize", "from-flowering", "leaves", {{"strength", "1:100"}}),
                              "too-strong-for-leaves");
  EXPECT_EQ(strong["value"], "1:100");
  EXPECT_NE(strong["text"].get<std::string>().find("1:250"), std::string::npos);
  EXPECT_FALSE(ask("maize", "from-flowering", "soil", {{"strength", "1:100"}})["earliest_harvest"]
                   .is_null());
}

TEST_F(DoseHarvest, WhatAMethodCannotReachIsRefused) {
  EXPECT_EQ(problem(ask("maize", "from-flowering", "soil", {{"method", "leafy-branch"}}),
                    "place-out-of-reach")["field"],
            "/on");
  EXPECT_EQ(problem(ask("maize", "from-flowering", "leaves", {{"method", "round-stem"}}),
                    "place-out-of-reach")["value"],
            "leaves");
}

TEST_F(DoseHarvest, ThePageSaysThatItIsAJudgement) {
  const Json answer = ask("tomato", "before-flowering", "leaves");
  EXPECT_EQ(answer["judgement"], true);
  EXPECT_NE(answer["pages"].dump().find("a judgement of this project"), std::string::npos);
}

TEST_F(DoseHarvest, MistakesAreNamedWithFieldAndCure) {
  const Json unknown = problem(ask("tomatoe", "from-flowering", "soil"), "crop-unknown");
  EXPECT_NE(unknown["cure"].get<std::string>().find("\"tomato\""), std::string::npos);
  EXPECT_EQ(problem(ask("tomato", "ripe", "soil"), "choice-unknown")["field"], "/stage");
  EXPECT_EQ(problem(ask("tomato", "from-flowering", "soil", {{"last_use", "2027-02-29"}}),
                    "date-impossible")["field"],
            "/last_use");
}

}  // namespace
}  // namespace wheyfield
