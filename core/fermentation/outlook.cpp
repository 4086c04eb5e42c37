#include "fermentation/outlook.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace wheyfield::fermentation {
namespace {

// Steps of the scale on which the marks of the band are counted [pH].
constexpr double band_step = 0.01;
constexpr std::size_t band_steps = 1000;

std::vector<PhBand> band_of(const Hypothesis& batches) {
  std::vector<PhBand> band;
  std::vector<double> weight_at(band_steps);
  for (std::size_t hour = 0; hour < batches.members.front().ph.size(); ++hour) {
    std::fill(weight_at.begin(), weight_at.end(), 0.0);
    for (const Member& member : batches.members)
      weight_at[static_cast<std::size_t>(std::lround(member.ph[hour] / band_step))] +=
          member.weight;
    const auto mark = [&](double share) {
      double sum = 0.0;
      std::size_t step = 0;
      while (step + 1 < band_steps && (sum += weight_at[step]) < share) ++step;
      return band_step * static_cast<double>(step);
    };
    band.push_back({static_cast<double>(hour), mark(0.1), mark(0.5), mark(0.9)});
  }
  return band;
}

// The hour of the last look that says it has not set.
std::optional<double> seen_unset(const std::vector<Reading>& readings) {
  std::optional<double> last;
  for (const Reading& reading : readings)
    if (reading.kind == Reading::Kind::set && reading.value == 0.0)
      last = std::max(last.value_or(0.0), reading.hours);
  return last;
}

// Without those that would have set by the hour at which it was seen not to; all where none is
// left.
Hypothesis still_unset(const Hypothesis& batches, double curd, double hours) {
  Hypothesis left{{}, batches.chance};
  double sum = 0.0;
  for (const Member& member : batches.members) {
    const auto set = hours_to(member, curd);
    if (set && *set <= hours) continue;
    left.members.push_back(member);
    sum += member.weight;
  }
  if (sum <= 0.0) return batches;
  for (Member& member : left.members) member.weight /= sum;
  return left;
}

}  // namespace

Outlook outlook(Ensemble& batch, const ParameterTable& table, const std::vector<Reading>& readings,
                const PlaceSpeed* place) {
  const double curd = table.row("curd-ph").value;
  Outlook told;
  told.curd_ph = curd;
  told.ready_ph = table.row("ready-ph").value;
  batch.learn({}, place);
  told.set_at_first = hours_to(batch.usual(), curd);
  told.gone = hours_by(batch.usual(), curd, table.row("lost-share").value);
  batch.learn(readings, place);
  Hypothesis usual = batch.told(readings, place);
  told.failing = 1.0 - usual.chance;
  if (const auto unset = seen_unset(readings)) usual = still_unset(usual, curd, *unset);
  told.set = hours_to(usual, curd);
  told.ready = hours_to(usual, told.ready_ph);
  told.sour = hours_to(usual, table.row("sour-ph").value);
  told.band = band_of(told.failing > 0.5 ? batch.failing() : usual);
  return told;
}

}  // namespace wheyfield::fermentation
