#include "fermentation/batch.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "fermentation/normal.h"
#include "fermentation/priors.h"
#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

const ParameterTable& rows() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

BatchModel medians() { return batch_of(rows()); }

Setting in(Air air) { return {std::move(air), vessel_hours(rows().vessels(), 11.0)}; }

double hours(const BatchModel& batch, const Setting& setting, double ph) {
  return hours_to(course(batch, setting), ph).value_or(INFINITY);
}

double uniform(numerics::Stream& stream, double low, double high) {
  return low + (high - low) * stream.below(1000001) / 1e6;
}

// Computed outside of this program by a forerunner of the same equations, other solver; the batch
// of the medians, vessel at the temperature of the air. Not measured on any batch.
TEST(FermentationBatch, HoursOfTheMedianBatchAtConstantAir) {
  const struct {
    double celsius, to46, to42, to39;
  } table[] = {{15, 62.0, 74.4, 215.9},
               {20, 29.4, 35.1, 72.1},
               {25, 18.0, 21.4, 38.4},
               {30, 13.3, 15.8, 26.2}};
  for (const auto& row : table) {
    const Setting setting = in(Air::constant(row.celsius));
    EXPECT_NEAR(hours(medians(), setting, 4.6), row.to46, 0.2) << row.celsius;
    EXPECT_NEAR(hours(medians(), setting, 4.2), row.to42, 0.2) << row.celsius;
    EXPECT_NEAR(hours(medians(), setting, 3.9), row.to39, 0.2) << row.celsius;
  }
}

// The same forerunner, printed in whole hours: the edges of the range that the model covers.
TEST(FermentationBatch, TheEdgesOfTheRange) {
  EXPECT_NEAR(hours(medians(), in(Air::constant(12)), 4.6), 122, 0.6);
  EXPECT_NEAR(hours(medians(), in(Air::constant(35)), 4.6), 13, 0.6);
  EXPECT_NEAR(hours(medians(), in(Air::constant(35)), 4.2), 15, 0.6);
  EXPECT_NEAR(hours(medians(), in(Air::constant(35)), 3.9), 24, 0.6);
}

// The same forerunner: who does the work, log10 counts at the start, whole hours.
TEST(FermentationBatch, LactococciSetTheTimeInTheColdAndLactobacilliTheEnd) {
  const struct {
    double celsius, fast, tolerant, to46, to42;
  } table[] = {{25, 5, 7, 18, 21},     {25, 3, 7, 25, 30},    {25, -99, 7, 30, 38},
               {15, 5, 7, 62, 74},     {15, 5, 5.5, 62, 74},  {15, 4, 5.5, 73, 85},
               {12, 5, 4.3, 121, 145}, {12, 4, 4.3, 142, 167}};
  for (const auto& row : table) {
    BatchModel batch = medians();
    batch.fast.start = row.fast < 0 ? 0.0 : std::pow(10.0, row.fast);
    batch.tolerant.start = std::pow(10.0, row.tolerant);
    const Setting setting = in(Air::constant(row.celsius));
    EXPECT_NEAR(hours(batch, setting, 4.6), row.to46, 0.6) << row.celsius << " " << row.fast;
    EXPECT_NEAR(hours(batch, setting, 4.2), row.to42, 0.6) << row.celsius << " " << row.fast;
  }
}

