// The dose commands as they are typed: every option is a declared field of its request.
#include <gtest/gtest.h>

#include "api/fields.h"
#include "cli/commands.h"

namespace wheyfield::cli {
namespace {

using Json = nlohmann::ordered_json;

testing::Typed run(std::vector<std::string> given) {
  return testing::typed(std::move(given), {"2027-02-20", 180});
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

TEST(DoseCommands, EveryDeclaredFieldIsAnOptionWithWordsAndEveryKindHasAWord) {
  for (const char* verb : {"mix", "sprayer", "bucket", "area", "soak", "harvest", "plot"}) {
    const testing::Typed help = run({"dose", verb, "--help"});
    EXPECT_EQ(help.out.find('['), help.out.find("[OPTIONS]")) << help.out;  // no [missing.key]
    for (const api::Field& field : api::fields_of(std::string("dose.") + verb)->fields) {
      std::string option = "--" + std::string(field.name);
      std::replace(option.begin(), option.end(), '_', '-');
      EXPECT_EQ(has(help.out, option), field.name != "pages") << verb << " " << option;
    }
  }
}

TEST(DoseCommands, NutrientsBalanceAsItIsTyped) {
  const testing::Typed shown = run({"nutrients", "balance", "--crop", "maize", "--area",
                                    "0.25 acre", "--harvest", "300 kg", "--compost", "500 kg"});
  EXPECT_EQ(shown.code, exit_codes::fine) << shown.err;
  EXPECT_TRUE(has(shown.out, "300 kg of maize from 1,012 m2: 2.97 t a hectare.")) << shown.out;
  EXPECT_TRUE(has(shown.out, "Compost, 500 kg, brings")) << shown.out;
  EXPECT_EQ(shown.out.find('['), std::string::npos) << shown.out;  // no [missing.key]
  const testing::Typed without =
      run({"nutrients", "balance", "--crop", "maize", "--harvest", "300 kg"});
  EXPECT_EQ(without.code, exit_codes::wrong_use);
  EXPECT_TRUE(has(without.out, "--area")) << without.out;
  const testing::Typed json = run(
      {"nutrients", "balance", "--crop", "maize", "--area", "1 ha", "--harvest", "3 t", "--json"});
  EXPECT_FALSE(Json::parse(json.out).contains("pages"));
}

TEST(DoseCommands, AnOptionOfAListIsGivenAgainForEachRun) {
  const testing::Typed shown =
      run({"dose", "sprayer", "--by", "area", "--plot", "100 m2", "--run", "2 L", "--run=2.1 L",
           "--run", "2 L", "--strength", "1:500", "--json"});
  EXPECT_EQ(shown.code, 0) << shown.err;
  const Json answer = Json::parse(shown.out);
  EXPECT_EQ(answer["schema"], 1);
  EXPECT_TRUE(answer["problems"].empty());
  EXPECT_FALSE(answer["sources"].empty());
  EXPECT_EQ(answer["runs"]["litres_per_ha"], Json({200.0, 210.0, 200.0}));
}

TEST(DoseCommands, APlaceSouthOfTheEquatorIsNoFlag) {
  const testing::Typed shown =
      run({"dose", "area", "--point", "-1.2921,36.8219", "--point", "-1.2921 36.82226", "--point",
           "-1.29183; 36.8223", "--point=-1.2918 36.8219", "--json"});
  EXPECT_EQ(shown.code, 0) << shown.out << shown.err;
  EXPECT_NEAR(Json::parse(shown.out)["area_m2"].get<double>(), 1336.434, 5e-4);
}

TEST(DoseCommands, AFlagAndUnderscoresBecomeOptions) {
  const std::vector<std::string> bucket{"dose",  "bucket",   "--bottom", "30 cm", "--top",
                                        "25 cm", "--height", "38 cm",    "--json"};
  EXPECT_EQ(run(bucket).code, 1);
  std::vector<std::string> meant = bucket;
  meant.emplace_back("--wider-below");
  EXPECT_EQ(run(meant).code, 0);
}

TEST(DoseCommands, AProblemOfAListNamesTheFlagAndWhichOfThem) {
  const testing::Typed shown = run(
      {"dose", "bucket", "--pour", "2 L = 4 cm", "--pour", "4 L = 3.8 cm", "--pour", "6 L=11 cm"});
  EXPECT_EQ(shown.code, 1);
  EXPECT_EQ(shown.out, "");
  EXPECT_TRUE(has(shown.err, "--pour 2 \"3.8 cm\": Pour 2: the depth, 3.8 cm")) << shown.err;
  const testing::Typed sides =
      run({"dose", "area", "--side", "10 m", "--side", "20 m", "--side", "50 m"});
  EXPECT_TRUE(has(sides.err, "side 3 (50 m) is not shorter than side 2 (20 m) and side 1 (10 m)"))
      << sides.err;
}

TEST(DoseCommands, WrongUseIsAnsweredBeforeAnythingIsAsked) {
  const testing::Typed missing = run({"dose", "sprayer", "--by", "area"});
  EXPECT_EQ(missing.code, 2);
  EXPECT_TRUE(has(missing.out, "--strength is missing")) << missing.out;
  const testing::Typed typo = run({"dose", "sprayr"});
  EXPECT_EQ(typo.code, 2);
  EXPECT_TRUE(has(typo.out, "Did you mean sprayer?")) << typo.out;
  const testing::Typed twice = run({"dose", "soak", "--crop", "maize", "--crop", "bean", "--mass",
                                    "1 kg", "--seed-is", "own", "--strength", "1:500"});
  EXPECT_EQ(twice.code, 2) << twice.out;
}

TEST(DoseCommands, PagesAreReadableText) {
  const testing::Typed plot = run({"dose", "plot", "--size", "10 x 5 m", "--strength", "1:500"});
  EXPECT_EQ(plot.code, 0);
  EXPECT_EQ(plot.out.rfind("Trial plot\n==========\n", 0), 0u) << plot.out;
  EXPECT_TRUE(has(plot.out, "2.5 mL by syringe into 1.24 L"));
  EXPECT_TRUE(has(plot.err, "100 L an acre is assumed")) << plot.err;
  const testing::Typed soak = run({"dose", "soak", "--crop", "chickpea", "--mass", "5 kg",
                                   "--seed-is", "own", "--strength", "1:500"});
  EXPECT_TRUE(has(soak.out, "Seed of chickpea, 5 kg: 7.5 L of water with 15 mL")) << soak.out;
  EXPECT_EQ(soak.out.find('['), std::string::npos) << soak.out;
}

TEST(DoseCommands, TheExamplesOfTheSoakNameListedCrops) {
  const std::string help = run({"dose", "soak", "--help"}).out;
  const std::string crops = run({"crop", "list"}).out;
  const std::string option = "--crop ";
  const std::size_t end = help.find("Usage:");
  int named = 0;
  for (std::size_t at = help.find(option); at < end; at = help.find(option, at), ++named) {
    at += option.size();
    const std::string crop = help.substr(at, help.find(' ', at) - at);
    EXPECT_TRUE(has(crops, "\n" + crop + " ")) << crop;
  }
  EXPECT_EQ(named, 2);
}

// "1,234 L/acre" could be a thousand or a decimal: what is to be copied has no group mark.
TEST(DoseCommands, WhatGoesIntoTheSeasonFileCanBeReadBack) {
  const testing::Typed shown = run({"dose", "sprayer", "--by", "rate", "--rate", "1234 L/acre",
                                    "--method", "can", "--strength", "1:500"});
  EXPECT_TRUE(has(shown.out, "mix_rate = \"1234 L/acre\"")) << shown.out;
}

}  // namespace
}  // namespace wheyfield::cli
