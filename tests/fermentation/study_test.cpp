// How well do cheap readings narrow the window, and how soon is a stalled batch found? 500 seeded
// batches of the model itself for each case, beside what a forerunner printed of 250. In the
// model's own world: nothing here speaks of real milk.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "support/bundle.h"
#include "support/kept_batch.h"

namespace wheyfield::fermentation {
namespace {

using testing::KeptBatch;

constexpr std::uint32_t batches = 500;

const ParameterTable& study_rows() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

// What a learner knows before, and batches drawn apart from it; failing ones among them.
struct World {
  Ensemble learner;
  Ensemble held_out;
};

World& world(const std::string& air) {
  static std::map<std::string, World> worlds;
  const auto found = worlds.find(air);
  if (found != worlds.end()) return found->second;
  const Setting setting{air == "14/28" ? Air::daily(14, 28, 8) : Air::constant(std::stod(air)),
                        6.0};
  return worlds
      .emplace(air, World{Ensemble(study_rows(), setting, 2027),
                          Ensemble(study_rows(), setting, 31, 4 * batches)})
      .first->second;
}

double or_never(const std::optional<double>& hours) { return hours.value_or(INFINITY); }

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

enum class Tool { nothing, coarse, fine, meter, look };

TEST(FermentationStudy, WindowsOf80PercentHold72To88OfA500Batches) {
  struct Case {
    const char* air;
    Tool tool;
    std::vector<double> hours;
    double coverage, width, error;  // printed; 0 where it was not
  };
  const Case cases[] = {{"25", Tool::nothing, {}, 0.80, 18, 4.5},
                        {"25", Tool::coarse, {24}, 0.81, 11, 3.2},
                        {"25", Tool::coarse, {12, 24}, 0.82, 9, 2.2},
                        {"25", Tool::coarse, {12, 24, 36, 48}, 0.79, 8, 2.3},
                        {"25", Tool::fine, {12, 24}, 0.79, 8, 2.0},
                        {"25", Tool::meter, {12, 24}, 0.78, 7, 1.6},
                        {"25", Tool::look, {12, 18}, 0.85, 8, 0},
                        {"15", Tool::nothing, {}, 0.80, 84, 20},
                        {"15", Tool::coarse, {48}, 0.76, 64, 11},
                        {"15", Tool::coarse, {48, 72}, 0.80, 28, 7},
                        {"14/28", Tool::nothing, {}, 0.80, 31, 5.7},
                        {"14/28", Tool::coarse, {24}, 0.77, 20, 4.1},
                        {"14/28", Tool::coarse, {24, 36}, 0.83, 14, 2.4}};
  std::printf("[  study   ] air, tool, looks: coverage, width h, median error h (printed)\n");
  for (const Case& each : cases) {
    World& here = world(each.air);
    int inside = 0;
    std::vector<double> widths, errors;
    for (std::uint32_t i = 0; i < batches; ++i) {
      Hypothesis truth{{here.held_out.usual().members[i]}, 1.0};
      truth.members[0].weight = 1.0;
      KeptBatch batch(truth.members[0], i);
      std::vector<Reading> readings;
      for (const double hours : each.hours)
        readings.push_back(each.tool == Tool::coarse  ? batch.strip(hours)
                           : each.tool == Tool::fine  ? batch.strip(hours, 0.3)
                           : each.tool == Tool::meter ? batch.meter(hours)
                                                      : batch.set(hours));
      here.learner.learn(readings);
      const HourWindow window = hours_to(here.learner.usual(), 4.2);
      const double hours = or_never(hours_to(truth, 4.2).likely);
      inside += hours >= or_never(window.early) && hours <= or_never(window.late);
      widths.push_back(or_never(window.late) - or_never(window.early));
      errors.push_back(
          std::fabs(std::min(hours, 240.0) - std::min(or_never(window.likely), 240.0)));
    }
    const double coverage = static_cast<double>(inside) / batches;
    std::printf("[  study   ] %s, %d, %zu: %.2f (%.2f), %.1f (%.0f), %.1f (%.1f)\n", each.air,
                static_cast<int>(each.tool), each.hours.size(), coverage, each.coverage,
                median(widths), each.width, median(errors), each.error);
    EXPECT_GE(coverage, 0.72) << each.air;
    EXPECT_LE(coverage, 0.88) << each.air;
    EXPECT_NEAR(median(widths), each.width, 0.2 * each.width) << each.air;
  }
}

// Share of these batches called failing, chance above one half, after one coarse strip.
double called(World& here, const Hypothesis& truths, double hours) {
  std::uint32_t count = 0;
  for (std::uint32_t i = 0; i < batches; ++i) {
    KeptBatch batch(truths.members[i], i);
    here.learner.learn({batch.strip(hours)});
    count += here.learner.failing().chance > 0.5;
  }
  return static_cast<double>(count) / batches;
}

// At 25 C and 18 h a third is found where a fifth was printed; held fast as it is here.
TEST(FermentationStudy, StalledBatchesAreCalledFailingAsPrintedButForOne) {
  const struct {
    const char* air;
    double hours, printed, here;
  } cases[] = {{"25", 12, 0.00, 0.00},   {"25", 18, 0.21, 0.32},  {"25", 24, 0.76, 0.84},
               {"25", 36, 0.94, 0.96},   {"20", 24, 0.00, 0.00},  {"20", 36, 0.83, 0.85},
               {"20", 48, 0.96, 0.97},   {"15", 48, 0.00, 0.00},  {"15", 72, 0.24, 0.32},
               {"15", 96, 0.81, 0.84},   {"15", 120, 0.97, 0.96}, {"14/28", 36, 0.85, 0.85},
               {"14/28", 48, 0.96, 0.97}};
  int otherwise = 0;
  std::printf("[  study   ] air, strip at: called failing (printed), false alarms\n");
  for (const auto& each : cases) {
    World& here = world(each.air);
    const double found = called(here, here.held_out.failing(), each.hours);
    const double false_alarms = called(here, here.held_out.usual(), each.hours);
    std::printf("[  study   ] %s, %.0f h: %.2f (%.2f), %.2f\n", each.air, each.hours, found,
                each.printed, false_alarms);
    EXPECT_NEAR(found, each.here, 0.02) << each.air << " at " << each.hours;
    EXPECT_LE(false_alarms, 0.05) << each.air << " at " << each.hours;
    otherwise += std::fabs(found - each.printed) > 0.10;
  }
  EXPECT_EQ(otherwise, 1);
}

// Under 14 to 28 C, none is found at 24 h as printed, or a third: a strip that has not moved at all
// makes the chance one half to within a hundredth, and who was drawn decides.
TEST(FermentationStudy, OnSwingingAirAStripOfSevenAfterADayLiesOnTheEdge) {
  World& here = world("14/28");
  here.learner.learn({{Reading::Kind::strip, 24, 7.0, 0.5}});
  EXPECT_NEAR(here.learner.failing().chance, 0.5, 0.01);
  here.learner.learn({{Reading::Kind::strip, 24, 6.5, 0.5}});
  EXPECT_LT(here.learner.failing().chance, 0.35);
}

}  // namespace
}  // namespace wheyfield::fermentation