// The same forerunner: change of the hours at 25 C by one standard deviation, printed to 0.1.
TEST(FermentationBatch, OneDeviationOfANumberMovesTheHoursAsPrinted) {
  const struct {
    Differs which;
    double to46, to42, to39;
  } table[] = {{Differs::speed, -3.4, -3.8, -5.8},
               {Differs::fast_start, -3.2, -3.2, 1.5},
               {Differs::air_offset, -1.3, -1.6, -3.4},
               {Differs::lag_work, 1.1, 1.1, 1.1},
               {Differs::acid_speed, -0.9, -1.3, -4.0},
               {Differs::milk_strength, 0.6, 1.7, 6.4},
               {Differs::tolerant_start, 0.5, 1.7, -1.7},
               {Differs::tolerant_beta, -0.2, -0.4, -5.2},
               {Differs::vessel_pace, 0, 0, 0}};
  const Setting setting = in(Air::constant(25));
  for (const auto& row : table) {
    Deviates z{};
    of(z, row.which) = 1;
    const BatchModel moved = batch_of(rows(), z);
    const auto change = [&](double ph) {
      return hours(moved, setting, ph) - hours(medians(), setting, ph);
    };
    const auto name = static_cast<int>(row.which);
    EXPECT_NEAR(change(4.6), row.to46, 0.151) << name;
    EXPECT_NEAR(change(4.2), row.to42, 0.151) << name;
    EXPECT_NEAR(change(3.9), row.to39, 0.151) << name;
  }
}

// The same forerunner; a day that swings, and the constant air that a mean would put in its place.
TEST(FermentationBatch, ASwingingDayCountsAsItsMeanAndNotAsItsMiddle) {
  const struct {
    Air air;
    double to46, to42;
  } table[] = {{Air::daily(14, 28, 8), 28.9, 33.1},
               {Air::constant(20.16), 28.8, 34.4},
               {Air::constant(21), 26.2, 31.2}};
  for (const auto& row : table) {
    EXPECT_NEAR(hours(medians(), in(row.air), 4.6), row.to46, 0.2) << row.to46;
    EXPECT_NEAR(hours(medians(), in(row.air), 4.2), row.to42, 0.2) << row.to46;
  }
}

// Computed: 14 to 28 C of air is 16.7 to 23.8 C in 11 L.
TEST(FermentationBatch, TheBucketFollowsTheAirWeakly) {
  const auto moments = course(medians(), in(Air::daily(14, 28, 8)));
  double low = 100, high = 0;
  for (const Moment& moment : moments) {
    if (moment.hours < 96) continue;
    low = std::min(low, moment.celsius);
    high = std::max(high, moment.celsius);
  }
  EXPECT_NEAR(low, 16.7, 0.1);
  EXPECT_NEAR(high, 23.8, 0.1);
}

TEST(FermentationBatch, AColdMixInWarmAirIsLaterThanAWarmOne) {
  Setting cold = in(Air::constant(25));
  cold.start_celsius = 10;
  EXPECT_GT(hours(medians(), cold, 4.6), hours(medians(), in(Air::constant(25)), 4.6) + 1);
  EXPECT_NEAR(course(medians(), cold)[12].celsius, 25 - 15 * std::exp(-6 / 6.1), 0.001);
}

TEST(FermentationBatch, WithoutBacteriaThePhStays) {
  BatchModel batch = medians();
  batch.fast.start = batch.tolerant.start = 0.0;
  for (const Moment& moment : course(batch, in(Air::daily(14, 28, 8)))) {
    ASSERT_EQ(moment.ph, 6.60) << moment.hours;
    ASSERT_EQ(moment.lactose, 127.0) << moment.hours;
  }
}

// Random batches: the model's own spreads, and air of 10 to 30 C.
struct Drawn {
  Deviates z;
  double celsius;
};
Drawn drawn(numerics::Stream& stream) {
  Drawn batch{};
  for (double& z : batch.z) z = uniform(stream, -2.5, 2.5);
  batch.celsius = uniform(stream, 10, 29);
  return batch;
}

TEST(FermentationBatch, WarmerUpTo30IsNeverLater) {
  numerics::Stream stream(11, 0);
  for (int i = 0; i < 150; ++i) {
    Drawn batch = drawn(stream);
    of(batch.z, Differs::air_offset) = 0;
    const BatchModel model = batch_of(rows(), batch.z);
    const auto cool = course(model, in(Air::constant(batch.celsius)));
    const auto warm = course(model, in(Air::constant(batch.celsius + uniform(stream, 0.2, 1))));
    for (const double ph : {4.6, 4.2}) {
      const double later = hours_to(cool, ph).value_or(INFINITY);
      EXPECT_LE(hours_to(warm, ph).value_or(INFINITY), later) << i << " to " << ph;
    }
  }
}

