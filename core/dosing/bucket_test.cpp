#include "dosing/bucket.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::dosing {
namespace {

using quantity::in_litres;
using quantity::in_metres;
using quantity::litres;
using quantity::metres;
using testing::value;

Length cm(double v) { return metres(v / 100); }
double in_cm(Length v) { return in_metres(v) * 100; }
Frustum bucket(double bottom, double top, double depth) {
  return Frustum::measured(cm(bottom), cm(top), cm(depth)).value();
}
Frustum first_bucket() { return bucket(25.5, 29.5, 37); }
EqualMarks marks(const Frustum& b, Length mark, int n) {
  return equal_depth_marks(b, mark, n, metres(value("depth-reading-error") / 1000),
                           value("equal-depth-tolerance"))
      .value();
}

// Source: computed (V = pi h / 12 (d2 + d x + x2)), printed to 1 mL and 0.1 %; last column the
// topmost centimetre against the lowest.
TEST(DosingBucket, ThreeTaperedBuckets) {
  const struct {
    double bottom, top, depth, full, half, third, two_thirds, top_to_bottom;
  } rows[] = {{25.5, 29.5, 37, 22.015, 46.4, 30.1, 63.4, 1.328},
              {25, 30, 38, 22.633, 45.5, 29.3, 62.6, 1.426},
              {26, 29, 36, 21.404, 47.3, 30.9, 64.2, 1.237}};
  for (const auto& row : rows) {
    const Frustum b = bucket(row.bottom, row.top, row.depth);
    const auto holds = [&](double part) {
      return 100 * (b.volume(b.full_depth() * part) / b.full());
    };
    EXPECT_NEAR(in_litres(b.full()), row.full, 0.00051);
    EXPECT_NEAR(holds(0.5), row.half, 0.051);
    EXPECT_NEAR(holds(1 / 3.0), row.third, 0.051);
    EXPECT_NEAR(holds(2 / 3.0), row.two_thirds, 0.051);
    const Volume top_cm = b.full() - b.volume(b.full_depth() - cm(1));
    EXPECT_NEAR(top_cm / b.volume(cm(1)), row.top_to_bottom, 0.00051);
  }
}

// Source: computed, printed to 0.001 cm.
TEST(DosingBucket, DipStickOfTheFirstBucket) {
  const double litre[] = {1, 2, 5, 10, 15, 20};
  const double depth[] = {1.942, 3.853, 9.410, 18.149, 26.324, 34.019};
  const auto stick = dip_stick(first_bucket(), litres(1));
  ASSERT_TRUE(stick);
  ASSERT_EQ(stick->size(), 22u);
  for (int i = 0; i < 6; ++i) {
    EXPECT_NEAR(in_cm(depth_for(first_bucket(), litres(litre[i])).value()), depth[i], 0.00051);
    EXPECT_NEAR(in_cm((*stick)[static_cast<std::size_t>(litre[i]) - 1].depth), depth[i], 0.00051);
  }
}

// Source: computed: a cylinder of the mean diameter, 21.976 L, says 11.5 % too much at 10 cm.
TEST(DosingBucket, ACylinderOfTheMeanDiameterIsWrongNearTheBottom) {
  const Frustum straight = bucket(27.5, 27.5, 37);
  EXPECT_NEAR(in_litres(straight.full()), 21.976, 0.00051);
  EXPECT_NEAR(straight.volume(cm(10)) / first_bucket().volume(cm(10)) - 1, 0.115, 0.0006);
}

// Source: computed for the first bucket: of ten slices of equal depth the lowest holds 8.72 %
// (-12.8 %), the highest 11.33 % (+13.3 %); 1 + 10 marks of 2 cm are really 1:10.96 (+9.6 %), the
// other way round the single mark is 9.1 % too big; two half depths are 1:1.157; 2 mm is 10 % of 2
// cm, 4 % of 5 cm, 2 % of 10 cm.
TEST(DosingBucket, EqualDepthsAreNotEqualParts) {
  const EqualSlices ten = equal_slices(first_bucket(), 10);
  EXPECT_NEAR(100 * ten.bottom, 8.72, 0.0051);
  EXPECT_NEAR(100 * ten.bottom_off, -12.8, 0.051);
  EXPECT_NEAR(100 * ten.top, 11.33, 0.0051);
  EXPECT_NEAR(100 * ten.top_off, 13.3, 0.051);
  const EqualMarks two_cm = marks(first_bucket(), cm(2), 10);
  EXPECT_NEAR(two_cm.parts, 10.96, 0.0051);
  EXPECT_NEAR(100 * two_cm.off, 9.6, 0.051);
  EXPECT_NEAR(100 * (10 / two_cm.parts_last - 1), 9.1, 0.051);
  EXPECT_NEAR(two_cm.off_last, 1 / 1.091 - 1, 0.0005);
  EXPECT_TRUE(two_cm.use_bottle);
  EXPECT_NEAR(marks(first_bucket(), cm(18.5), 1).parts, 1.157, 0.00051);
  EXPECT_NEAR(two_cm.reading, 0.10, 1e-9);
  EXPECT_NEAR(marks(first_bucket(), cm(5), 1).reading, 0.04, 1e-9);
  EXPECT_NEAR(marks(first_bucket(), cm(10), 1).reading, 0.02, 1e-9);
}

// Source: computed: trade table's bucket of 25 and 30 cm, 33.6 cm deep: after 5 L at 9.6 cm the
// same depth again is 5.57 L.
TEST(DosingBucket, TheSameDepthAgainIsMore) {
  const Frustum b = bucket(25, 30, 33.6);
  const Length five = depth_for(b, litres(5)).value();
  EXPECT_NEAR(in_cm(five), 9.6, 0.051);
  EXPECT_NEAR(in_litres(b.volume(five * 2.0)) - 5, 5.57, 0.0051);
  EXPECT_NEAR(marks(b, five, 1).off, 0.11, 0.0051);
}

TEST(DosingBucket, InAStraightPailEqualDepthsAreEqualParts) {
  const EqualMarks straight = marks(bucket(27, 27, 40), cm(3), 10);
  EXPECT_NEAR(straight.off, 0, 1e-12);
  EXPECT_NEAR(straight.off_last, 0, 1e-12);
  EXPECT_TRUE(straight.use_bottle);  // for the reading of 3 cm, 7 %
  EXPECT_FALSE(marks(bucket(27, 27, 40), cm(10), 2).use_bottle);
}

TEST(DosingBucket, DepthAndVolumeAreInverseAndRise) {
  testing::Draw draw(37);
  for (int i = 0; i < 3000; ++i) {
    const double bottom = draw.real(15, 60), top = draw.real(15, 60), depth = draw.real(15, 100);
    const Frustum b = Frustum::measured(cm(bottom), cm(top), cm(depth), true).value();
    const Length h = cm(draw.real(0, depth));
    ASSERT_NEAR(in_cm(b.depth(b.volume(h))), in_cm(h), 1e-9);
    ASSERT_GT(b.volume(h + cm(0.01)), b.volume(h));
    const Frustum twice =
        Frustum::measured(cm(2 * bottom), cm(2 * top), cm(2 * depth), true).value();
    ASSERT_NEAR(twice.full() / b.full(), 8, 1e-9);
    // Summed thin discs, another road.
    double discs = 0;
    for (int k = 0; k < 200; ++k) {
      const double x = bottom + (top - bottom) * (k + 0.5) / 200;
      discs += 3.14159265358979 / 4 * x * x * depth / 200 / 1000;
    }
    ASSERT_NEAR(discs, in_litres(b.full()), 1e-5 * discs);
  }
}

TEST(DosingBucket, ABottomWiderThanTheTopIsRefusedUnlessMeant) {
  const auto upside = Frustum::measured(cm(30), cm(25), cm(38));
  ASSERT_FALSE(upside);
  EXPECT_EQ(upside.error()[0].code, "bucket-wider-below");
  const auto meant = Frustum::measured(cm(30), cm(25), cm(38), true);
  ASSERT_TRUE(meant);
  EXPECT_NEAR(in_litres(meant->full()), 22.633, 0.00051);  // the second bucket, turned over
}

TEST(DosingBucket, MeasuresAndVolumesOutsideTheBucketAreRefused) {
  for (double v : {0.0, -1.0, std::nan("")}) {
    EXPECT_EQ(Frustum::measured(cm(v), cm(v), cm(v)).error().size(), 3u);
    EXPECT_EQ(depth_for(first_bucket(), litres(v)).error()[0].code, "not-above-zero");
    EXPECT_EQ(dip_stick(first_bucket(), litres(v)).error()[0].code, "not-above-zero");
  }
  EXPECT_EQ(depth_for(first_bucket(), litres(22.1)).error()[0].code, "volume-above-bucket");
  EXPECT_EQ(dip_stick(first_bucket(), litres(23)).error()[0].code, "volume-above-bucket");
  EXPECT_EQ(dip_stick(first_bucket(), litres(0.01)).error()[0].code, "dip-step-small");
  EXPECT_EQ(equal_depth_marks(first_bucket(), cm(4), 10, cm(0.2), 0.05).error()[0].code,
            "marks-above-bucket");
}

PourScale pours(std::initializer_list<double> depths, double bottle) {
  std::vector<Pour> all;
  for (double depth : depths)
    all.push_back({litres(bottle * static_cast<double>(all.size() + 1)), cm(depth)});
  return PourScale::fitted(all).value();
}

// Built from its solution: depths of V = 0.5 h + 0.004 h2 [L, cm].
TEST(DosingPours, TheQuadraticBehindTheMarksIsFoundAgain) {
  testing::Draw draw(9);
  for (int i = 0; i < 500; ++i) {
    const double a = draw.real(0.2, 1), b = draw.real(-0.003, 0.01);
    std::vector<Pour> all;
    for (double h = 4; h < 36; h += draw.real(2, 5))
      all.push_back({litres(a * h + b * h * h), cm(h)});
    const auto scale = PourScale::fitted(all);
    ASSERT_TRUE(scale);
    ASSERT_TRUE(scale->quadratic());
    ASSERT_LT(scale->worst(), 1e-10);
    const double h = draw.real(0, 30);
    ASSERT_NEAR(in_litres(scale->volume(cm(h))), a * h + b * h * h, 1e-9);
    ASSERT_NEAR(in_cm(scale->depth(litres(a * h + b * h * h))), h, 1e-8);
  }
}

TEST(DosingPours, TheWorstPourIsNamedWithItsError) {
  const PourScale scale = pours({3.9, 7.7, 11.3, 14.9, 19.4, 21.7, 25.0}, 2);
  ASSERT_TRUE(scale.quadratic());
  EXPECT_EQ(scale.worst_pour(), 4u);  // the fifth mark was read 1.1 cm too deep
  EXPECT_NEAR(scale.worst(), std::fabs(in_litres(scale.volume(cm(19.4))) / 10 - 1), 1e-12);
  EXPECT_GT(scale.worst(), 0.03);
}

// A bucket with a wide rim on a narrow foot: the parabola would fall near the bottom.
TEST(DosingPours, WhereTheParabolaFallsLinesBetweenTheMarksServe) {
  const PourScale scale = pours({10, 19, 20, 20.5, 21}, 2);
  EXPECT_FALSE(scale.quadratic());
  EXPECT_NEAR(in_cm(scale.depth(litres(3))), 14.5, 1e-9);
  EXPECT_NEAR(in_litres(scale.volume(cm(5))), 1, 1e-9);
  EXPECT_NEAR(in_cm(depth_for(scale, litres(10)).value()), 21, 1e-9);
  EXPECT_GT(scale.worst(), 0.1);
  Length before;
  const auto stick = dip_stick(scale, litres(0.5)).value();
  for (const DipMark& mark : stick) {
    EXPECT_GT(mark.depth, before);
    EXPECT_NEAR(scale.volume(mark.depth) / mark.volume, 1, 1e-12);
    before = mark.depth;
  }
}

TEST(DosingPours, PoursThatDoNotRiseAreRefusedByName) {
  const std::vector<Pour> falling = {
      {litres(2), cm(4)}, {litres(4), cm(8)}, {litres(6), cm(7.5)}, {litres(8), cm(14)}};
  const auto scale = PourScale::fitted(falling);
  ASSERT_FALSE(scale);
  EXPECT_EQ(scale.error()[0].code, "pours-not-rising");
  EXPECT_EQ(scale.error()[0].field, "/pours/2");
  EXPECT_EQ(scale.error()[0].details.at("pour"), "3");
  EXPECT_EQ(PourScale::fitted({{litres(2), cm(4)}, {litres(4), cm(8)}}).error()[0].code,
            "pours-few");
  const std::vector<Pour> negative = {
      {litres(2), cm(4)}, {litres(4), cm(-8)}, {litres(0), cm(12)}, {litres(8), cm(14)}};
  EXPECT_EQ(PourScale::fitted(negative).error()[0].field, "/pours/1/depth");
  EXPECT_EQ(PourScale::fitted(negative).error()[1].field, "/pours/2/total");
  EXPECT_TRUE(judge_pours(6, 6).empty());
  EXPECT_EQ(judge_pours(5, 6)[0].code, "pours-few-advised");
}

// Twelve uniform draws have variance 1: nearly normal, and the same digits on every machine.
double noise(testing::Draw& draw, double sigma) {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += draw.real(0, 1);
  return sum * sigma;
}

// The largest error of a whole-litre mark above 5 cm, one calibration with a bottle 1 % off, each
// pour filled 1 % off, each depth read 2 mm off.
double worst_mark(testing::Draw& draw, int count, double bottle) {
  const Frustum real = first_bucket();
  const double size = bottle * (1 + noise(draw, 0.01));
  double poured = 0;
  std::vector<Pour> all;
  for (int i = 1; i <= count; ++i) {
    poured += size * (1 + noise(draw, 0.01));
    all.push_back({litres(bottle * i), real.depth(litres(poured)) + cm(noise(draw, 0.2))});
  }
  double worst = 0;
  const auto stick = dip_stick(PourScale::fitted(all).value(), litres(1)).value();
  for (const DipMark& mark : stick)
    if (mark.depth > cm(5))
      worst = std::max(worst, std::fabs(real.volume(mark.depth) / mark.volume - 1));
  return 100 * worst;
}

// A median and a 90 % point of so many trials scatter by c / sqrt(trials); c from 200,000 trials
// apart.
struct Calibrations {
  int pours;
  double bottle;
  double median, ninety;                  // the printed table
  double own_median, own_ninety;          // ours, 200,000 trials
  double median_scatter, ninety_scatter;  // c
};
constexpr Calibrations calibrations[] = {{4, 4.5, 1.8, 3.8, 1.828, 3.710, 1.63, 3.61},
                                         {9, 2, 1.3, 2.6, 1.467, 2.881, 1.12, 2.32},
                                         {18, 1, 1.3, 2.3, 1.247, 2.450, 1.03, 1.89}};
constexpr int own_trials = 20000;

// Median and 90 % point of the worst error, for each row.
const std::vector<std::pair<double, double>>& simulated() {
  static std::vector<std::pair<double, double>> points;
  if (!points.empty()) return points;
  testing::Draw draw(2027);
  for (const Calibrations& row : calibrations) {
    std::vector<double> errors;
    for (int i = 0; i < own_trials; ++i) errors.push_back(worst_mark(draw, row.pours, row.bottle));
    std::stable_sort(errors.begin(), errors.end());
    points.emplace_back(errors[own_trials / 2], errors[own_trials * 9 / 10]);
  }
  return points;
}

// Source: computed by simulation: median and 90 % of the worst error above 5 cm, 4 pours of 4.5 L
// 1.8 / 3.8 %, 9 of 2 L 1.3 / 2.6 %, 18 of 1 L 1.3 / 2.3 %. How many trials stand behind it is not
// told. Tolerance, fixed beforehand: half a printed digit and twice the scatter of both runs,
// theirs ASSUMED to be of 300 trials: 0.24 / 0.47, 0.18 / 0.32, 0.17 / 0.27. The row of nine pours
// agrees only if their run had about 300 trials or fewer: against 200,000 of ours it lies 0.17 and
// 0.28 low. Its advice, six to nine pours, comes out as well.
TEST(DosingPours, SimulatedCalibrationsErrAsTheTableSaysWithinItsAssumedScatter) {
  constexpr double reference_trials = 300;
  const auto& points = simulated();
  double before = 100;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Calibrations& row = calibrations[i];
    const auto tolerance = [&](double scatter) {
      return 0.05 + 2 * scatter * std::sqrt(1 / reference_trials + 1.0 / own_trials);
    };
    EXPECT_NEAR(points[i].first, row.median, tolerance(row.median_scatter)) << row.pours;
    EXPECT_NEAR(points[i].second, row.ninety, tolerance(row.ninety_scatter)) << row.pours;
    EXPECT_LT(points[i].first, before);
    before = points[i].first;
  }
}

// Our own values of 200,000 trials, within three times the scatter of this run: a change of the fit
// shows here.
TEST(DosingPours, SimulatedCalibrationsErrAsTheyAlwaysDid) {
  const auto& points = simulated();
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Calibrations& row = calibrations[i];
    const double root = std::sqrt(static_cast<double>(own_trials));
    EXPECT_NEAR(points[i].first, row.own_median, 3 * row.median_scatter / root) << row.pours;
    EXPECT_NEAR(points[i].second, row.own_ninety, 3 * row.ninety_scatter / root) << row.pours;
  }
}

}  // namespace
}  // namespace wheyfield::dosing
