#include "dosing/plot.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::dosing {
namespace {

using quantity::acres;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::litres;
using quantity::metres;
using quantity::millilitres;
using quantity::square_metres;
using testing::value;

const Length per_acre_100 = litres(100) / acres(1);
outcome::Result<PlotDose> dose(double length, double width, Length rate, double parts = 500) {
  return plot_dose(metres(length), metres(width), rate, parts, millilitres(value("syringe-step")),
                   value("syringe-tolerance"));
}

// Source: computed, common practice: 100 L an acre at 1:500 on 10 m x 5 m is 1.24 L with 2.47 mL;
// 2.5 mL on the syringe.
TEST(DosingPlot, TenByFiveMetresTakeTwoAndAHalfMillilitres) {
  const auto got = dose(10, 5, per_acre_100);
  ASSERT_TRUE(got);
  EXPECT_NEAR(in_litres(got->water), 1.24, 0.0051);
  EXPECT_NEAR(in_millilitres(got->serum), 2.47, 0.0051);
  EXPECT_NEAR(in_millilitres(got->syringe), 2.5, 1e-9);
  EXPECT_NEAR(got->off, 2.5 / 2.471 - 1, 0.0005);
}

TEST(DosingPlot, ThePlainWaterTwinComesFirstWithTheSameWater) {
  const auto got = dose(10, 5, per_acre_100);
  ASSERT_TRUE(got);
  EXPECT_EQ(got->order[0].plot, PlotStep::Plot::plain_water);
  EXPECT_DOUBLE_EQ(in_millilitres(got->order[0].syringe), 0);
  EXPECT_EQ(got->order[1].plot, PlotStep::Plot::serum);
  EXPECT_EQ(got->order[1].syringe, got->syringe);
  EXPECT_EQ(got->order[0].water, got->order[1].water);
}

TEST(DosingPlot, ADoseBetweenTheMarksOfTheSyringeIsRefused) {
  EXPECT_EQ(dose(1, 1, per_acre_100).error()[0].code, "plot-dose-small");
  EXPECT_EQ(dose(2, 2, per_acre_100, 5000).error()[0].code, "plot-dose-small");
  for (double v : {0.0, -1.0, std::nan("")}) {
    EXPECT_EQ(dose(v, v, metres(v)).error().size(), 3u);
    EXPECT_EQ(
        plot_dose(metres(10), metres(5), per_acre_100, 500, millilitres(v), 0.05).error()[0].field,
        "/syringe_step");
  }
}

TEST(DosingPlot, TheSyringeIsOnItsMarksWithinToleranceAndTheDoseGrowsWithThePlot) {
  testing::Draw draw(25);
  for (int i = 0; i < 2000; ++i) {
    const double length = draw.real(4, 30), width = draw.real(4, 30);
    const auto got = dose(length, width, per_acre_100);
    if (!got) {
      EXPECT_LT(length * width, 41);  // 0.05 mL is more than 5 % of 1 mL and less
      continue;
    }
    const double steps = in_millilitres(got->syringe) / value("syringe-step");
    ASSERT_NEAR(steps, std::round(steps), 1e-9);
    ASSERT_LE(std::fabs(got->off), value("syringe-tolerance"));
    ASSERT_NEAR(got->serum / dose(length * 2, width, per_acre_100)->serum, 0.5, 1e-12);
  }
}

// Source: computed: 1.5, 1.6 and 1.55 L on 50 m2 are 310 L/ha, 125 L an acre, 6.2 mL on 100 m2.
TEST(DosingPlot, APlainWaterRehearsalGivesTheFarmsOwnLitres) {
  const RunLimits limits{3, value("runs-redo-above"), value("runs-apart-above")};
  const auto own = rehearse({litres(1.5), litres(1.6), litres(1.55)}, square_metres(50), limits);
  ASSERT_TRUE(own);
  EXPECT_NEAR(in_litres_per_hectare(own->mean), 310, 1e-9);
  EXPECT_NEAR(in_litres_per_acre(own->mean), 125.5, 0.051);
  EXPECT_NEAR(in_millilitres(serum_per_100_m2(own->mean, 500)), 6.2, 1e-9);
  EXPECT_TRUE(own->problems.empty());
  const auto apart = rehearse({litres(1), litres(1.5), litres(1)}, square_metres(50), limits);
  EXPECT_TRUE(apart->apart);
  EXPECT_EQ(apart->problems[0].code, "runs-apart");
  const auto bad = rehearse({litres(1), litres(-1)}, square_metres(0), limits);
  ASSERT_EQ(bad.error().size(), 2u);
  EXPECT_EQ(bad.error()[1].field, "/used/1");
  EXPECT_EQ(rehearse({}, square_metres(50), limits).error()[0].code, "runs-missing");
}

}  // namespace
}  // namespace wheyfield::dosing
