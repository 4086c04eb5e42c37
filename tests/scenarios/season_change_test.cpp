// "B2 smells of rot; the meeting of 8 April is off; the rain is late. What now?"
#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

class SeasonChange : public ::testing::Test {
 protected:
  SeasonChange() {
    season["season"]["first_start"] = "2027-02-25";
    was = facade.plan(season);
  }
  Json change(const Json& now, Json more = Json::object()) {
    more["season"] = now;
    more["was"] = was;
    if (!more.contains("on")) more["on"] = "2027-03-16";
    return facade.ask("season.change", more);
  }
  static std::map<std::string, int> counted(const Json& answer) {
    std::map<std::string, int> count;
    for (const Json& one : answer["changes"]) ++count[one["what"].get<std::string>()];
    return count;
  }

  Facade facade{"2027-02-20"};
  Json season = practice();
  Json was;
};

TEST_F(SeasonChange, NothingHappenedNothingChanges) {
  const Json answer = change(season);
  ASSERT_TRUE(answer.contains("changes")) << answer["problems"];
  EXPECT_EQ(counted(answer), (std::map<std::string, int>{{"kept", 7}}));
  EXPECT_TRUE(answer["why"].empty());
  for (const Json& before : was["batches"]) {
    bool there = false;
    for (const Json& now : answer["batches"])
      there |= now["id"] == before["id"] && now["start"] == before["start"] &&
               now["stored_ml"] == before["stored_ml"];
    EXPECT_TRUE(there) << before["id"];
  }
}

TEST_F(SeasonChange, AFailedBatchIsNamedAndWhatIsAnnouncedStays) {
  const Json answer = change(season, {{"failed", {"B2"}}, {"pages", true}});
  ASSERT_TRUE(answer.contains("changes")) << answer["problems"];
  EXPECT_EQ(counted(answer)["failed"], 1);
  EXPECT_EQ(answer["why"][0], "B2 failed.");
  for (const Json& batch : answer["batches"]) EXPECT_NE(batch["id"], "B2");
  for (const Json& one : answer["changes"]) {
    if (one["announced"] == true) {
      EXPECT_EQ(one["what"], "kept") << one;
    }
  }
  EXPECT_EQ(answer["pages"][0]["id"], "changes");
  EXPECT_TRUE(answer["cure_start"].is_null()) << "under way nothing can start earlier";
  EXPECT_NE(answer["pages"][0].dump().find("page of its recipe"), std::string::npos);
}

TEST_F(SeasonChange, ACancelledMeetingIsTheReasonGiven) {
  Json now = season;
  now["meetings"]["none_on"].push_back("2027-04-08");
  const Json answer = change(now);
  ASSERT_TRUE(answer.contains("changes")) << answer["problems"];
  EXPECT_EQ(answer["why"][0], "There is no meeting on Thu 8 Apr any more.");
  EXPECT_GE(counted(answer)["kept"], 4);
}

TEST_F(SeasonChange, LateRainMovesWhatIsDue) {
  Json now = season;
  for (Json& farm : now["farms"])
    for (Json& field : farm["fields"])
      if (field["crop"] == "maize" && field.contains("sown_on")) field["sown_on"] = "2027-04-15";
  const Json answer = change(now);
  ASSERT_TRUE(answer.contains("changes")) << answer["problems"];
  EXPECT_FALSE(answer["why"].empty());
  for (const Json& one : answer["changes"]) {
    if (one["announced"] == true) {
      EXPECT_EQ(one["what"], "kept") << one;
    }
  }
}

TEST_F(SeasonChange, WhatIsNoPlanOrNoBatchIsRefused) {
  was = Json{{"batches", Json::array({Json{{"id", "B1"}}})}};
  EXPECT_EQ(problem(change(season), "was-no-plan")["field"], "/was/batches/0");
  was = Json::object();
  EXPECT_EQ(problem(change(season), "was-no-plan")["field"], "/was");
  was = facade.plan(season);
  EXPECT_FALSE(problem(change(season, {{"failed", {"B99"}}}), "failed-unknown").is_null());
  EXPECT_FALSE(
      problem(change(season, {{"announced_until", "2027-03-01"}}), "announced-before-change")
          .is_null());
}

TEST_F(SeasonChange, AnAnnouncedBatchWhoseVesselIsGoneIsAConflict) {
  Json now = season;
  const std::string vessel = was["batches"][0]["vessel"];
  for (std::size_t i = 0; i < now["vessels"].size(); ++i)
    if (now["vessels"][i]["name"] == vessel) now["vessels"].erase(i--);
  const Json refused = problem(change(now), "announced-vessel-gone");
  EXPECT_EQ(refused["value"], vessel);
}

}  // namespace
}  // namespace wheyfield
