// How fast is an ensemble of batches? 2,000 batches of 240 h as the product runs them, the same
// through CVODE one after the other, and as many bare calls of the equations as the product makes.
// One run, one thread; milliseconds and their ratios. The worst error of pH at any hour stands
// beside each: against CVODE at a tolerance of 1e-11, over the first 50 batches.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <vector>

#include "embedded.h"
#include "fermentation/ensemble.h"
#include "fermentation/equations.h"
#include "fermentation/normal.h"
#include "stopwatch.h"
#include "support/cvode.h"
#include "weather/diurnal.h"

using namespace wheyfield;
using namespace wheyfield::fermentation;

namespace {

constexpr int members = 2000;
constexpr int hours = 240;
constexpr std::size_t checked = 50;  // batches whose errors are looked at

const ParameterTable& table() {
  static const ParameterTable parsed = [] {
    auto data = reference_data::ReferenceData::parse(embedded::data_json());
    if (!data) std::abort();
    auto rows = ParameterTable::parse(*data);
    if (!rows) std::abort();
    return *rows;
  }();
  return parsed;
}

std::vector<BatchModel> drawn() {
  std::vector<BatchModel> batches;
  for (int i = 0; i < members; ++i) {
    numerics::Stream stream(1, static_cast<std::uint64_t>(i));
    Deviates z{};
    for (double& each : z) each = standard_normal(stream);
    batches.push_back(batch_of(table(), z));
  }
  return batches;
}

// The batch with the curve of the day itself in place of the lines that join its half hours, whose
// corners cost a solver with controlled steps dearly.
struct Smooth {
  Equations equations;
  const BatchModel& batch;
  double min, max, first_hour, tau;
  void operator()(const State& now, State& change, double hours) const {
    equations(now, change, hours);
    const double clock = std::fmod(first_hour + hours, 24.0);
    const double air = weather::campbell_norman({max, min, max, min}, clock) + batch.air_offset;
    change[temperature] = (air - now[temperature]) / (tau * batch.vessel_pace);
  }
};

const Equations& plain(const Equations& equations) { return equations; }
const Equations& plain(const Smooth& smooth) { return smooth.equations; }

struct Run {
  std::vector<double> ph;  // hourly
  long calls;
};

template <class Function>
Run through_cvode(const Function& function, testing::Multistep method, double tolerance) {
  const Equations& equations = plain(function);
  testing::Cvode<places, Function> solver(function, equations.begin(), method, tolerance,
                                          tolerance);
  Run run{{}, 0};
  for (int hour = 1; hour <= hours; ++hour)
    run.ph.push_back(equations.seen(solver.at(hour), hour).ph);
  run.calls = solver.calls();
  return run;
}

double worst(const std::vector<double>& one, const std::vector<double>& other) {
  double most = 0.0;
  for (std::size_t i = 0; i < one.size(); ++i) most = std::max(most, std::fabs(one[i] - other[i]));
  return most;
}

template <class Make>
void measure_cvode(const std::vector<BatchModel>& batches, double ours,
                   const std::vector<double>& tolerances, Make make) {
  std::vector<std::vector<double>> exact;
  for (std::size_t i = 0; i < checked; ++i)
    exact.push_back(through_cvode(make(batches[i]), testing::Multistep::adams, 1e-11).ph);
  for (const auto method : {testing::Multistep::adams, testing::Multistep::bdf})
    for (const double tolerance : tolerances) {
      double error = 0.0;
      for (std::size_t i = 0; i < checked; ++i)
        error =
            std::max(error, worst(through_cvode(make(batches[i]), method, tolerance).ph, exact[i]));
      long calls = 0;
      const double theirs = milliseconds([&] {
        for (const BatchModel& batch : batches)
          calls += through_cvode(make(batch), method, tolerance).calls;
      });
      std::printf(
          "  CVODE %s %.0e: %.0f ms, %ld calls a batch, error %.0e; ours is %.1f times as fast\n",
          method == testing::Multistep::adams ? "Adams" : "BDF  ", tolerance, theirs,
          calls / members, error, theirs / ours);
    }
}

double measure(const char* name, const std::vector<BatchModel>& batches, const Setting& setting) {
  double error = 0.0;
  for (std::size_t i = 0; i < checked; ++i) {
    std::vector<double> ours = hourly_course(batches[i], setting).ph;
    ours.erase(ours.begin());
    const Equations equations(batches[i], setting);
    error =
        std::max(error, worst(ours, through_cvode(equations, testing::Multistep::adams, 1e-11).ph));
  }
  double sum = 0.0;
  const double ours = milliseconds([&] {
    for (const BatchModel& batch : batches) sum += hourly_course(batch, setting).ph.back();
  });
  std::vector<int> calls;
  for (const BatchModel& batch : batches) calls.push_back(calls_of(batch, setting));
  const double bare = milliseconds([&] {
    for (std::size_t member = 0; member < batches.size(); ++member) {
      const Equations equations(batches[member], setting);
      State state = equations.begin(), change{};
      const double step = static_cast<double>(hours) / calls[member];
      for (int call = 0; call < calls[member]; ++call) {
        equations(state, change, call * step);
        for (std::size_t i = 0; i < state.size(); ++i) state[i] += step * change[i];
      }
      sum += equations.seen(state, hours).ph;
    }
  });
  if (!std::isfinite(sum)) std::abort();
  std::printf("%s: ours %.0f ms, %d calls a batch, error %.0e; bare calls %.0f ms, ratio %.2f\n",
              name, ours, std::accumulate(calls.begin(), calls.end(), 0) / members, error, bare,
              ours / bare);
  return ours;
}

}  // namespace

int main() {
  const std::vector<BatchModel> batches = drawn();
  const Setting still{Air::constant(25), 6.1};
  const double ours_still = measure("25 C", batches, still);
  measure_cvode(batches, ours_still, {1e-5, 3e-6, 1e-6, 1e-8},
                [&](const BatchModel& batch) { return Equations(batch, still); });

  const Setting swinging{Air::daily(14, 28, 8), 6.1};
  const double ours_swinging = measure("14 to 28 C", batches, swinging);
  std::printf(" the day's curve itself\n");
  measure_cvode(batches, ours_swinging, {1e-5, 3e-6, 1e-6, 1e-8}, [&](const BatchModel& batch) {
    return Smooth{Equations(batch, swinging), batch, 14, 28, 8, 6.1};
  });
  std::printf(" its half hours joined, as ours\n");
  measure_cvode(batches, ours_swinging, {1e-6},
                [&](const BatchModel& batch) { return Equations(batch, swinging); });

  const double whole = milliseconds([&] { Ensemble(table(), still, 1, members); });
  std::printf("an Ensemble of %d usual and %d failing members: %.0f ms\n", members, members / 4,
              whole);
}