// Undissociated acid at pH 4.2 [mmol/L], of 30 at which the lactococci stop making acid.
double acid_at_42(const BatchModel& batch) {
  return lactic_acid(batch.buffer, 4.2) * undissociated_share(4.2, batch.limits_pka);
}

TEST(FermentationBatch, FasterOrWithMoreLactococciIsNeverLater) {
  numerics::Stream stream(12, 0);
  int to42 = 0;
  for (int i = 0; i < 150; ++i) {
    const Drawn batch = drawn(stream);
    const Setting setting = in(Air::constant(batch.celsius));
    const BatchModel model = batch_of(rows(), batch.z);
    const auto plain = course(model, setting);
    for (const Differs which : {Differs::speed, Differs::fast_start}) {
      Deviates more = batch.z;
      of(more, which) += uniform(stream, 0.05, 1);
      const auto moved = course(batch_of(rows(), more), setting);
      const auto never_later = [&](double ph) {
        EXPECT_LE(hours_to(moved, ph).value_or(INFINITY), hours_to(plain, ph).value_or(INFINITY))
            << i << " to " << ph << " by " << static_cast<int>(which);
      };
      never_later(4.6);
      if (which == Differs::fast_start && acid_at_42(model) > model.fast.acid_limit) continue;
      never_later(4.2);
      ++to42;
    }
  }
  EXPECT_GT(to42, 200);
}

// Where the milk is so strong that lactococci stop before 4.2, the acid of more of them slows the
// few lactobacilli which alone go on: then a bigger start is later at 4.2, though not at 4.6.
TEST(FermentationBatch, InStrongMilkMoreLactococciDelayTheLastOfTheWay) {
  BatchModel batch = medians();
  batch.buffer.strength = 1.15;
  batch.tolerant.start = 1e5;
  ASSERT_GT(acid_at_42(batch), batch.fast.acid_limit);
  const Setting setting = in(Air::constant(20));
  const auto few = course(batch, setting);
  batch.fast.start = 1e6;
  const auto many = course(batch, setting);
  EXPECT_LT(hours_to(many, 4.6), hours_to(few, 4.6));
  EXPECT_GT(hours_to(many, 4.2), hours_to(few, 4.2));
}

TEST(FermentationBatch, MoreLactococciHastenTheMedianMilkFrom10To30Degrees) {
  for (const double celsius : {10, 15, 20, 25, 30})
    for (const double tolerant : {4.0, 6.0, 8.0}) {
      BatchModel batch = medians();
      batch.tolerant.start = std::pow(10.0, tolerant);
      double before = INFINITY;
      for (int log10 = 0; log10 <= 7; ++log10) {
        batch.fast.start = std::pow(10.0, log10);
        const double now = hours(batch, in(Air::constant(celsius)), 4.2);
        EXPECT_LE(now, before) << celsius << " " << tolerant << " " << log10;
        before = now;
      }
    }
}

TEST(FermentationBatch, ThePhNeverRisesAndTheAcidIsTheSugarThatIsGone) {
  numerics::Stream stream(13, 0);
  for (int i = 0; i < 50; ++i) {
    const Drawn batch = drawn(stream);
    const double low = batch.celsius - uniform(stream, 0, 8);
    const auto moments = course(batch_of(rows(), batch.z),
                                in(Air::daily(low, batch.celsius, uniform(stream, 0, 23))));
    double before = moments.front().ph;
    for (const Moment& moment : moments) {
      ASSERT_LE(moment.ph, before) << i << " at " << moment.hours;
      ASSERT_NEAR(4 * 0.93 * (127.0 - moment.lactose), moment.lactic, 1e-9) << moment.hours;
      before = moment.ph;
    }
  }
}

