// The published courses of sour milk that a forerunner of this model was held against, and what it
// printed for them (10, 50, 90 %). Where it misses, the miss is asserted: a change of the model
// that mends it must change docs/models/fermentation.md too.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <support/bundle.h>

#include "fermentation/normal.h"
#include "fermentation/priors.h"

namespace wheyfield::fermentation {
namespace {

const ParameterTable& series_rows() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

constexpr Brew raw_milk_alone{Liquid::milk, Milk::raw, Starter::none, 0.0};

class Spread {
 public:
  explicit Spread(std::vector<double> values) : values_(std::move(values)) {
    std::sort(values_.begin(), values_.end());
  }
  double at(double share) const {
    return values_[static_cast<std::size_t>(share * static_cast<double>(values_.size()))];
  }
  double share_at_most(double value) const {
    const auto above = std::upper_bound(values_.begin(), values_.end(), value);
    return static_cast<double>(above - values_.begin()) / static_cast<double>(values_.size());
  }

 private:
  std::vector<double> values_;
};

// `seen` of so many batches drawn from the table.
Spread drawn_of(const Brew& brew, const std::function<double(BatchModel)>& seen) {
  std::vector<double> values;
  for (std::uint64_t i = 0; i < 1000; ++i) {
    numerics::Stream stream(2027, i);
    Deviates z{};
    for (double& each : z) each = standard_normal(stream);
    values.push_back(seen(batch_of(series_rows(), z, brew)));
  }
  return Spread(std::move(values));
}

Setting standing_at(double celsius, double hours) {
  return {Air::constant(celsius), 6.1, std::nullopt, hours};
}

// Dairy practice with a bulk culture of 1e9 lactococci per mL (assumed), published in handbooks and
// one early farm bulletin. The forerunner fitted three numbers to these, so they validate nothing.
TEST(FermentationSeries, TheFiveCasesThatTheModelWasFittedTo) {
  const struct {
    const char* name;
    double share, celsius, ph;
    double from, to;             // observed [h]
    double early, likely, late;  // printed [h]
  } table[] = {{"cottage cheese, long set", 0.01, 22, 4.65, 12, 16, 11, 15, 20},
               {"cottage cheese, short set", 0.06, 32, 4.65, 4, 6, 4.6, 6.2, 8.4},
               {"buttermilk", 0.01, 22, 4.6, 14, 16, 11, 15, 20},
               {"cultured cream", 0.01, 20, 4.6, 15, 20, 14, 19, 26},
               {"farm starter", 0.03, 23.9, 4.6, 12, 15, 8, 11, 15}};
  for (const auto& row : table) {
    const Spread hours = drawn_of({}, [&](BatchModel batch) {
      batch.fast.start = row.share * 1e9;
      batch.tolerant.start = 0.0;
      return hours_to(course(batch, standing_at(row.celsius, 80)), row.ph).value_or(INFINITY);
    });
    EXPECT_NEAR(hours.at(0.1), row.early, 0.1 * row.early) << row.name;
    EXPECT_NEAR(hours.at(0.5), row.likely, 0.1 * row.likely) << row.name;
    EXPECT_NEAR(hours.at(0.9), row.late, 0.1 * row.late) << row.name;
    EXPECT_LE(hours.at(0.1), row.to) << row.name;
    EXPECT_GE(hours.at(0.9), row.from) << row.name;
  }
}

// Kassaye et al. (1991): raw milk in a seasoned gourd, 21 C, pH 6.6 to 4.2 in 24 h.
TEST(FermentationSeries, MissedMilkInASeasonedGourd) {
  const auto after_a_day = [](const BatchModel& batch) {
    return course(batch, standing_at(21, 24)).back().ph;
  };
  const Spread ph = drawn_of(raw_milk_alone, after_a_day);
  EXPECT_NEAR(ph.at(0.1), 4.24, 0.05);
  EXPECT_NEAR(ph.at(0.5), 5.76, 0.15);  // where it falls by 0.3 an hour
  EXPECT_NEAR(ph.at(0.9), 6.59, 0.05);
  EXPECT_LT(ph.share_at_most(4.2), 0.12);  // the miss; printed: 7th percentile
  // Bacteria that live in the vessel would explain it, 1e7 or more per mL.
  BatchModel seasoned = batch_of(series_rows(), {}, raw_milk_alone);
  for (const auto& [count, explains] : {std::pair{1e6, false}, {1e7, true}}) {
    seasoned.fast.start = count;
    EXPECT_EQ(after_a_day(seasoned) < 4.3, explains) << count;
  }
}

// Boudjenah-Haroun (2017): camel milk left to itself, 30 C, pH 6.53 to 3.85 in 120 h, lactic
// bacteria log 4.5 to 7.2-8.1.
TEST(FermentationSeries, CamelMilkComesOutSlightlyTooSourWithTooManyBacteria) {
  const Spread ph = drawn_of(raw_milk_alone, [](const BatchModel& batch) {
    return course(batch, standing_at(30, 120)).back().ph;
  });
  EXPECT_NEAR(ph.at(0.1), 3.62, 0.03);
  EXPECT_NEAR(ph.at(0.5), 3.74, 0.03);
  EXPECT_NEAR(ph.at(0.9), 3.86, 0.03);
  EXPECT_LT(ph.at(0.75), 3.85);
  const Moment end =
      course(batch_of(series_rows(), {}, raw_milk_alone), standing_at(30, 120)).back();
  EXPECT_GT(std::log10(end.fast + end.tolerant), 9.0);
}

// JFQ 2018:4570238, table 2: ergo at 25 C, days 1 to 5 after pH 4.45.
TEST(FermentationSeries, ErgoHasAnotherShapeThanTheModel) {
  const struct {
    double observed, printed;
  } days[] = {{4.40, 4.13}, {4.30, 4.07}, {4.10, 3.97}, {3.70, 3.86}, {3.50, 3.79}};
  std::array<std::vector<double>, 5> drawn;
  drawn_of(raw_milk_alone, [&](const BatchModel& batch) {
    const auto moments = course(batch, standing_at(25, 240));
    const double from = hours_to(moments, 4.45).value_or(120.0);
    for (std::size_t day = 0; day < 5; ++day)
      drawn[day].push_back(
          moments[static_cast<std::size_t>(std::lround(2 * from)) + 48 * (day + 1)].ph);
    return from;
  });
  for (std::size_t day = 0; day < 5; ++day)
    EXPECT_NEAR(Spread(drawn[day]).at(0.5), days[day].printed, 0.02) << day;
  EXPECT_NEAR(Spread(drawn[4]).at(0.1), 3.66, 0.02);
  // Too fast for two days, then too slow.
  for (const std::size_t day : {0, 1})
    EXPECT_GT(days[day].observed, Spread(drawn[day]).at(0.9)) << day;
  EXPECT_LT(days[4].observed, Spread(drawn[4]).at(0.1));
}

// Ashenafi (1993): ergo at the temperature of the room (taken as 25 C), pH 3.7 after 48 to 60 h.
TEST(FermentationSeries, MissedErgoAfterTwoDays) {
  const Spread ph = drawn_of(raw_milk_alone, [](const BatchModel& batch) {
    return course(batch, standing_at(25, 60)).back().ph;
  });
  EXPECT_NEAR(ph.at(0.1), 3.88, 0.06);
  EXPECT_NEAR(ph.at(0.5), 4.09, 0.03);
  EXPECT_NEAR(ph.at(0.9), 4.20, 0.03);
  EXPECT_GT(ph.at(0.05), 3.7);  // the miss: too slow
}

}  // namespace
}  // namespace wheyfield::fermentation
