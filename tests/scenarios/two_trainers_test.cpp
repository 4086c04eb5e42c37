// Two trainers record the same buckets for a week without a network, then bring their notes
// together.
#include <string>

#include <gtest/gtest.h>

#include <support/facade.h>

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

Json reading(const std::string& batch, const std::string& ph) {
  return {{"batch", batch}, {"half", "morning"}, {"ph", ph}};
}

// A trainer with a device of her own, and all lines it wrote or took in.
struct Trainer {
  explicit Trainer(std::string code) : device(std::move(code)) {}
  void note(const std::string& kind, const Json& body, const std::string& day) {
    const Json answer =
        facade.say("journal.add", {{"kind", kind}, {"body", body}, {"on", day}}, device);
    for (const Json& event : answer["events"]) lines.push_back(event);
  }
  void take(const Trainer& other) {
    facade.append(other.lines);
    for (const Json& event : other.lines) lines.push_back(event);
  }
  Json ask(const std::string& action) { return facade.ask(action, Json::object()); }

  std::string device;
  Facade facade{"2027-03-18"};
  Json lines = Json::array();
};

class TwoTrainers : public ::testing::Test {
 protected:
  TwoTrainers() {
    ama.note("batch", {{"label", "B1"}, {"vessel", "A"}, {"milk", "heated"}}, "2027-03-11");
    // Made before it is handed out, or that would be a question of its own.
    ama.note("made", {{"batch", "B0"}, {"product", "serum"}, {"amount", "6 L"}}, "2027-03-11");
    bini.take(ama);
    // PRACTICE, 19: two people read A the same morning, 4.0 and 4.5.
    ama.note("reading", reading("B1", "4.0"), "2027-03-15");
    bini.note("reading", reading("B1", "4.5"), "2027-03-15");
    ama.note("reading", reading("B1", "3.9"), "2027-03-16");
    bini.note("reading", reading("B1", "4.0"), "2027-03-16");
    bini.note("handed-out", {{"farm", "3"}, {"product", "serum"}, {"amount", "0.2 L"}},
              "2027-03-18");
  }
  Trainer ama{"AMA"};
  Trainer bini{"BINI"};
};

TEST_F(TwoTrainers, WhateverOrderTheirNotesArriveInBothKnowTheSame) {
  const Json of_ama = ama.lines;
  ama.take(bini);
  bini.facade.append(of_ama);
  for (const char* action : {"journal.list", "journal.questions", "journal.verify"})
    EXPECT_EQ(ama.ask(action), bini.ask(action)) << action;
}

TEST_F(TwoTrainers, TheFileIsPreviewedBeforeItIsTakenIn) {
  const Json seen = ama.facade.ask("journal.preview", {{"events", bini.lines}});
  EXPECT_EQ(seen["text"], "3 new notes, 1 new questions, 0 problems.");
  EXPECT_EQ(seen["known"], 2);
  EXPECT_EQ(ama.ask("journal.verify")["notes"], 4) << "a preview takes in nothing";
}

TEST_F(TwoTrainers, TakingTheSameFileTwiceChangesNothing) {
  ama.take(bini);
  const Json before = ama.ask("journal.list");
  const Json again = ama.facade.append(bini.lines);
  EXPECT_EQ(again["added"], 0);
  EXPECT_EQ(ama.ask("journal.list"), before);
}

TEST_F(TwoTrainers, WhereTheyDisagreeTheToolAsksAndTheAnswerHoldsForBoth) {
  ama.take(bini);
  const Json open = ama.ask("journal.questions")["questions"];
  ASSERT_EQ(open.size(), 1U);
  EXPECT_EQ(open[0]["name"], "readings-differ/B1/morning/2027-03-15");
  const Json answered =
      ama.facade.say("journal.answer",
                     {{"question", open[0]["name"]}, {"take", open[0]["choices"][1]["id"]}}, "AMA");
  bini.take(ama);
  bini.facade.append(answered["events"]);
  EXPECT_TRUE(bini.ask("journal.questions")["questions"].empty());
  const Json readings = bini.facade.ask("journal.table", {{"kind", "reading"}});
  EXPECT_EQ(readings["rows"].size(), 3U);
}

TEST_F(TwoTrainers, ALostPhoneIsReplacedFromTheColleaguesFile) {
  bini.take(ama);
  Trainer next("AMA2");
  next.take(bini);
  next.facade.say("journal.lost", {{"lost", "AMA"}}, "AMA2");
  ama.note("handed-out", {{"farm", "4"}, {"product", "serum"}, {"amount", "5 L"}}, "2027-03-18");
  next.take(ama);
  const Json open = next.ask("journal.questions")["questions"];
  ASSERT_EQ(open.size(), 2U);
  EXPECT_EQ(open[0]["code"], "after-loss");
}

}  // namespace
}  // namespace wheyfield