TEST(FermentationBatch, HalfTheToleranceChangesThePhByLessThanOneTenThousandth) {
  for (const auto& air : {Air::constant(12), Air::constant(20), Air::constant(25),
                          Air::constant(30), Air::constant(35), Air::daily(14, 28, 8)}) {
    const auto coarse = course(medians(), in(air));
    const auto fine = course(medians(), in(air), 0.5, usual_tolerance / 2);
    for (std::size_t i = 0; i < coarse.size(); ++i)
      ASSERT_NEAR(coarse[i].ph, fine[i].ph, 1e-4) << coarse[i].hours;
  }
}

TEST(FermentationBatch, HalfTheToleranceChangesThePhOfDrawnBatchesAndOtherBrewsAsLittle) {
  const Brew brews[] = {{},
                        {Liquid::milk, Milk::heated, Starter::rinse_water, usual_share},
                        {Liquid::milk, Milk::raw, Starter::none, 0.0},
                        {Liquid::milk, Milk::heated, Starter::serum, usual_share},
                        {Liquid::rinse_water, Milk::raw, Starter::none, 0.0}};
  for (std::uint64_t i = 0; i < 60; ++i) {
    numerics::Stream stream(14, i);
    Deviates z{};
    for (double& each : z) each = standard_normal(stream);
    const BatchModel batch = batch_of(rows(), z, brews[i % 5]);
    const Setting setting = in(i % 2 ? Air::constant(20) : Air::daily(14, 28, 8));
    const auto coarse = course(batch, setting);
    const auto fine = course(batch, setting, 0.5, usual_tolerance / 2);
    for (std::size_t at = 0; at < coarse.size(); ++at)
      ASSERT_NEAR(coarse[at].ph, fine[at].ph, 1e-4) << i << " at " << coarse[at].hours;
  }
}

TEST(FermentationBatch, ALongerHorizonAndOtherHoursChangeNothing) {
  Setting setting = in(Air::daily(14, 28, 8));
  const auto whole = course(medians(), setting);
  const HourlyCourse hourly = hourly_course(medians(), setting);
  ASSERT_EQ(hourly.ph.size(), 241u);
  for (std::size_t hour = 0; hour <= 240; ++hour) {
    ASSERT_EQ(hourly.ph[hour], whole[2 * hour].ph) << hour;
    ASSERT_EQ(hourly.celsius[hour], whole[2 * hour].celsius) << hour;
  }
  setting.horizon = 37;
  const auto part = course(medians(), setting);
  ASSERT_EQ(part.size(), 75u);
  for (std::size_t i = 0; i < part.size(); ++i) ASSERT_EQ(part[i].ph, whole[i].ph) << i;
}

TEST(FermentationBatch, APhThatIsNeverReachedHasNoHours) {
  const auto moments = course(medians(), in(Air::constant(5)));
  EXPECT_FALSE(hours_to(moments, 4.6));
  EXPECT_EQ(hours_to(moments, 7.0), 0.0);
}

// The lag alone, against its closed form: at a constant temperature and far below every limit the
// cells grow as Baranyi and Roberts say.
TEST(FermentationBatch, EarlyGrowthIsBaranyisClosedForm) {
  BatchModel batch = medians();
  batch.fast.start = 10;
  batch.tolerant.start = 0;
  batch.buffer.ph0 = 6.4;  // the best of the fast
  batch.half = 1e-9;
  const auto moments = course(batch, in(Air::constant(25)));
  const BaranyiGrowth law{1.10 * temperature_share(25, batch.fast.temperature), 1.0, 10, 1e300};
  for (const std::size_t at : {4u, 10u, 16u})
    EXPECT_NEAR(std::log10(moments[at].fast), baranyi_log10(law, moments[at].hours), 1e-4);
}

}  // namespace
}  // namespace wheyfield::fermentation
