// The command line as a new user meets it: run in process, with files in a folder of its own.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/commands.h"
#include "cli/csv_reader.h"
#include "cli/farms_csv.h"
#include "embedded.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

class CommandLine : public ::testing::Test {
 protected:
  struct Shown {
    int code;
    std::string out;
    std::string err;
  };

  CommandLine() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(::testing::TempDir()) / (std::string("wheyfield_") + test->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~CommandLine() override { fs::remove_all(folder_); }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
    return path(name);
  }
  static std::string read(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  // The practice season with one piece of its text replaced.
  std::string practice_with(const std::string& from, const std::string& to) const {
    std::string text = read("examples/practice.toml");
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return write("season.toml", text.replace(at, from.size(), to));
  }

  Shown run(std::vector<std::string> given, const std::string& input = "") const {
    const auto words = words::Catalogue::parse(embedded::words_json("en"));
    const auto parsed = parse_arguments(std::move(given), *words);
    if (const auto* end = std::get_if<EndsHere>(&parsed)) return {end->exit, end->text, ""};
    std::istringstream in(input);
    std::ostringstream out, err;
    Streams streams{in, out, err, false, 80};
    Host host(std::get<Arguments>(parsed), *words, {"2027-02-20", 180}, streams);
    const int code = run_command(host);
    return {code, out.str(), err.str()};
  }

 private:
  fs::path folder_;
};

TEST_F(CommandLine, NothingGivenIsAnsweredWithAShortHelpAndTwoExamples) {
  const Shown shown = run({});
  EXPECT_EQ(shown.code, 0);
  EXPECT_NE(shown.out.find("season plan"), std::string::npos);
  EXPECT_LE(std::count(shown.out.begin(), shown.out.end(), '\n'), 8);
}

TEST_F(CommandLine, EveryHelpStartsWithExamples) {
  for (const std::vector<std::string>& command :
       std::vector<std::vector<std::string>>{{"season", "plan"},
                                             {"season", "check"},
                                             {"season", "new"},
                                             {"crop", "windows"},
                                             {"crop", "onset"},
                                             {"crop", "list"},
                                             {"dose", "mix"},
                                             {"dose", "sprayer"},
                                             {"dose", "bucket"},
                                             {"dose", "area"},
                                             {"dose", "soak"},
                                             {"dose", "harvest"},
                                             {"dose", "plot"},
                                             {"nutrients", "balance"},
                                             {"recipe", "list"},
                                             {"recipe", "show"},
                                             {"recipe", "scale"},
                                             {"recipe", "check"}}) {
    auto given = command;
    given.push_back("--help");
    const Shown shown = run(given);
    EXPECT_EQ(shown.code, 0);
    EXPECT_EQ(shown.out.rfind("Examples:", 0), 0u) << shown.out.substr(0, 80);
    EXPECT_NE(shown.out.find("130"), std::string::npos);  // exit codes are listed
  }
}

TEST_F(CommandLine, TheHelpOfSectionNamesEveryPage) {
  const std::string help = run({"season", "plan", "--help"}).out;
  const Shown refused = run({"season", "plan", "examples/practice.toml", "--section", "nothing"});
  EXPECT_EQ(refused.code, 2);
  const std::string before = "The pages are: ";
  std::istringstream pages(refused.err.substr(refused.err.find(before) + before.size()));
  int named = 0;
  for (std::string page; pages >> page && ++named;) {
    page = page.substr(0, page.find_first_of(",."));
    if (page.rfind("meeting-", 0) == 0) page = "meeting-YYYY-MM-DD";
    EXPECT_NE(help.find(page), std::string::npos) << page << " in " << help;
  }
  EXPECT_GE(named, 10);
  EXPECT_EQ(refused.err.find("question:"), std::string::npos) << refused.err;  // nothing planned
}

TEST_F(CommandLine, AMeetingThatIsNotHeldIsRefusedWithTheMeetingsThatAre) {
  const Shown holiday =
      run({"season", "plan", "examples/practice.toml", "--section", "meeting-2027-03-25"});
  EXPECT_EQ(holiday.code, 2);
  EXPECT_NE(holiday.err.find("meeting-2027-03-18"), std::string::npos) << holiday.err;
  const Shown no_day =
      run({"season", "plan", "examples/practice.toml", "--section", "meeting-2027-02-29"});
  EXPECT_EQ(no_day.code, 2);
  EXPECT_NE(no_day.err.find("meeting-YYYY-MM-DD"), std::string::npos) << no_day.err;
}

TEST_F(CommandLine, APlanAsksFirstAndSaysOneNoteOfAKind) {
  const std::string plan = run({"season", "plan", "examples/practice.toml"}).err;
  EXPECT_LT(plan.rfind("question:"), plan.find("note:")) << plan;
  const auto count = [](const std::string& text, const std::string& part) {
    int n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
      ++n;
    return n;
  };
  const std::string kind = "No safe soaking time is known here";
  EXPECT_EQ(count(plan, kind), 1) << plan;
  EXPECT_NE(plan.find("more notes of this kind: wheyfield season check examples/practice.toml"),
            std::string::npos)
      << plan;
  EXPECT_GT(count(run({"season", "check", "examples/practice.toml"}).err, kind), 5);
}

TEST_F(CommandLine, ATypoIsAnsweredWithTheNearestCommand) {
  const Shown shown = run({"season", "plam", "x.toml"});
  EXPECT_EQ(shown.code, 2);
  EXPECT_NE(shown.out.find("plan"), std::string::npos);
}

TEST_F(CommandLine, ThePracticeSeasonIsPlannedAsPagesAndAsJson) {
  const Shown pages = run({"season", "plan", "examples/practice.toml"});
  EXPECT_EQ(pages.code, 4);  // land preparation is short: start earlier, or go without?
  EXPECT_NE(pages.out.find("Starting on Thu 25 Feb"), std::string::npos);
  EXPECT_NE(pages.err.find("question: season, first_start \"2027-03-04\": Short on Thu 11 Mar"),
            std::string::npos)
      << pages.err;
  const Shown json = run({"season", "plan", "examples/practice.toml", "--json"});
  EXPECT_EQ(json.code, 4);
  EXPECT_EQ(Json::parse(json.out)["cure_start"], "2027-02-25");
}

TEST_F(CommandLine, AShortSeasonIsAQuestionEvenWhenQuietAndAServedOneIsNot) {
  const Shown quiet = run({"season", "check", "examples/practice.toml", "--quiet"});
  EXPECT_EQ(quiet.code, 4);
  EXPECT_NE(quiet.err.find("Short on Thu 11 Mar"), std::string::npos) << quiet.err;
  const std::string served =
      practice_with("first_start = \"2027-03-04\"", "first_start = \"2027-02-25\"");
  EXPECT_EQ(run({"season", "plan", served}).err.find("Short on"), std::string::npos);
}

TEST_F(CommandLine, DoseMixAnswersSerumAndCaps) {
  const Shown shown =
      run({"dose", "mix", "--water", "20 L", "--cap", "20 mL", "--strength", "1:500", "--json"});
  EXPECT_EQ(shown.code, 0);
  EXPECT_EQ(Json::parse(shown.out)["serum_ml"], 40.0);
  EXPECT_EQ(Json::parse(shown.out)["caps"], 2.0);
}

TEST_F(CommandLine, AProblemNamesFileLineFieldValueExpectedAndCure) {
  const Shown shown = run({"season", "plan", practice_with("first_start =", "frist_start =")});
  EXPECT_EQ(shown.code, 1);
  EXPECT_EQ(shown.out, "");
  for (const char* part : {"season.toml:12:", "frist_start", "There is no field of this name",
                           "Did you mean \"first_start\"?"})
    EXPECT_NE(shown.err.find(part), std::string::npos) << part << " in " << shown.err;
}

TEST_F(CommandLine, AMissingFileCannotBeRead) {
  const Shown shown = run({"season", "plan", path("nothing.toml")});
  EXPECT_EQ(shown.code, 3);
  EXPECT_NE(shown.err.find("nothing.toml"), std::string::npos);
}

TEST_F(CommandLine, AnEmptyFileCannotBeRead) {
  EXPECT_EQ(run({"season", "plan", write("empty.toml", "")}).code, 3);
}

TEST_F(CommandLine, AFileAbove32MegabytesIsRefusedUnread) {
  const std::string file = write("large.toml", "a = 1\n");
  fs::resize_file(file, 33ull << 20);
  const Shown shown = run({"season", "plan", file});
  EXPECT_EQ(shown.code, 3);
  EXPECT_NE(shown.err.find("32"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, BytesThatAreNoUtf8AreRefusedWithTheirLine) {
  const Shown shown = run({"season", "plan", write("bytes.toml", "a = 1\nb = \"\xff\xfe\"\n")});
  EXPECT_EQ(shown.code, 3);
  EXPECT_NE(shown.err.find("bytes.toml:2"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, ABareImpossibleDateIsRefusedWithItsLine) {
  const std::string file =
      practice_with("first_start = \"2027-03-04\"", "first_start = 2027-02-29");
  const Shown shown = run({"season", "plan", file});
  EXPECT_NE(shown.code, 0);
  EXPECT_NE(shown.err.find("season.toml:12"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, AQuotedImpossibleDateIsRefusedWithItsLine) {
  const Shown shown = run({"season", "plan", practice_with("2027-03-04", "2027-02-29")});
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("season.toml:12"), std::string::npos) << shown.err;
  EXPECT_NE(shown.err.find("2027-02-28"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, ASlipOfTheUnitIsAQuestionForAPerson) {
  const Shown shown = run({"season", "check", practice_with("\"0.5 acre\"", "\"0.5 ha\"")});
  EXPECT_EQ(shown.code, 4);
  EXPECT_NE(shown.err.find("acres, about 71 x 71 m"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, TheFarmsTableGivesTheSameSeasonAsTheFile) {
  const auto farms = read_farms_file("examples/practice-farms.csv");
  ASSERT_TRUE(farms);
  const Shown whole = run({"season", "plan", "examples/practice.toml", "--request"});
  EXPECT_EQ(nlohmann::json::parse(whole.out)["season"]["farms"],
            nlohmann::json::parse(farms->json.dump()));
}

TEST_F(CommandLine, TablesComeWithCommaSemicolonOrTab) {
  for (const char mark : {',', ';', '\t'}) {
    std::string text =
        "\xef\xbb\xbf"
        "farm,place,crop\n1,\"low, er\",maize\n";
    if (mark != ',') {
      text = "farm,place,crop\n1,lower,maize\n";
      std::replace(text.begin(), text.end(), ',', mark);
    }
    const auto table = parse_csv(mark == ',' ? text.substr(3) : text, "farms.csv");
    ASSERT_TRUE(table);
    ASSERT_EQ(table->rows.size(), 1u);
    EXPECT_EQ(table->rows[0].cells.size(), 3u);
  }
}

TEST_F(CommandLine, AnUnknownColumnOfATableIsRefused) {
  const auto farms = read_farms_file(write("farms.csv", "farm,place,corp\n1,lower,maize\n"));
  ASSERT_FALSE(farms);
  EXPECT_EQ(farms.error()[0].code, "column-unknown");
}

// Without what may be skipped: holidays, temperatures, containers and stock are left blank.
const char* const answers =
    "My season\n2027-02-01\n2027-08-31\n2027-02-10\nc\nlactic-serum\n1:500\n60 days\n1 in 6\n"
    "Thursday\n\nTuesday\n"
    "lower\n1250 m\n\nupper\n1980 m\n\n\n"
    "meeting\n15 L\n50\n\nA\n7\n20 L\n13.5 L\nheated\n\n\n"
    "lower\nriver\n5\nupper\nriver\n12\n\n350\n8\n"
    "molasses\n2 L\n200\nrice\n1 kg\n110\n"
    "ph-strips\n100 pieces\n600\nnet\n1 piece\n60\nstring\n1 piece\n20\nsyringe\n1 piece\n25\n"
    "marker\n1 piece\n40\n\n\n";

TEST_F(CommandLine, ANewSeasonIsAskedForWrittenAndPlanned) {
  const std::string file = path("mine.toml");
  const Shown made =
      run({"season", "new", file, "--farms", "examples/practice-farms.csv"}, answers);
  EXPECT_EQ(made.code, 4) << made.err;  // kale: can its picking wait for the last use on leaves?
  const Shown planned = run({"season", "plan", file});
  EXPECT_EQ(planned.code, 4) << planned.err;
  EXPECT_NE(planned.out.find("My season"), std::string::npos);
}

// The practice season's own temperatures, holiday, cans and one bottle of serum in hand.
TEST_F(CommandLine, ANewSeasonAsksForHolidaysTemperaturesCansAndStock) {
  std::string given = answers;
  const auto insert = [&](const std::string& behind, const std::string& more) {
    const std::size_t at = given.find(behind);
    ASSERT_NE(at, std::string::npos) << behind;
    given.insert(at + behind.size(), more);
  };
  insert("Thursday\n", "2027-03-25\n2027-04-01\n");
  const std::string months[] = {"02", "03", "04", "05", "06", "07", "08"};
  std::string lower;
  for (const std::string& month : months) lower += "2027-" + month + "\n15.8\n29.0\n";
  insert("1250 m\n", lower);
  insert("heated\n\n", "can\n20 L\n6\n2\ncan\n10 L\n1\n\n");
  insert("marker\n1 piece\n40\n\n", "serum\n2 L\n2027-02-08\nnet\n1 piece\n\n");
  insert("marker\n1 piece\n40\n", "lid\n1 piece\n30\n");
  const std::string file = path("mine.toml");
  const Shown made = run({"season", "new", file, "--farms", "examples/practice-farms.csv"}, given);
  EXPECT_EQ(made.code, 4) << made.err;  // kale: can its picking wait for the last use on leaves?
  EXPECT_EQ(run({"season", "check", file}).code, 4);
  const Json season = Json::parse(run({"season", "plan", file, "--request"}).out)["season"];
  EXPECT_EQ(season["meetings"]["none_on"], Json({"2027-03-25", "2027-04-01"}));
  EXPECT_EQ(season["places"][0]["months"].size(), 7u);
  EXPECT_EQ(season["places"][0]["months"][6],
            Json({{"max", "29.0"}, {"min", "15.8"}, {"month", "2027-08"}}));
  EXPECT_FALSE(season["places"][1].contains("months"));
  ASSERT_EQ(season["containers"].size(), 2u);
  EXPECT_EQ(season["containers"][0]["without_lid"], "2");
  EXPECT_FALSE(season["containers"][1].contains("without_lid"));
  EXPECT_EQ(season["stock"][0]["made_on"], "2027-02-08");
  EXPECT_EQ(season["stock"][1]["item"], "net");
  const std::string text = read(file);
  std::size_t at = 0;
  for (const char* part :
       {"[season]", "[meetings]", "[market]", "[[places]]", "[[places.months]]", "[[milk]]",
        "[[vessels]]", "[[containers]]", "[[water]]", "[labour]", "[[prices]]", "[[stock]]"}) {
    const std::size_t found = text.find(part);
    ASSERT_NE(found, std::string::npos) << part;
    EXPECT_GE(found, at) << part;
    at = found;
  }
}

TEST_F(CommandLine, SectionsAsJsonAreAWholeAnswer) {
  const Shown shown = run({"season", "plan", "examples/practice.toml", "--json", "--section",
                           "shopping", "--section", "cost"});
  EXPECT_EQ(shown.code, 4);
  const Json answer = Json::parse(shown.out);
  EXPECT_EQ(answer["schema"], 1);
  ASSERT_EQ(answer["pages"].size(), 2u);
  EXPECT_EQ(answer["pages"][0]["id"], "shopping");
  EXPECT_EQ(answer["pages"][1]["id"], "cost");
  EXPECT_FALSE(answer["sources"].empty());
  EXPECT_TRUE(answer["problems"].is_array());
  const Shown refused = run({"season", "plan", practice_with("first_start =", "frist_start ="),
                             "--json", "--section", "shopping"});
  EXPECT_EQ(refused.code, 1);
  EXPECT_EQ(Json::parse(refused.out)["problems"][0]["code"], "key-unknown");
}

TEST_F(CommandLine, AStrengthFarBeyondWhatIsTaughtMustBeDecidedByAPerson) {
  const Shown shown =
      run({"dose", "mix", "--water", "20 L", "--cap", "20 mL", "--strength", "1:5"});
  EXPECT_EQ(shown.code, 4);
  EXPECT_NE(shown.err.find("question: --strength \"1:5\""), std::string::npos) << shown.err;
  EXPECT_NE(shown.out.find("! Stronger than 1:250: not for leaves"), std::string::npos);
}

TEST_F(CommandLine, OneDayIsOneDay) {
  const Shown shown = run({"recipe", "show", "lactic-serum"});
  EXPECT_EQ(shown.out.find("1 to 1 day"), std::string::npos) << shown.out;
  EXPECT_NE(shown.out.find("ready after 1 day; stands well until day"), std::string::npos);
}

TEST_F(CommandLine, AnExistingSeasonIsNotOverwritten) {
  const std::string file = write("mine.toml", "precious\n");
  EXPECT_EQ(run({"season", "new", file}, answers).code, 5);
  EXPECT_EQ(read(file), "precious\n");
}

TEST_F(CommandLine, AnEndOfInputNeverHangs) {
  const Shown shown = run({"season", "new", path("mine.toml")}, "");
  EXPECT_NE(shown.code, 0);
  EXPECT_FALSE(fs::exists(path("mine.toml")));
}

std::vector<std::string> maize_with(const std::string& flag, const std::string& value) {
  return {"crop",      "windows",   "--crop",     "maize",           "--sowing",
          "direct",    "--sown-on", "2027-03-22", "--harvest-after", "125 days",
          "--seed-is", "own",       "--altitude", "1250 m",          flag,
          value};
}

TEST_F(CommandLine, TemperaturesAreReadFromATableWithBlankLinesAndDecimalCommas) {
  std::string text = "date;min;max\n\n";
  for (int day = 22; day <= 31; ++day)
    text += "2027-03-" + std::to_string(day) + ";15,9;28,8\n" + (day == 25 ? ";;\n" : "");
  const Shown shown = run(maize_with("--temperatures", write("t.csv", text)));
  EXPECT_EQ(shown.code, 0) << shown.err;
  EXPECT_NE(shown.out.find("Dated by degree-days"), std::string::npos) << shown.out;
  EXPECT_NE(shown.out.find("Beside it, by the calendar"), std::string::npos);
}

TEST_F(CommandLine, ABadRowOfAWeatherTableIsNamedByFileAndLine) {
  const std::string file = write(
      "t.csv", "date,min,max\n2027-03-22,15.9,28.8\n\n2027-03-23,28.8,15.9\n2027-03-24,x,28\n");
  const Shown shown = run(maize_with("--temperatures", file));
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("t.csv:5: reading 3, min \"x\": A number was expected"),
            std::string::npos)
      << shown.err;
  const Shown swapped =
      run(maize_with("--temperatures", write("s.csv", "date,min,max\n\n2027-03-23,28.8,15.9\n")));
  EXPECT_NE(swapped.err.find("s.csv:3: reading 1, min \"28.8\": The minimum is above"),
            std::string::npos)
      << swapped.err;
  const Shown hot =
      run(maize_with("--temperatures", write("f.csv", "date,min,max\n2027-03-22,60,84\n")));
  EXPECT_NE(hot.err.find("f.csv:1: readings \"84.0\": Degrees Celsius"), std::string::npos)
      << hot.err;
  const Shown uneven =
      run(maize_with("--temperatures", write("u.csv", "date,min,max\n2027-03-22,15,9,28,8\n")));
  EXPECT_EQ(uneven.code, 1);
  EXPECT_NE(uneven.err.find("u.csv:2"), std::string::npos) << uneven.err;
}

TEST_F(CommandLine, AWrongFlagIsNamedAsAFlagThoughATableWasRead) {
  auto given = maize_with("--temperatures", "examples/practice-temperatures.csv");
  given[3] = "maise";
  const Shown shown = run(given);
  EXPECT_EQ(shown.code, 1);
  EXPECT_EQ(shown.err.rfind("--crop \"maise\"", 0), 0u) << shown.err;
  EXPECT_NE(shown.err.find("Did you mean \"maize\"?"), std::string::npos);
}

TEST_F(CommandLine, AWeatherTableNamesItsColumns) {
  const Shown shown =
      run(maize_with("--temperatures", write("t.csv", "date,mn,max\n2027-03-22,15,28\n")));
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("Did you mean min?"), std::string::npos) << shown.err;
  EXPECT_NE(shown.err.find("A column min was expected"), std::string::npos);
}

// PRACTICE: the rains of the lower villages came on 27 March; the shower of 8 March was none.
TEST_F(CommandLine, TheRainsOfThePracticeSeasonBeganOnThe27thOfMarch) {
  std::vector<std::string> asked{"crop",   "onset",    "--rain",     "examples/practice-rain.csv",
                                 "--rule", "two-days", "--earliest", "2027-03-01",
                                 "--json"};
  EXPECT_EQ(run(asked).code, 4);  // rain of days still to come
  asked.insert(asked.begin(), {"--date", "2027-06-01"});
  const Shown shown = run(asked);
  EXPECT_EQ(shown.code, 0) << shown.err;
  const Json answer = Json::parse(shown.out);
  EXPECT_EQ(answer["state"], "onset");
  EXPECT_EQ(answer["day"], "2027-03-27");
  EXPECT_EQ(answer["false_starts"], Json::array({"2027-03-09"}));
  EXPECT_FALSE(answer["sources"].empty());
}

TEST_F(CommandLine, AMonthWithoutRainRowsIsRefusedWithFileAndLine) {
  const std::string file = write("r.csv", "date,mm\n2027-03-30,4\n2027-03-31,0\n2027-05-01,2\n");
  const Shown shown =
      run({"crop", "onset", "--rain", file, "--rule", "two-days", "--earliest", "2027-03-30"});
  EXPECT_EQ(shown.code, 1);
  EXPECT_NE(shown.err.find("r.csv:4: rain of row 3, date \"2027-04\": This month is left out"),
            std::string::npos)
      << shown.err;
}

TEST_F(CommandLine, WhatWasSeenIsGivenInWords) {
  std::vector<std::string> asked = maize_with("--seen", "first-flower 2027-05-14");
  EXPECT_EQ(run(asked).code, 4);  // a day still to come
  asked.insert(asked.begin(), {"--date", "2027-05-20"});
  const Shown shown = run(asked);
  EXPECT_EQ(shown.code, 0) << shown.err;
  EXPECT_NE(shown.out.find("Fri 14 May"), std::string::npos) << shown.out;
  const Shown undated = run(maize_with("--seen", "first-flower"));
  EXPECT_NE(undated.err.find("--seen 1: The day on which it was seen is needed"), std::string::npos)
      << undated.err;
}

TEST_F(CommandLine, TheExampleOfASightingIsNotOfADayToCome) {
  const Shown help = run({"crop", "windows", "--help"});
  EXPECT_NE(help.out.find("--seen \"first-flower 2027-05-28\" --date 2027-06-01"),
            std::string::npos)
      << help.out;
  const Shown shown =
      run({"crop", "windows", "--crop", "maize", "--sowing", "direct", "--sown-on", "2027-03-22",
           "--harvest-after", "125 days", "--station", "nairobi", "--altitude", "1250 m", "--seen",
           "first-flower 2027-05-28", "--date", "2027-06-01"});
  EXPECT_EQ(shown.code, 0) << shown.err;
  EXPECT_EQ(shown.err.find("question"), std::string::npos) << shown.err;
}

TEST_F(CommandLine, HerOwnRecipeIsCheckedTheSameWay) {
  std::string text = read("data/recipes/lactic-serum.toml");
  EXPECT_EQ(run({"recipe", "check", write("own.toml", text)}).code, 0);
  const std::string fate = "fate = \"curd-fate\"\n";
  text.erase(text.find(fate), fate.size());
  EXPECT_EQ(run({"recipe", "check", write("own.toml", text)}).code, 1);
}

}  // namespace
}  // namespace wheyfield::cli
