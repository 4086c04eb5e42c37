// The buckets of the practice season, as a trainer types.
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "cli/commands.h"
#include "support/typed.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

class BatchCommands : public ::testing::Test {
 protected:
  BatchCommands() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(::testing::TempDir()) / (std::string("wheyfield_batches_") + test->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~BatchCommands() override { fs::remove_all(folder_); }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }

  testing::Typed type(std::vector<std::string> given, const std::string& today = "2027-03-15") {
    given.insert(given.end(), {"--device", "KOBO", "--journal", path("notes")});
    return testing::typed(std::move(given), {today, 180, clock_ += 60, ""});
  }
  void take_practice() {
    ASSERT_EQ(type({"journal", "take", "examples/practice.toml", "--yes"}).code, 0);
    ASSERT_EQ(
        type({"journal", "take", "examples/practice-batches.csv", "--kind", "batch", "--yes"}).code,
        0);
    ASSERT_EQ(
        type({"journal", "take", "examples/practice-looks.csv", "--kind", "reading", "--yes"}).code,
        0);
  }
  std::string standing(const std::string& batch, const std::string& today) {
    return Json::parse(type({"batch", "show", batch, "--json"}, today).out)["standing"];
  }

 private:
  fs::path folder_;
  long long clock_ = 1805090400;  // 15 March 2027, 6:00 UTC
};

TEST_F(BatchCommands, TheThreeBucketsOfThePracticeSeason) {
  take_practice();
  EXPECT_EQ(standing("A1", "2027-03-12"), "young");
  EXPECT_EQ(standing("A1", "2027-03-15"), "usable");
  EXPECT_EQ(standing("B1", "2027-03-14"), "late");
  EXPECT_EQ(standing("B1", "2027-03-15"), "set");
  EXPECT_EQ(standing("B1", "2027-03-18"), "usable");
  EXPECT_EQ(standing("C1", "2027-03-15"), "probably-lost");
  const testing::Typed page = type({"batch", "show", "C1"});
  EXPECT_EQ(page.code, 0);
  EXPECT_NE(page.out.find("Do not try"), std::string::npos) << page.out;
}

TEST_F(BatchCommands, ALookIsStoredAndToldAtOnce) {
  take_practice();
  const testing::Typed seen = type(
      {"batch", "read", "C1", "--ph", "6.0", "--set", "no", "--half", "morning"}, "2027-03-16");
  EXPECT_EQ(seen.code, 0) << seen.err;
  EXPECT_NE(seen.out.find("probably lost"), std::string::npos);
  EXPECT_EQ(Json::parse(type({"batch", "show", "C1", "--json"}, "2027-03-16").out)["looks"].size(),
            3u);
  const testing::Typed slip =
      type({"batch", "read", "C1", "--ph", "39", "--half", "morning"}, "2027-03-16");
  EXPECT_EQ(slip.code, 1);
  EXPECT_NE(slip.err.find("3.9, not 39"), std::string::npos) << slip.err;
}

TEST_F(BatchCommands, ThePictureGoesIntoItsFile) {
  take_practice();
  const testing::Typed seen = type({"batch", "show", "B1", "--svg", path("b1.svg"), "--json"});
  EXPECT_EQ(seen.code, 0) << seen.err;
  const Json answer = Json::parse(seen.out);
  EXPECT_FALSE(answer.contains("svg"));
  EXPECT_EQ(answer["svg_file"], path("b1.svg"));
  std::ifstream file(path("b1.svg"));
  const std::string svg{std::istreambuf_iterator<char>(file), {}};
  EXPECT_EQ(svg.rfind("<svg ", 0), 0u);
  EXPECT_NE(type({"batch", "show", "B1", "--svg", path("no/b1.svg")}).code, 0);
}

TEST_F(BatchCommands, AForecastNeedsNoNotesAndTakesATableOfReadings) {
  EXPECT_EQ(type({"batch", "forecast", "--stage", "milk", "--air", "25"}).code, 0);
  std::ofstream(path("days.csv")) << "date,min,max\n2027-03-11,14,28\n2027-03-12,14,28\n";
  const testing::Typed seen = type({"batch", "forecast", "--stage", "milk", "--air",
                                    path("days.csv"), "--on", "2027-03-11", "--json"});
  ASSERT_EQ(seen.code, 0) << seen.err;
  EXPECT_FALSE(Json::parse(seen.out)["ready"]["likely"].is_null());
  EXPECT_EQ(type({"batch", "forecast", "--stage", "milk"}).code, 1);
}

}  // namespace
}  // namespace wheyfield::cli
