// A programme officer's folder on the command line: run in process, with files in a folder of its
// own.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "cli/commands.h"
#include "cli/season_file.h"
#include "cli/season_writer.h"
#include "support/invented_group.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

const char* const five_visits =
    "[programme]\n"
    "name = \"valley\"\n"
    "[[trainers]]\n"
    "name = \"T1\"\n"
    "days = [\"Monday\", \"Thursday\"]\n"
    "[[trainers]]\n"
    "name = \"T2\"\n"
    "days = [\"Wednesday\"]\n"
    "visits_a_day = 1\n";

class ProgrammeCommands : public ::testing::Test {
 protected:
  ProgrammeCommands() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(::testing::TempDir()) / (std::string("wheyfield_programme_") + test->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~ProgrammeCommands() override { fs::remove_all(folder_); }

  std::string folder() const { return folder_.string(); }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  void write_groups(int first, int last) const {
    static const Json practice = read_season_file("examples/practice.toml")->json;
    for (int n = first; n <= last; ++n)
      write("g" + std::to_string(100 + n).substr(1) + ".toml",
            season_toml(testing::invented_group(practice, static_cast<std::uint64_t>(n))));
  }

  testing::Typed run(std::vector<std::string> given) const {
    given.insert(given.begin(), {"programme", "plan"});
    return testing::typed(std::move(given), {"2027-02-20", 180});
  }

 private:
  fs::path folder_;
};

TEST_F(ProgrammeCommands, AnyNumberOfThreadsGivesTheSameBytes) {
  const int groups = 12;
  write_groups(1, groups);
  write("g07x.toml", "[season]\nname = \"no season\"\n");  // problems keep their place too
  write("programme.toml",
        std::string(five_visits) +
            "[[trainers]]\nname = \"T3\"\ndays = [\"Tuesday\"]\nvisits_a_day = 9\n"
            "[lorry]\ntrip = \"900\"\nholds = 9\ncan = \"5 L\"\nday = \"Monday\"\n");
  const testing::Typed json = run({folder(), "--json", "--threads", "1"});
  EXPECT_EQ(json.code, 1);
  EXPECT_EQ(Json::parse(json.out)["groups"].size(), static_cast<std::size_t>(groups));
  for (const char* threads : {"2", "5"}) {
    const testing::Typed again = run({folder(), "--json", "--threads", threads});
    EXPECT_EQ(again.code, json.code);
    EXPECT_EQ(again.out, json.out) << threads;
    EXPECT_EQ(again.err, json.err) << threads;
  }
}

TEST_F(ProgrammeCommands, TheExactMethodIsNeverWorseAndSaysWhatItDid) {
  write_groups(1, 2);
  write("programme.toml", five_visits);
  Json usual = Json::parse(run({folder(), "--json"}).out);
  Json exact = Json::parse(run({folder(), "--json", "--method", "exact"}).out);
  EXPECT_FALSE(usual["proof"].contains("solver"));
  ASSERT_TRUE(exact["proof"].contains("solver"));
  const Json& proof = usual["proof"];
  // All plans that were not within 0.1 % went to the solver, and no other.
  EXPECT_EQ(exact["proof"]["solver"]["handed_over"].get<int>(),
            proof["plans"].get<int>() - proof["within_0_1_percent"].get<int>());
  EXPECT_GE(exact["proof"]["within_0_1_percent"], proof["within_0_1_percent"]);
  if (exact["proof"]["solver"]["handed_over"] == 0) {
    exact["proof"].erase("solver");
    EXPECT_EQ(exact.dump(), usual.dump());
  }
  EXPECT_EQ(run({folder(), "--method", "baseline"}).code, 2);
}

TEST_F(ProgrammeCommands, TheExampleIsPlanned) {
  const testing::Typed shown = run({"examples/programme"});
  EXPECT_TRUE(shown.code == 0 || shown.code == 4) << shown.err;
  for (const char* said : {"ashgrove", "millbend", "saltspring", "By lorry", "T1"})
    EXPECT_NE(shown.out.find(said), std::string::npos) << said;
  const testing::Typed page = run({"examples/programme", "--section", "visits", "--quiet"});
  EXPECT_EQ(page.out.rfind("Who visits whom", 0), 0u) << page.out;
  EXPECT_EQ(run({"examples/programme/programme.toml"}).out, shown.out);
  EXPECT_EQ(run({"examples/programme", "--section", "weekday"}).code, 2);
  EXPECT_EQ(run({"examples/programme", "--threads", "0"}).code, 2);
}

TEST_F(ProgrammeCommands, ABadFileIsNamedAndDoesNotStopTheOthers) {
  write_groups(1, 2);
  write("a-bad.toml", "[season\n");
  const std::string good =
      season_toml(testing::invented_group(read_season_file("examples/practice.toml")->json, 3));
  std::string bad = good;
  bad.replace(bad.find("area = \""), 8, "area = \"x");
  write("b-bad.toml", bad);
  write("programme.toml", five_visits);
  const testing::Typed shown = run({folder()});
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("a-bad.toml:1"), std::string::npos) << shown.err;
  EXPECT_NE(shown.err.find("b-bad.toml:"), std::string::npos) << shown.err;
  EXPECT_NE(shown.err.find("farm \"1\", field 1, area"), std::string::npos) << shown.err;
  EXPECT_NE(shown.out.find("a-bad, b-bad"), std::string::npos) << shown.out;
  const Json answer = Json::parse(run({folder(), "--json"}).out);
  ASSERT_EQ(answer["not_planned"].size(), 2u);
  EXPECT_EQ(answer["not_planned"][0]["problems"][0]["code"], "toml-syntax");
  EXPECT_GT(answer["not_planned"][1]["problems"][0]["line"].get<int>(), 1);
  EXPECT_EQ(answer["groups"].size(), 2u);
  EXPECT_FALSE(answer["sources"].empty());
}

