#include "fermentation/ensemble.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/kept_batch.h>

namespace wheyfield::fermentation {
namespace {

using Kind = Reading::Kind;
using testing::KeptBatch;

const ParameterTable& read_table() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

Setting eleven_litres(Air air) { return {std::move(air), 6.0}; }

// Each constant air is drawn once for all tests.
const Ensemble& at(int celsius) {
  static std::map<int, Ensemble> drawn;
  auto found = drawn.find(celsius);
  if (found == drawn.end())
    found =
        drawn.emplace(celsius, Ensemble(read_table(), eleven_litres(Air::constant(celsius)), 2027))
            .first;
  return found->second;
}

double hours_or_never(const std::optional<double>& hours) { return hours.value_or(INFINITY); }

// Computed outside of this program by a forerunner of the same equations with draws of its own,
// printed in whole hours: 10, 50 and 90 % of 2,000 members. The medians must lie within 10 %; the
// edges within 15 %, for ours are other draws and the laws of some spreads were inferred.
TEST(FermentationEnsemble, WindowsAtConstantAir) {
  const double none = INFINITY;
  const struct {
    int celsius;
    double ph, early, likely, late;
  } table[] = {{15, 4.6, 40, 64, 107},   {15, 4.2, 50, 80, 135},  {15, 3.9, 122, 234, none},
               {20, 4.6, 20, 30, 46},    {20, 4.2, 25, 37, 57},   {20, 3.9, 48, 82, 145},
               {25, 4.6, 12, 18, 26},    {25, 4.2, 15, 22, 33},   {25, 3.9, 28, 44, 72},
               {30, 4.6, 9, 13, 20},     {30, 4.2, 11, 17, 24},   {30, 3.9, 19, 29, 48},
               {12, 4.6, 74, 128, none}, {12, 4.2, 93, 161, none}};
  for (const auto& row : table) {
    const HourWindow window = hours_to(at(row.celsius).usual(), row.ph);
    const auto near = [&](const std::optional<double>& hours, double printed, double share) {
      if (printed == none)
        EXPECT_FALSE(hours) << row.celsius << " to " << row.ph;
      else
        EXPECT_NEAR(hours_or_never(hours), printed, share * printed)
            << row.celsius << " to " << row.ph;
    };
    near(window.early, row.early, 0.15);
    near(window.likely, row.likely, 0.10);
    near(window.late, row.late, 0.15);
  }
}

// The same forerunner: chance of pH 4.6 within the five days of the calendar.
TEST(FermentationEnsemble, ChanceOfSourMilkWithinFiveDays) {
  EXPECT_NEAR(share_by(at(12).usual(), 4.6, 120), 0.45, 0.05);
  EXPECT_NEAR(share_by(at(15).usual(), 4.6, 120), 0.94, 0.02);
  EXPECT_GT(share_by(at(20).usual(), 4.6, 120), 0.995);
}

TEST(FermentationEnsemble, TheSameSeedDrawsTheSameMembersHoweverMany) {
  const Setting setting = eleven_litres(Air::constant(25));
  const Ensemble few(read_table(), setting, 5, 8);
  const Ensemble more(read_table(), setting, 5, 16);
  for (std::size_t i = 0; i < 8; ++i)
    EXPECT_EQ(few.usual().members[i].ph, more.usual().members[i].ph) << i;
  const Ensemble other(read_table(), setting, 6, 8);
  EXPECT_NE(few.usual().members[0].ph, other.usual().members[0].ph);
}

TEST(FermentationEnsemble, WithoutReadingsAllCountAlikeAndATenthFails) {
  EXPECT_NEAR(at(25).usual().effective(), 2000, 1e-6);
  EXPECT_NEAR(at(25).failing().chance, 0.1, 1e-12);
  EXPECT_NEAR(at(25).usual().chance, 0.9, 1e-12);
}

TEST(FermentationEnsemble, TheOrderOfReadingsDoesNotMatterAndNothingIsLearnedTwice) {
  Ensemble one = at(25);
  Ensemble two = at(25);
  const Reading early{Kind::strip, 12, 5.5, 0.5}, late{Kind::strip, 24, 4.5, 0.5};
  one.learn({early, late});
  two.learn({late});
  two.learn({late, early});
  EXPECT_NEAR(*hours_to(one.usual(), 4.2).likely, *hours_to(two.usual(), 4.2).likely, 1e-9);
  EXPECT_NEAR(one.failing().chance, two.failing().chance, 1e-12);
}

const Ensemble& held_out() {
  static const Ensemble drawn(read_table(), eleven_litres(Air::constant(25)), 31, 250);
  return drawn;
}

struct Study {
  double coverage;  // of the 10 to 90 % window
  double width;     // median [h]
};
template <class Readings>
Study study(Readings readings) {
  Ensemble learner = at(25);
  int inside = 0;
  std::vector<double> widths;
  for (std::size_t i = 0; i < 250; ++i) {
    Hypothesis truth{{held_out().usual().members[i]}, 1.0};
    truth.members[0].weight = 1.0;
    KeptBatch batch(truth.members[0], i);
    learner.learn(readings(batch));
    const HourWindow window = hours_to(learner.usual(), 4.2);
    const double early = hours_or_never(window.early), late = hours_or_never(window.late);
    const double hours = hours_or_never(hours_to(truth, 4.2).likely);
    inside += hours >= early && hours <= late;
    widths.push_back(late - early);
  }
  std::nth_element(widths.begin(), widths.begin() + 125, widths.end());
  return {inside / 250.0, widths[125]};
}

// A forerunner's study of 250 held-out batches at 25 C: coverage 0.80 +/- 0.05 nominal; widths
// 18 h before, 11 h after a strip at 24 h, 9 h after strips at 12 and 24 h, 8 h after two looks
// whether it has set. Printed in whole hours, mean or median was not said; ours are other batches,
// so 1.5 h are allowed.
TEST(FermentationEnsemble, WindowsOfHeldOutBatchesHoldFourOfFiveAndNarrow) {
  const Study before = study([](KeptBatch&) { return std::vector<Reading>{}; });
  const Study one = study([](KeptBatch& batch) { return std::vector<Reading>{batch.strip(24)}; });
  const Study two = study([](KeptBatch& batch) {
    const Reading early = batch.strip(12);
    return std::vector<Reading>{early, batch.strip(24)};
  });
  const Study looks = study([](KeptBatch& batch) {
    const Reading early = batch.set(12);
    return std::vector<Reading>{early, batch.set(18)};
  });
  for (const Study& each : {before, one, two, looks}) EXPECT_NEAR(each.coverage, 0.80, 0.08);
  EXPECT_NEAR(before.width, 18, 1.5);
  EXPECT_NEAR(one.width, 11, 1.5);
  EXPECT_NEAR(two.width, 9, 1.5);
  EXPECT_NEAR(looks.width, 8, 1.5);
}

// How often batches of that kind are called failing (chance above one half) after one coarse strip.
double called_failing(const Hypothesis& truths, double hours) {
  Ensemble learner = at(25);
  int called = 0;
  for (std::size_t i = 0; i < truths.members.size(); ++i) {
    KeptBatch batch(truths.members[i], i);
    learner.learn({batch.strip(hours)});
    called += learner.failing().chance > 0.5;
  }
  return static_cast<double>(called) / static_cast<double>(truths.members.size());
}

// The same study, 25 C: 0 % at 12 h, 76 % at 24, 94 % at 36; false alarms 0 to 5 %. It had 21 % at
// 18 h, where this model has about a third: docs/models/fermentation.md.
TEST(FermentationEnsemble, AStalledBatchIsFoundButNotEarly) {
  const Ensemble stalled(read_table(), eleven_litres(Air::constant(25)), 41, 1000);
  EXPECT_NEAR(called_failing(stalled.failing(), 12), 0.00, 0.05);
  EXPECT_LT(called_failing(stalled.failing(), 18), 0.5);
  EXPECT_NEAR(called_failing(stalled.failing(), 24), 0.76, 0.10);
  EXPECT_NEAR(called_failing(stalled.failing(), 36), 0.94, 0.05);
  for (const double hours : {12, 18, 24, 36})
    EXPECT_LE(called_failing(held_out().usual(), hours), 0.05) << hours;
}

TEST(FermentationEnsemble, AWarmThermometerMakesTheWindowEarlier) {
  Ensemble learner = at(20);
  const double before = *hours_to(learner.usual(), 4.6).likely;
  learner.learn({{Kind::thermometer, 10, 22.0}});
  EXPECT_LT(*hours_to(learner.usual(), 4.6).likely, before - 2);
}

double mean_of(const Hypothesis& batches, Differs which) {
  double sum = 0.0;
  for (const Member& member : batches.members) sum += member.weight * of(member.z, which);
  return sum;
}

// Two readings by a meter leave few members that count. The refreshed ones differ again and say the
// same as the weights of a draw five times as large.
TEST(FermentationEnsemble, RefreshingKeepsTheDistributionAndBringsMembersBack) {
  const Setting setting = eleven_litres(Air::constant(25));
  const std::vector<Reading> readings{{Kind::meter, 14, 5.4, 0.1}, {Kind::meter, 20, 4.4, 0.1}};
  Ensemble small(read_table(), setting, 51, 1200);
  small.learn(readings);
  EXPECT_LT(small.usual().effective(), Ensemble::enough);
  const Hypothesis fresh = small.refreshed(readings);
  std::map<double, int> distinct;
  for (const Member& member : fresh.members) ++distinct[of(member.z, Differs::speed)];
  EXPECT_EQ(fresh.members.size(), 300u);
  EXPECT_GT(distinct.size(), 150u);  // more than half
  EXPECT_NEAR(fresh.effective(), 300, 1e-6);

  Ensemble large(read_table(), setting, 52, 6000);
  large.learn(readings);
  EXPECT_GT(large.usual().effective(), 2 * Ensemble::enough);
  EXPECT_NEAR(std::log((1.0 - fresh.chance) / (1.0 - large.usual().chance)), 0.0, 0.7);
  EXPECT_NEAR(*hours_to(fresh, 4.2).likely, *hours_to(large.usual(), 4.2).likely, 0.5);
  for (const Differs which : {Differs::speed, Differs::fast_start, Differs::reading_bias})
    EXPECT_NEAR(mean_of(fresh, which), mean_of(large.usual(), which), 0.25)
        << static_cast<int>(which);
}

}  // namespace
}  // namespace wheyfield::fermentation
