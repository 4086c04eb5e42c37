#include "fermentation/place_speed.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "fermentation/normal.h"
#include "fermentation/outlook.h"
#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

const ParameterTable& place_table() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

// Members whose speeds lie evenly over the normal distribution, weighed by a normal reading of z at
// `mean` with the error `error`.
Hypothesis read_at(double mean, double error, double chance = 1.0) {
  Hypothesis batches{{}, chance};
  double sum = 0.0;
  constexpr int count = 4001;
  for (int i = 0; i < count; ++i) {
    const double z = -6.0 + 12.0 * i / (count - 1);
    Member member;
    of(member.z, Differs::speed) = z;
    member.weight = std::exp(-0.5 * z * z - 0.5 * std::pow((z - mean) / error, 2));
    sum += member.weight;
    batches.members.push_back(member);
  }
  for (Member& member : batches.members) member.weight /= sum;
  return batches;
}

double spread_of_place() {
  return place_table().row("speed").spread *
         std::sqrt(place_table().row("speed-place-share").value);
}

TEST(FermentationPlaceSpeed, NothingLearnedChangesNothing) {
  const PlaceSpeed place(place_table());
  EXPECT_EQ(place.batches(), 0);
  for (const double z : {-3.0, -1.0, 0.0, 0.4, 2.5}) EXPECT_NEAR(place.tilt(z), 1.0, 2e-3) << z;
  EXPECT_NEAR(place.factor_at(0.5), 1.0, 1e-9);
  EXPECT_NEAR(std::log(place.factor_at(0.9)), 1.28155 * spread_of_place(), 2e-3);
}

// In closed form: z = sqrt(w) u + sqrt(1 - w) e is read as m with the error s. Each reading is one
// of sqrt(w) u with variance v = 1 - w + s^2, so after n of them u is normal with precision
// 1 + n w / v and mean sqrt(w) sum m / v over that.
TEST(FermentationPlaceSpeed, AgreesWithTheClosedFormOfNormalReadings) {
  const double w = place_table().row("speed-place-share").value;
  PlaceSpeed place(place_table());
  double sum = 0.0;
  int n = 0;
  for (const double mean : {1.2, 0.3, 0.9, 1.6}) {
    place.learn(read_at(mean, 0.5));
    sum += mean;
    ++n;
    const double v = 1.0 - w + 0.25;
    const double precision = 1.0 + n * w / v;
    const double at = std::sqrt(w) * sum / v / precision;
    EXPECT_NEAR(std::log(place.factor_at(0.5)) / spread_of_place(), at, 5e-3) << n;
    EXPECT_NEAR(std::log(place.factor_at(0.9) / place.factor_at(0.5)) / spread_of_place(),
                1.28155 / std::sqrt(precision), 1e-2)
        << n;
  }
  EXPECT_EQ(place.batches(), 4);
}

TEST(FermentationPlaceSpeed, TheOrderOfTheBatchesDoesNotMatter) {
  PlaceSpeed forth(place_table()), back(place_table());
  const std::vector<double> means{1.0, -0.5, 2.0};
  for (std::size_t i = 0; i < means.size(); ++i) {
    forth.learn(read_at(means[i], 0.6));
    back.learn(read_at(means[means.size() - 1 - i], 0.6));
  }
  for (const double share : {0.1, 0.5, 0.9})
    EXPECT_NEAR(forth.factor_at(share), back.factor_at(share), 1e-12);
}

TEST(FermentationPlaceSpeed, TheTiltIsADensityAgainstTheNormal) {
  PlaceSpeed place(place_table());
  place.learn(read_at(1.5, 0.4));
  double sum = 0.0, mean = 0.0;
  for (double z = -6.0; z <= 6.0; z += 0.01) {
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::acos(-1.0)) * 0.01;
    sum += density * place.tilt(z);
    mean += density * place.tilt(z) * z;
  }
  EXPECT_NEAR(sum, 1.0, 1e-3);
  EXPECT_GT(mean, 0.2);
}