TEST_F(ProgrammeCommands, TwoMoniesAreRefusedBeforeAnythingIsPlanned) {
  write_groups(1, 2);
  const Json practice = read_season_file("examples/practice.toml")->json;
  Json other = testing::invented_group(practice, 3);
  other["season"]["currency"] = "ZZZ";
  other["farms"] = Json::array();  // would be refused when it is planned
  write("g03.toml", season_toml(other));
  write("programme.toml", five_visits);
  const testing::Typed shown = run({folder()});
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("Group g03 counts in another money than group g01"), std::string::npos)
      << shown.err;
  EXPECT_EQ(shown.err.find("g03.toml:"), std::string::npos) << shown.err;
  EXPECT_EQ(shown.out, "");
}

TEST_F(ProgrammeCommands, NothingToPlanIsSaidWithItsCure) {
  const testing::Typed missing = run({folder()});
  EXPECT_EQ(missing.code, 3);
  EXPECT_NE(missing.err.find("programme.toml"), std::string::npos);
  write("programme.toml", five_visits);
  const testing::Typed empty = run({folder()});
  EXPECT_EQ(empty.code, 1);
  EXPECT_NE(empty.err.find("no season file"), std::string::npos) << empty.err;
  write("only.toml", "[season]\n");
  const testing::Typed bad = run({folder(), "--json"});
  EXPECT_EQ(bad.code, 1);
  EXPECT_EQ(Json::parse(bad.out)["not_planned"].size(), 1u);
}

TEST_F(ProgrammeCommands, MoreGroupsThanVisitsAreCountedBeforeAnythingIsPlanned) {
  for (int n = 1; n <= 8; ++n) write("g" + std::to_string(n) + ".toml", "not read yet");
  write("programme.toml", five_visits);
  const testing::Typed shown = run({folder()});
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("programme.toml:3"), std::string::npos) << shown.err;
  EXPECT_NE(shown.err.find("3 too many"), std::string::npos) << shown.err;
  EXPECT_EQ(shown.err.find("g1.toml"), std::string::npos) << shown.err;
}

TEST_F(ProgrammeCommands, TheFilesMayBeListed) {
  write_groups(1, 3);
  const auto listing = [&](const std::string& groups) {
    std::string text = five_visits;
    write("programme.toml", text.insert(text.find("[[trainers"), "groups = " + groups + "\n"));
    return run({folder(), "--json"});
  };
  const Json answer = Json::parse(listing("[\"g03.toml\", \"g01.toml\"]").out);
  ASSERT_EQ(answer["groups"].size(), 2u);
  EXPECT_EQ(answer["groups"][0]["group"], "g03");
  const testing::Typed twice = listing("[\"g03.toml\", \"g03.toml\"]");
  EXPECT_EQ(twice.code, 1);
  EXPECT_NE(twice.err.find("programme.toml:3"), std::string::npos) << twice.err;
  EXPECT_EQ(listing("\"g03.toml\"").code, 1);
  const testing::Typed absent = listing("[\"g03.toml\", \"gone.toml\"]");
  EXPECT_EQ(absent.code, 1);
  EXPECT_NE(absent.err.find("gone.toml"), std::string::npos) << absent.err;
}

}  // namespace
}  // namespace wheyfield::cli
