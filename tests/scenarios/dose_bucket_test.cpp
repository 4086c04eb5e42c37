// A tapered bucket becomes a measure, and equal-depth marks are shown for what they are.
#include <gtest/gtest.h>

#include "support/facade.h"

namespace wheyfield {
namespace {

using testing::Facade;
using testing::Json;
using testing::problem;

// The bucket of the reference: inside 25.5 cm at the bottom, 29.5 cm at the top, 37 cm high.
const Json bucket{{"bottom", "25.5 cm"}, {"top", "29.5 cm"}, {"height", "37 cm"}};

class DoseBucket : public ::testing::Test {
 protected:
  Json with(Json more) {
    Json body = bucket;
    body.update(more);
    return facade.ask("dose.bucket", body);
  }
  Facade facade;
};

// Computed apart: depths for 1, 2, 5, 10, 15, 20 L.
TEST_F(DoseBucket, DepthsForVolumesAndBack) {
  const Json answer = with({{"volume", {"1 L", "2 L", "5 L", "10 L", "15 L", "20 L"}}});
  EXPECT_NEAR(answer["full_l"].get<double>(), 22.015, 5e-4);
  const double depths[] = {1.942, 3.853, 9.410, 18.149, 26.324, 34.019};
  ASSERT_EQ(answer["rows"].size(), 6u);
  for (std::size_t i = 0; i < 6; ++i)
    EXPECT_NEAR(answer["rows"][i]["depth_cm"].get<double>(), depths[i], 5e-4);
  const Json half = with({{"depth", {"18.5 cm"}}});  // half the depth holds 46.4 %
  EXPECT_NEAR(half["rows"][0]["litres"].get<double>(), 0.464 * 22.015, 0.012);
}

TEST_F(DoseBucket, MeasuresStandOnAFormulaThatIsNamed) {
  const Json answer = with({{"pages", true}});
  bool named = false;
  for (const Json& source : answer["sources"])
    for (const Json& use : source["used_for"]) named = named || use == "tapered bucket";
  EXPECT_TRUE(named);
  EXPECT_NE(answer["pages"].dump().find("The numbers here are: "), std::string::npos);
}

TEST_F(DoseBucket, TheDipStickHasAMarkForEveryLitre) {
  const Json stick = with({{"step", "1 L"}})["dip_stick"];
  ASSERT_EQ(stick.size(), 22u);
  EXPECT_NEAR(stick[9]["depth_cm"].get<double>(), 18.149, 5e-4);
  EXPECT_EQ(with(Json::object())["dip_stick"].size(), 22u);  // the handy step for this size
}

// Computed apart: ten equal slices, bottom -12.8 %, top +13.3 %; 1 + 10 marks of 2 cm are 1:10.96;
// the single mark last is 9.1 % too big; 2 mm of 2 cm are 10 %.
TEST_F(DoseBucket, OneMarkAndTenMarksAreReallyOneToEleven) {
  const Json answer = with({{"mark", "2 cm"}, {"parts", 10}, {"pages", true}});
  EXPECT_NEAR(answer["equal_slices"]["bottom_off"].get<double>(), -0.128, 5e-4);
  EXPECT_NEAR(answer["equal_slices"]["top_off"].get<double>(), 0.133, 5e-4);
  EXPECT_NEAR(answer["equal_marks"]["small_first"]["parts"].get<double>(), 10.96, 5e-3);
  EXPECT_NEAR(answer["equal_marks"]["small_last"]["parts"].get<double>(), 10 / 1.091, 5e-3);
  EXPECT_NEAR(answer["equal_marks"]["reading"].get<double>(), 0.1, 1e-6);
  EXPECT_TRUE(answer["equal_marks"]["use_bottle"].get<bool>());
  EXPECT_NE(answer["pages"].dump().find("Measure the small part with a bottle"), std::string::npos);
}

// The pours are read off the same frustum: 2, 4 .. 18 L. V = a h + b h2 comes within a thousandth.
TEST_F(DoseBucket, NinePoursOfATwoLitreBottleGiveTheSameScale) {
  const Json marks = with({{"step", "2 L"}})["dip_stick"];
  Json pours = Json::array();
  for (std::size_t i = 0; i < 9; ++i)
    pours.push_back(std::to_string(2 * (i + 1)) +
                    " L = " + std::to_string(marks[i]["depth_cm"].get<double>()) + " cm");
  const Json answer = facade.ask("dose.bucket", {{"pour", pours}, {"volume", {"10 L"}}});
  EXPECT_EQ(answer["fit"]["kind"], "quadratic");
  EXPECT_NEAR(answer["rows"][0]["depth_cm"].get<double>(), 18.149, 0.02);
  EXPECT_TRUE(answer["problems"].empty());
  // Up to 18 L at 30.99 cm of the same frustum: one tenth of the depth, of the whole, is 9.0 %.
  const double d = 25.5, slope = 4.0 / 37, h = marks[8]["depth_cm"].get<double>();
  const auto litres = [&](double x) {
    return x * (3 * d * d + 3 * d * slope * x + slope * slope * x * x);
  };
  EXPECT_NEAR(answer["equal_slices"]["bottom_off"].get<double>(),
              10 * litres(h / 10) / litres(h) - 1, 0.005);
  const Json marked = facade.ask("dose.bucket", {{"pour", pours}, {"mark", "2 cm"}, {"parts", 10}});
  EXPECT_NEAR(marked["equal_marks"]["small_first"]["parts"].get<double>(), 10.96, 0.1);
}

// The second pour is 63 % off every scale through all four: no stick is cut from that.
TEST_F(DoseBucket, PoursThatFitNoScaleAreAskedAboutAndGiveNoDipStick) {
  const Json answer = facade.ask(
      "dose.bucket",
      {{"pour", {"1 L = 1 cm", "2 L = 8 cm", "3 L = 9 cm", "4 L = 20 cm"}}, {"pages", true}});
  const Json off = problem(answer, "pours-off");
  EXPECT_EQ(off["severity"], "question");
  EXPECT_EQ(off["field"], "/pour/" + std::to_string(answer["fit"]["worst_pour"].get<int>() - 1));
  EXPECT_TRUE(answer["dip_stick"].is_null());
  EXPECT_EQ(answer["pages"].dump().find("Dip stick: cut"), std::string::npos);
  EXPECT_NE(answer["pages"].dump().find("no dip stick is told"), std::string::npos);
}

TEST_F(DoseBucket, ThePourAloneIsNotWhatWasPouredSoFar) {
  const Json answer =
      facade.ask("dose.bucket", {{"pour", {"2 L = 3.9 cm", "2 L = 7.6 cm", "2 L = 11.2 cm"}}});
  const Json second = problem(answer, "pours-total");
  EXPECT_EQ(second["field"], "/pour/1");
  EXPECT_NE(second["cure"].get<std::string>().find("4 L"), std::string::npos);
  EXPECT_NE(answer.dump().find("all pours together: 6 L"), std::string::npos);
}

TEST_F(DoseBucket, MistakesAreNamedWithFieldAndCure) {
  const auto pours = [&](Json list) {
    return facade.ask("dose.bucket", {{"pour", std::move(list)}});
  };
  const Json wide = problem(with({{"bottom", "30 cm"}}), "bucket-wider-below");
  EXPECT_EQ(wide["field"], "/bottom");
  EXPECT_EQ(wide["value"], "30 cm");
  EXPECT_TRUE(with({{"bottom", "30 cm"}, {"wider_below", true}})["problems"].empty());
  EXPECT_EQ(problem(with({{"bottom", "25.5 m"}}), "bucket-width-out-of-range")["field"], "/bottom");
  EXPECT_EQ(problem(with({{"height", "37 m"}}), "bucket-depth-out-of-range")["field"], "/height");
  EXPECT_EQ(problem(pours({"2 L = 4 cm", "4 L = 8 cm", "6 L = 11 m"}),
                    "bucket-depth-out-of-range")["field"],
            "/pour/2");
  EXPECT_EQ(
      problem(pours({"2 L = 4 cm", "4 L = 3.8 cm", "6 L = 11 cm"}), "pours-not-rising")["field"],
      "/pour/1");
  EXPECT_EQ(problem(pours({"2 L = 4 cm", "4 L = 8 cm"}), "pours-few")["field"], "/pour");
  EXPECT_EQ(problem(pours({"2 L", "4 L = 8 cm", "6 L = 11 cm"}), "pour-unreadable")["value"],
            "2 L");
  EXPECT_EQ(
      problem(pours({"2 L = 4 cm", "4 L = 8 cm", "6 L = 11 cm"}), "pours-few-advised")["severity"],
      "notice");
  EXPECT_EQ(problem(with({{"volume", {"5 L", "23 L"}}}), "volume-above-bucket")["field"],
            "/volume/1");
  EXPECT_NE(
      problem(with({{"volume", {"23 L"}}}), "volume-above-bucket")["text"].get<std::string>().find(
          "holds 22.02 L up to the brim"),
      std::string::npos);
  EXPECT_EQ(problem(with({{"depth", {"38 cm"}}}), "depth-outside-bucket")["value"], "38 cm");
  EXPECT_EQ(problem(with({{"height", "0 cm"}}), "not-above-zero")["field"], "/height");
  EXPECT_EQ(problem(with({{"step", "1 mL"}}), "dip-step-small")["field"], "/step");
  EXPECT_EQ(problem(with({{"mark", "4 cm"}, {"parts", 10}}), "marks-above-bucket")["field"],
            "/mark");
  EXPECT_EQ(problem(with({{"mark", "4 cm"}}), "missing-parts")["field"], "/parts");
  EXPECT_EQ(problem(with({{"pour", {"2 L = 4 cm"}}}), "bucket-measures-or-pours")["severity"],
            "error");
  EXPECT_EQ(
      problem(facade.ask("dose.bucket", Json::object()), "bucket-measures-or-pours")["severity"],
      "error");
}

// One mark and ten of 2 cm stand 22 cm high: the bucket may, the pours do not.
TEST_F(DoseBucket, WhatLiesAboveTheLastPourAsksForMorePours) {
  Json body{{"pour", {"2 L = 4 cm", "4 L = 7.7 cm", "6 L = 11.2 cm"}}};
  const auto told = [&](const char* code, const char* field) {
    const Json found = problem(facade.ask("dose.bucket", body), code);
    if (found.is_null()) return std::string();
    EXPECT_EQ(found["field"], field);
    EXPECT_EQ(found["cure"].get<std::string>().rfind("Pour on", 0), 0u) << found["cure"];
    return found["text"].get<std::string>();
  };
  body["volume"] = Json::array({"8 L"});
  EXPECT_EQ(
      told("volume-above-pours", "/volume/0"),
      "Your pours reach 11.2 cm (6 L). Pour on and write the further marks, or write a smaller "
      "volume.");
  body.erase("volume");
  body["step"] = "7 L";
  EXPECT_EQ(
      told("volume-above-pours", "/step"),
      "Your pours reach 11.2 cm (6 L). Pour on and write the further marks, or write a smaller "
      "volume.");
  body.erase("step");
  body["mark"] = "2 cm";
  body["parts"] = 10;
  EXPECT_EQ(
      told("marks-above-pours", "/mark"),
      "So many marks need 22 cm; your pours reach 11.2 cm (6 L). Pour on and write the further "
      "marks, or use a smaller mark or fewer parts.");
}

}  // namespace
}  // namespace wheyfield
