#include "cli/questionnaire.h"

#include <gtest/gtest.h>

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

Questionnaire places_and_days_off() {
  return Questionnaire({{"/name", "", "", "places", true},
                        {"/month", "", "", "places/months", false},
                        {"/min", "", "", "places/months", true},
                        {"/height", "", "", "places", false},
                        {"", "", "", "meetings/none_on", false}});
}

// Gives these answers, one after the other, then nothing.
Questionnaire::Ask giving(std::vector<std::string> answers) {
  return [answers = std::move(answers), at = std::size_t{0}](const Question&, int) mutable {
    return at < answers.size() ? std::optional(answers[at++]) : std::nullopt;
  };
}

TEST(Questionnaire, AListInsideAListIsAskedForEachMember) {
  Questionnaire asking = places_and_days_off();
  asking.run(giving({"lower", "2027-02", "15", "2027-03", "16", "", "high", "upper", "", "", "",
                     "2027-03-25", "2027-04-01", ""}));
  EXPECT_EQ(asking.season(), ordered_json::parse(R"({"places":[
      {"name":"lower","months":[{"month":"2027-02","min":"15"},{"month":"2027-03","min":"16"}],
       "height":"high"},
      {"name":"upper"}],"meetings":{"none_on":["2027-03-25","2027-04-01"]}})"));
}

TEST(Questionnaire, AskingAgainForAListAddsMembersAndLosesNone) {
  Questionnaire asking = places_and_days_off();
  asking.run(giving({"lower", "", "", "", ""}));
  EXPECT_TRUE(asking.ask_again("/places", giving({"upper", "", "", ""})));
  EXPECT_FALSE(asking.ask_again("/places", giving({""})));
  EXPECT_EQ(asking.season()["places"],
            ordered_json::parse(R"([{"name":"lower"},{"name":"upper"}])"));
}

TEST(Questionnaire, AnAnswerInsideAListInAListIsAskedAgain) {
  Questionnaire asking = places_and_days_off();
  asking.run(giving({"lower", "2027-02", "x", "", "", "", "", ""}));
  ASSERT_NE(asking.behind("/places/0/months/0/min"), nullptr);
  EXPECT_TRUE(asking.ask_again("/places/0/months/0/min", giving({"15"})));
  EXPECT_EQ(asking.season()["places"][0]["months"][0]["min"], "15");
}

}  // namespace
}  // namespace wheyfield::cli
