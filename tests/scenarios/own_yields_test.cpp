// The yields of the group's own batches, from the notes into the plan.
#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::practice;
using testing::problem;

void strained(Facade& facade, const std::string& label, const std::string& milk,
              const std::string& raw) {
  facade.note("batch", {{"label", label}, {"recipe", "lactic-serum"}, {"amount", milk}});
  facade.note("made", {{"batch", label}, {"product", "raw-serum"}, {"amount", raw}});
}

Json raw_serum(const Json& plan) {
  for (const Json& one : plan.at("learned").at("yields"))
    if (one.at("material") == "raw-serum") return one;
  return nullptr;
}

double milk_of(const Json& batch) {
  for (const Json& input : batch.at("inputs"))
    if (input.at("material") == "milk") return input.at("amount").get<double>();
  return 0.0;
}

TEST(OwnYieldsInThePlan, WithoutNotesTheRecipeSpeaks) {
  Facade facade;
  const Json plan = facade.plan(practice());
  const Json yield = raw_serum(plan);
  EXPECT_EQ(yield["of"], "milk");
  EXPECT_NEAR(yield["value"], 0.5, 1e-6);
  EXPECT_NEAR(yield["low"], 0.4, 1e-6);
  EXPECT_NEAR(yield["high"], 0.75, 1e-6);
  EXPECT_EQ(yield["batches"], 0);
  EXPECT_EQ(plan["learned"]["failure"]["recorded"], 0);
  EXPECT_EQ(plan["learned"]["failure"]["own"], false);
}

// Three batches of 0.42, 0.38 and 0.40 L a litre. With half of the variance in common three own
// batches count for three quarters: 0.5^(1/4) x (0.42 x 0.38 x 0.40)^(1/4) = 0.422684.
TEST(OwnYieldsInThePlan, ThreeThinBatchesAskForMoreMilkAndThePageSaysSo) {
  Facade facade;
  const Json before = facade.plan(practice(), true);
  facade.say("journal.import", {{"season", practice()}});
  strained(facade, "K1", "10 L", "4.2 L");
  strained(facade, "K2", "10 L", "3.8 L");
  strained(facade, "K3", "5 L", "2 L");
  const Json plan = facade.ask("season.plan", {{"pages", true}});
  const Json yield = raw_serum(plan);
  EXPECT_EQ(yield["batches"], 3);
  EXPECT_NEAR(yield["value"], 0.422684, 1e-6);
  EXPECT_GT(yield["low"].get<double>(), 0.4 * 0.422684 / 0.5);
  EXPECT_LT(yield["high"].get<double>(), 0.75 * 0.422684 / 0.5);
  EXPECT_EQ(plan["learned"]["failure"]["recorded"], 3);
  EXPECT_EQ(plan["learned"]["failure"]["missing"], 7);
  ASSERT_FALSE(plan["batches"].empty());
  for (const Json& batch : plan["batches"])
    EXPECT_NEAR(milk_of(batch), batch["stored_ml"].get<double>() / 1000.0 / 2.0 / 0.422684, 1e-3);
  for (const Json& batch : before["batches"])
    EXPECT_NEAR(milk_of(batch), batch["stored_ml"].get<double>() / 1000.0, 1e-6);
  const std::string summary = plan["pages"][0].dump();
  EXPECT_NE(summary.find("From each litre of milk the plan counts on 0.42 L of raw serum"),
            std::string::npos);
  EXPECT_NE(summary.find("worked out from 3 of your own batches"), std::string::npos);
  EXPECT_EQ(before["pages"][0].dump().find("From each litre of milk"), std::string::npos);
}

TEST(OwnYieldsInThePlan, ABatchThatWasLostTellsNoYield) {
  Facade facade;
  facade.say("journal.import", {{"season", practice()}});
  strained(facade, "K1", "10 L", "4 L");
  strained(facade, "K2", "10 L", "1 L");
  facade.note("lost", {{"batch", "K2"}});
  EXPECT_EQ(raw_serum(facade.ask("season.plan", Json::object()))["batches"], 1);
}

TEST(OwnYieldsInThePlan, OnlyBatchesWhoseMilkIsNotedCount) {
  Facade facade;
  facade.say("journal.import", {{"season", practice()}});
  facade.note("batch", {{"label", "K1"}});
  facade.note("made", {{"batch", "K1"}, {"product", "raw-serum"}, {"amount", "4 L"}});
  strained(facade, "K2", "10 L", "4 L");
  EXPECT_EQ(raw_serum(facade.ask("season.plan", Json::object()))["batches"], 1);
}

TEST(OwnYieldsInThePlan, MoreThanWentInIsAskedAboutAtItsNoteAndLeftOut) {
  Facade facade;
  facade.say("journal.import", {{"season", practice()}});
  strained(facade, "K1", "10 L", "4 L");
  strained(facade, "K2", "5 L", "50 L");
  const Json plan = facade.ask("season.plan", Json::object());
  EXPECT_EQ(raw_serum(plan)["batches"], 1);
  const Json asked = problem(plan, "yield-impossible");
  ASSERT_FALSE(asked.is_null());
  EXPECT_EQ(asked["severity"], "question");
  EXPECT_NE(asked["text"].get<std::string>().find("K2"), std::string::npos);
  EXPECT_EQ(asked["field"].get<std::string>().rfind("/notes/KOBO-", 0), 0u);
}

// Both parts of one batch that was strained on two days.
TEST(OwnYieldsInThePlan, WhatWasStrainedOnTwoDaysIsAddedUp) {
  Facade one, two;
  for (Facade* facade : {&one, &two}) facade->say("journal.import", {{"season", practice()}});
  strained(one, "K1", "10 L", "4 L");
  strained(two, "K1", "10 L", "3 L");
  two.note("made", {{"batch", "K1"}, {"product", "raw-serum"}, {"amount", "1 L"}}, "2027-02-19");
  const Json body = Json::object();
  EXPECT_EQ(raw_serum(one.ask("season.plan", body)), raw_serum(two.ask("season.plan", body)));
}

TEST(OwnYieldsInThePlan, WhileTwoNotesMayBeOneTheirBatchTellsNothing) {
  Facade facade;
  facade.say("journal.import", {{"season", practice()}});
  strained(facade, "K1", "10 L", "4 L");
  strained(facade, "K2", "10 L", "3 L");
  const Json again = {{"batch", "K2"}, {"product", "raw-serum"}, {"amount", "3 L"}};
  facade.say("journal.add", {{"kind", "made"}, {"body", again}}, "TANO");
  EXPECT_EQ(raw_serum(facade.ask("season.plan", Json::object()))["batches"], 1);
}

}  // namespace
}  // namespace wheyfield
