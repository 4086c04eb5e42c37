#include "cli/season_writer.h"

#include <gtest/gtest.h>

#include <deque>
#include <filesystem>
#include <fstream>

#include "cli/questionnaire.h"
#include "cli/toml_reader.h"
#include "cli/write_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

TEST(SeasonWriter, WritesTablesInTheOrderGiven) {
  EXPECT_EQ(season_toml(ordered_json::parse(R"({"season":{"name":"x","to":null,"from":"2027-02-01"},
      "stock":[],"farms":[{"fields":[{"crop":"bean"}],"code":"1","trial_plot":true}]})")),
            "stock = []\n\n[season]\nname = \"x\"\nfrom = \"2027-02-01\"\n\n[[farms]]\n"
            "code = \"1\"\ntrial_plot = true\n\n[[farms.fields]]\ncrop = \"bean\"\n");
}

TEST(SeasonWriter, WhatIsWrittenReadsBackTheSame) {
  const auto awkward = ordered_json::parse(
      R"({"season":{"a key":"q\" b\\ t\t n\n é \u0001","days":["x",1,2.5,false]},
          "p":[{"m":[{"v":"1"},{"v":"2"}],"n":"3"},{"n":"4"}]})");
  const auto read = parse_toml(season_toml(awkward), "w.toml");
  ASSERT_TRUE(read) << season_toml(awkward);
  EXPECT_EQ(read->json, json(awkward));
}

TEST(SeasonWriter, ThePracticeSeasonReadsBackTheSame) {
  const auto practice = read_toml_file("examples/practice.toml");
  ASSERT_TRUE(practice);
  const auto again = parse_toml(season_toml(ordered_json(practice->json)), "w.toml");
  ASSERT_TRUE(again);
  EXPECT_EQ(again->json, practice->json);
}

TEST(WriteFile, AFileIsWrittenWholeOrNotAtAll) {
  const auto folder = std::filesystem::path(::testing::TempDir()) / "wheyfield_write_file";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder / "taken");
  EXPECT_TRUE(write_file((folder / "a").string(), "text"));
  EXPECT_FALSE(write_file((folder / "taken").string(), "text"));
  EXPECT_FALSE(write_file((folder / "missing" / "a").string(), "text"));
  int entries = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    EXPECT_EQ(entry.path().string().find(".part-"), std::string::npos);
    ++entries;
  }
  EXPECT_EQ(entries, 2);
  std::filesystem::remove_all(folder);
}

class Answers {
 public:
  Answers(std::initializer_list<const char*> lines) : lines_(lines.begin(), lines.end()) {}
  Questionnaire::Ask ask() {
    return [this](const Question&, int) -> std::optional<std::string> {
      ++asked;
      if (lines_.empty()) return std::nullopt;
      std::string line = lines_.front();
      lines_.pop_front();
      return line;
    };
  }
  int asked = 0;

 private:
  std::deque<std::string> lines_;
};

Questionnaire two_questions_and_a_list() {
  return Questionnaire(questions_of(ordered_json::parse(R"({"questions":[
      {"field":"/season/name","repeat":"","required":true},
      {"field":"/name","repeat":"places"},{"field":"/altitude","repeat":"places"},
      {"field":"/market/day","repeat":""}]})")));
}

TEST(Questionnaire, AListEndsWithAnEmptyAnswerToItsFirstQuestion) {
  Questionnaire asking = two_questions_and_a_list();
  Answers answers{" long rains ", "low", "1250 m", "up", "", "", "Tuesday"};
  asking.run(answers.ask());
  EXPECT_EQ(asking.season().dump(),
            R"({"season":{"name":"long rains"},"places":[{"name":"low","altitude":"1250 m"},)"
            R"({"name":"up"}],"market":{"day":"Tuesday"}})");
}

TEST(Questionnaire, TheEndOfInputEndsAllAsking) {
  Questionnaire asking = two_questions_and_a_list();
  Answers answers{"x"};
  asking.run(answers.ask());
  EXPECT_EQ(answers.asked, 2);
  EXPECT_EQ(asking.season().dump(), R"({"season":{"name":"x"}})");
  EXPECT_FALSE(asking.ask_again("/season/name", answers.ask()));
}

TEST(Questionnaire, AnAnswerCanBeGivenAgain) {
  Questionnaire asking = two_questions_and_a_list();
  Answers answers{"x", "low", "high up", "", "Tuesday", "1250 m", "again"};
  asking.run(answers.ask());
  EXPECT_TRUE(asking.ask_again("/places/0/altitude", answers.ask()));
  EXPECT_EQ(asking.season()["places"][0]["altitude"], "1250 m");
  EXPECT_FALSE(asking.ask_again("/farms/0/code", answers.ask()));
  EXPECT_EQ(asking.behind("/farms"), nullptr);
}

}  // namespace
}  // namespace wheyfield::cli