TEST(FermentationPlaceSpeed, AFailingBatchTellsNothing) {
  PlaceSpeed place(place_table());
  place.learn(read_at(-3.0, 0.3, 0.0));
  EXPECT_NEAR(place.factor_at(0.5), 1.0, 1e-9);
  EXPECT_EQ(place.batches(), 1);
}

// The planner divides hours by speed to the power of the row speed-to-pace, which was worked out
// so.
TEST(FermentationPlaceSpeed, HoursFallWithThePowerOfSpeedThatThePlannerTakes) {
  const auto& power = testing::bundle().constant("speed-to-pace");
  for (const double celsius : {15.0, 20.0, 25.0, 30.0}) {
    const Setting setting{Air::constant(celsius), 6.0};
    const auto hours = [&](double z) {
      Deviates deviates{};
      of(deviates, Differs::speed) = z;
      return *hours_to(course(batch_of(place_table(), deviates), setting), 4.2);
    };
    for (const double z : {-1.0, 1.0}) {
      const double speed = z * place_table().row("speed").spread;  // its logarithm
      const double found = std::log(hours(0.0) / hours(z)) / speed;
      EXPECT_GE(found, power.low) << celsius << " " << z;
      EXPECT_LE(found, power.high) << celsius << " " << z;
    }
  }
}

// Places of the model's own world, each with a speed of its own and five batches read twice by half
// unit strips: how well is the first forecast before it is read, and how well the fifth?
TEST(FermentationPlaceSpeed, TheFifthBucketIsForecastBetterThanTheFirst) {
  constexpr int places = 20, batches = 5;
  constexpr std::uint32_t members = 300;
  const double w = place_table().row("speed-place-share").value;
  const Setting setting{Air::constant(20), 6.0, std::nullopt, 120.0};
  const Ensemble drawn(place_table(), setting, 3, members);
  double off_first = 0.0, off_fifth = 0.0, width_first = 0.0, width_fifth = 0.0;
  int held = 0;
  for (std::uint64_t p = 0; p < places; ++p) {
    numerics::Stream stream(99, p);
    const double u = standard_normal(stream);
    PlaceSpeed place(place_table());
    for (int b = 0; b < batches; ++b) {
      Deviates z{};
      for (double& each : z) each = standard_normal(stream);
      of(z, Differs::speed) = std::sqrt(w) * u + std::sqrt(1.0 - w) * standard_normal(stream);
      const auto truth = course(batch_of(place_table(), z), setting);
      const double ready = hours_to(truth, 4.2).value_or(setting.horizon);
      Ensemble batch = drawn;
      batch.learn({}, &place);
      const HourWindow window = hours_to(batch.usual(), 4.2);
      const double late = window.late.value_or(setting.horizon);
      const double off = std::fabs(std::log(*window.likely / ready));
      if (b == 0) {
        off_first += off / places;
        width_first += std::log(late / *window.early) / places;
      } else if (b == batches - 1) {
        off_fifth += off / places;
        width_fifth += std::log(late / *window.early) / places;
        held += ready >= *window.early && ready <= late ? 1 : 0;
      }
      std::vector<Reading> readings;
      for (const double hours : {24.0, 36.0}) {
        const double ph =
            truth[static_cast<std::size_t>(hours * 2)].ph + 0.25 * standard_normal(stream);
        readings.push_back({Reading::Kind::strip, hours, std::round(2.0 * ph) / 2.0, 0.5});
      }
      batch.learn(readings);
      place.learn(batch.told(readings));
    }
  }
  EXPECT_LT(off_fifth, off_first);
  EXPECT_LT(width_fifth, width_first);
  // 80 % of twenty, within two and a half sampling errors.
  EXPECT_GE(held, 16 - 5);
}

}  // namespace
}  // namespace wheyfield::fermentation
