#include "fermentation/brew.h"

#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

#include "fermentation/ensemble.h"

namespace wheyfield::fermentation {
namespace {

const ParameterTable& brew_rows() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

constexpr Brew heated{Liquid::milk, Milk::heated, Starter::rinse_water, usual_share};
constexpr Brew left_alone{Liquid::milk, Milk::raw, Starter::none, 0.0};
constexpr Brew heated_alone{Liquid::milk, Milk::heated, Starter::none, 0.0};
constexpr Brew with_serum{Liquid::milk, Milk::raw, Starter::serum, usual_share};
constexpr Brew heated_with_serum{Liquid::milk, Milk::heated, Starter::serum, usual_share};
constexpr Brew rinse_water{Liquid::rinse_water, Milk::raw, Starter::none, 0.0};

Setting kept_at(double celsius) { return {Air::constant(celsius), 6.1}; }

double brewed_hours(const BatchModel& batch, double celsius, double ph) {
  return hours_to(course(batch, kept_at(celsius)), ph).value_or(INFINITY);
}
double brewed_hours(const Brew& brew, double celsius, double ph) {
  return brewed_hours(batch_of(brew_rows(), {}, brew), celsius, ph);
}

TEST(FermentationBrew, TheRecipeIsWhatTheRowsWereStatedFor) {
  const BatchModel batch = batch_of(brew_rows());
  EXPECT_EQ(batch.fast.start, 1e5);
  EXPECT_EQ(batch.tolerant.start, 1e7);
  EXPECT_EQ(batch.buffer.strength, 0.85);
  EXPECT_EQ(batch.lactose, 127.0);
  EXPECT_EQ(batch.lag_work, 1.0);
  EXPECT_EQ(batch.lactic, 0.0);
}

// A forerunner of this model, printed in whole hours: log 7 of lactobacilli alone take 30 and 38 h
// at 25 C, where raw milk takes 18 and 21: "about 1.7 times longer".
TEST(FermentationBrew, HeatedMilkHasOnlyTheRinseWatersLactobacilli) {
  EXPECT_EQ(batch_of(brew_rows(), {}, heated).fast.start, 0.0);
  EXPECT_NEAR(brewed_hours(heated, 25, 4.6), 30, 0.6);
  EXPECT_NEAR(brewed_hours(heated, 25, 4.2), 38, 0.6);
  EXPECT_NEAR(brewed_hours(heated, 25, 4.6) / brewed_hours(Brew{}, 25, 4.6), 1.7, 0.05);
}

TEST(FermentationBrew, HeatedMilkWithoutAStarterKeepsItsPh) {
  for (const Moment& moment :
       course(batch_of(brew_rows(), {}, heated_alone), {Air::daily(14, 28, 8), 6.1}))
    ASSERT_EQ(moment.ph, 6.60) << moment.hours;
}

TEST(FermentationBrew, AShareOfNoneIsNoStarter) {
  for (const Milk milk : {Milk::raw, Milk::heated})
    for (const Starter starter : {Starter::rinse_water, Starter::serum}) {
      const BatchModel none = batch_of(brew_rows(), {}, {Liquid::milk, milk, Starter::none, 0.5});
      const BatchModel zero = batch_of(brew_rows(), {}, {Liquid::milk, milk, starter, 0.0});
      EXPECT_EQ(zero.fast.start, none.fast.start);
      EXPECT_EQ(zero.tolerant.start, none.tolerant.start);
      EXPECT_EQ(zero.lag_work, none.lag_work);
      EXPECT_EQ(zero.lactose, none.lactose);
      EXPECT_EQ(zero.lactic, 0.0);
    }
}

// By hand: 140 mmol/L of lactose in whole milk (127 x 11/10 = 139.7), 85 % x 11/10 of its buffer.
TEST(FermentationBrew, TheStarterThinsTheMilkAndBringsBacteriaByItsShare) {
  const BatchModel alone = batch_of(brew_rows(), {}, left_alone);
  EXPECT_NEAR(alone.lactose, 139.7, 1e-9);
  EXPECT_NEAR(alone.buffer.strength, 0.935, 1e-12);
  EXPECT_NEAR(alone.fast.start, 1.1e5, 1e-6);
  const BatchModel fifth =
      batch_of(brew_rows(), {}, {Liquid::milk, Milk::raw, Starter::rinse_water, 0.2});
  EXPECT_NEAR(fifth.lactose, 139.7 * 0.8, 1e-9);
  EXPECT_NEAR(fifth.tolerant.start, 1e7 * 0.2 * 11, 1e-3);
  EXPECT_NEAR(fifth.fast.start, 1.1e5 * 0.8, 1e-6);
}

// The same forerunner: each tenth part of the bacteria left adds 5.1 h at 20 C, 3.2 at 25 and 2.4
// at 30 to pH 4.6 where lactococci are among them, and first 15.5, 8.6 and 5.8 h where they are
// not. It did not say from which count.
TEST(FermentationBrew, SerumThatHasLostNineTenthsOfItsBacteriaIsLaterAsPrinted) {
  const struct {
    double celsius, mixed, lactobacilli;
  } table[] = {{20, 5.1, 15.5}, {25, 3.2, 8.6}, {30, 2.4, 5.8}};
  for (const auto& row : table) {
    const auto added = [&](const Brew& brew) {
      BatchModel weak = batch_of(brew_rows(), {}, brew);
      const double fresh = brewed_hours(weak, row.celsius, 4.6);
      weak.fast.start /= 10;
      weak.tolerant.start /= 10;
      return brewed_hours(weak, row.celsius, 4.6) - fresh;
    };
    EXPECT_NEAR(added(heated_with_serum), row.mixed, 0.2) << row.celsius;
    EXPECT_NEAR(added({}), row.mixed, 0.15) << row.celsius;
    EXPECT_NEAR(added(heated), row.lactobacilli, 0.5) << row.celsius;
  }
}

TEST(FermentationBrew, SerumIsFasterThanRinseWaterAndMakesHeatedMilkAsFastAsRaw) {
  for (const double celsius : {12, 15, 20, 25, 30})
    for (const double ph : {4.6, 4.2}) {
      EXPECT_LT(brewed_hours(with_serum, celsius, ph), brewed_hours(Brew{}, celsius, ph));
      EXPECT_NEAR(brewed_hours(heated_with_serum, celsius, ph),
                  brewed_hours(with_serum, celsius, ph), 0.5);
      EXPECT_GT(brewed_hours(left_alone, celsius, ph), brewed_hours(Brew{}, celsius, ph));
    }
}

// What the starter brings is acid too: balance of acid and lactose from there on.
TEST(FermentationBrew, AcidOfTheSerumIsThereFromTheStartAndNotTakenFromTheLactose) {
  const BatchModel batch = batch_of(brew_rows(), {}, with_serum);
  const auto moments = course(batch, kept_at(25));
  EXPECT_NEAR(moments.front().lactic, 125.0 / 11, 1e-12);
  EXPECT_NEAR(moments.front().ph, AcidCurve(batch.buffer).ph(125.0 / 11), 1e-12);
  for (const Moment& moment : moments)
    ASSERT_NEAR(4 * 0.93 * (batch.lactose - moment.lactose), moment.lactic - batch.lactic, 1e-9);
}

// The same forerunner on rice rinse-water, hours to pH 4.5 in five days (10, 50, 90 %): 20-33-52 at
// 30 C, 26-43-75 at 25, 44-73-never at 20. Its constants and spreads were not handed down. Medians
// within 10 %, early edge within 5 %; our late edge is earlier, and that is held fast here, so that
// the document (fermentation.md) cannot go stale.
TEST(FermentationBrew, RinseWaterRipensAsPrintedButForTheLateEdge) {
  const struct {
    double celsius, early, likely, late, our_late;
  } table[] = {{30, 20, 33, 52, 44}, {25, 26, 43, 75, 60}, {20, 44, 73, 120, 101}};
  for (const auto& row : table) {
    Setting setting{Air::constant(row.celsius), 6.1, {}, 120.0, rinse_water};
    const Ensemble drawn(brew_rows(), setting, 2027, testing::cases(1000u));
    const HourWindow window = hours_to(drawn.usual(), 4.5);
    EXPECT_NEAR(window.early.value_or(INFINITY), row.early, 0.06 * row.early) << row.celsius;
    EXPECT_NEAR(window.likely.value_or(INFINITY), row.likely, 0.10 * row.likely) << row.celsius;
    EXPECT_NEAR(window.late.value_or(INFINITY), row.our_late, 0.05 * row.our_late) << row.celsius;
    EXPECT_LT(window.late.value_or(INFINITY), 0.9 * row.late) << row.celsius;
  }
  Setting cold{Air::constant(15), 6.1, {}, 120.0, rinse_water};
  const Ensemble drawn(brew_rows(), cold, 2027, testing::cases(400u));
  EXPECT_LT(share_by(drawn.usual(), 4.5, 120), 0.5);
}

// The same: at 12 C pH 6.5 and log 5.3 of bacteria after five days; from 20 C up the end lies at
// log 8.1 to 8.6 and pH 3.2 to 4.0.
TEST(FermentationBrew, RinseWaterEndsAsPrinted) {
  const BatchModel batch = batch_of(brew_rows(), {}, rinse_water);
  const auto after_five_days = [&](double celsius) { return course(batch, kept_at(celsius))[240]; };
  const Moment cold = after_five_days(12);
  EXPECT_NEAR(cold.ph, 6.5, 0.05);
  EXPECT_NEAR(std::log10(cold.fast + cold.tolerant), 5.3, 0.1);
  for (const double celsius : {20, 25, 30}) {
    const Moment end = after_five_days(celsius);
    const double log10 = std::log10(end.fast + end.tolerant);
    EXPECT_GE(log10, 8.1) << celsius;
    EXPECT_LE(log10, 8.6) << celsius;
    EXPECT_GE(end.ph, 3.2) << celsius;
    EXPECT_LE(end.ph, 4.0) << celsius;
  }
}

}  // namespace
}  // namespace wheyfield::fermentation
