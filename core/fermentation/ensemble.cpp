#include "fermentation/ensemble.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

#include "fermentation/normal.h"
#include "fermentation/place_speed.h"
#include "fermentation/tempering.h"
#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr int moves = 3;               // of each member at each step of raising the readings
constexpr std::size_t fresh_part = 4;  // a fresh member for so many
constexpr double move_part = 0.4;
constexpr double kept = 0.5;  // share of members that still counts after a step

// Parts of a seed's streams.
enum Part : std::uint64_t { drawing = 0, failing_draw = 1, moving = 2, choosing = 3, placing = 4 };

Deviates drawn(std::uint64_t seed, std::uint64_t number, Part part) {
  numerics::Stream stream(seed, number, part);
  Deviates z{};
  for (double& each : z) each = standard_normal(stream);
  return z;
}

double member_hours(const Member& member, double ph) {
  const auto below =
      std::find_if(member.ph.begin(), member.ph.end(), [&](double each) { return each <= ph; });
  if (below == member.ph.end()) return never;
  if (below == member.ph.begin()) return 0.0;
  const double before = *(below - 1);
  return static_cast<double>(below - member.ph.begin()) - 1.0 + (before - ph) / (before - *below);
}

using Weighted = std::pair<double, double>;  // hours and weight

std::vector<Weighted> sorted_hours(const Hypothesis& batches, double ph) {
  std::vector<Weighted> hours;
  for (const Member& member : batches.members)
    hours.emplace_back(member_hours(member, ph), member.weight);
  std::stable_sort(hours.begin(), hours.end());
  return hours;
}

std::optional<double> reached(const std::vector<Weighted>& hours, double share) {
  double sum = 0.0;
  for (const auto& [at, weight] : hours) {
    sum += weight;
    if (sum >= share) return at < never ? std::optional(at) : std::nullopt;
  }
  return std::nullopt;
}

double along(const std::vector<double>& hourly, double hours) {
  const double last = static_cast<double>(hourly.size() - 1);
  const double at = std::clamp(hours, 0.0, last);
  const auto i = static_cast<std::size_t>(at);
  if (i + 1 == hourly.size()) return hourly.back();
  return hourly[i] + (at - static_cast<double>(i)) * (hourly[i + 1] - hourly[i]);
}

// Turns logarithms of likelihoods into weights; gives the logarithm of their mean, which compares
// hypotheses.
double weigh(std::vector<Member>& members, const std::vector<double>& logs) {
  const double highest = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (std::size_t i = 0; i < members.size(); ++i) {
    members[i].weight = std::exp(logs[i] - highest);
    sum += members[i].weight;
  }
  for (Member& member : members) member.weight /= sum;
  return highest + std::log(sum / static_cast<double>(members.size()));
}

// Of what is believed of the place, against any place.
double log_tilt(const Deviates& z, const PlaceSpeed* place) {
  return place == nullptr ? 0.0 : std::log(place->tilt(of(z, Differs::speed)));
}

// Of the distribution that all deviates are drawn from, without its constant.
double log_prior(const Deviates& z, const PlaceSpeed* place) {
  double squares = 0.0;
  for (const double each : z) squares += each * each;
  return log_tilt(z, place) - 0.5 * squares;
}

// How far a move goes: a part of each deviate's standard deviation among the members.
Deviates reach_of(const std::vector<Member>& members) {
  Deviates reach{};
  const auto count = static_cast<double>(members.size());
  for (std::size_t place = 0; place < reach.size(); ++place) {
    double mean = 0.0, squares = 0.0;
    for (const Member& member : members) {
      mean += member.z[place] / count;
      squares += member.z[place] * member.z[place] / count;
    }
    reach[place] = move_part * std::sqrt(std::max(0.0, squares - mean * mean));
  }
  return reach;
}

}  // namespace

double Hypothesis::effective() const {
  double squares = 0.0;
  for (const Member& member : members) squares += member.weight * member.weight;
  return 1.0 / squares;
}

std::optional<double> hours_to(const Member& member, double ph) {
  const double hours = member_hours(member, ph);
  return hours < never ? std::optional(hours) : std::nullopt;
}

HourWindow hours_to(const Hypothesis& batches, double ph) {
  const std::vector<Weighted> hours = sorted_hours(batches, ph);
  return {reached(hours, 0.1), reached(hours, 0.5), reached(hours, 0.9)};
}

std::optional<double> hours_by(const Hypothesis& batches, double ph, double share) {
  return reached(sorted_hours(batches, ph), share);
}

double share_by(const Hypothesis& batches, double ph, double hours) {
  double sum = 0.0;
  for (const Member& member : batches.members)
    if (member_hours(member, ph) <= hours) sum += member.weight;
  return sum;
}

Ensemble::Ensemble(const ParameterTable& table, const Setting& setting, std::uint64_t seed,
                   std::uint32_t members)
    : table_(table), errors_(table), setting_(setting), seed_(seed) {
  for (std::uint32_t i = 0; i < members; ++i)
    usual_.members.push_back(run(drawn(seed, i, drawing), false, setting.horizon));
  for (std::uint32_t i = 0; i < members / 4; ++i)
    failing_.members.push_back(run(drawn(seed, i, failing_draw), true, setting.horizon));
  learn({});
}

Member Ensemble::run(const Deviates& z, bool failing, double hours) const {
  const BatchModel batch =
      failing ? failing_batch_of(table_, z, setting_.brew) : batch_of(table_, z, setting_.brew);
  Setting setting = setting_;
  setting.horizon = hours;
  HourlyCourse hourly = hourly_course(batch, setting);
  return {z, std::move(hourly.ph), std::move(hourly.celsius), 0.0};
}

// Up to here a member must be run for its likelihood.
double Ensemble::last_hour(const std::vector<Reading>& readings) const {
  double last = 0.0;
  for (const Reading& reading : readings) last = std::max(last, reading.hours);
  return std::min(setting_.horizon, std::ceil(last) + 1.0);
}

double Ensemble::log_likelihood_of(const Member& member,
                                   const std::vector<Reading>& readings) const {
  const double bias = errors_.bias.at(of(member.z, Differs::reading_bias));
  double sum = 0.0;
  for (const Reading& reading : readings)
    sum += log_likelihood(reading, along(member.ph, reading.hours),
                          along(member.celsius, reading.hours), bias, errors_);
  return sum;
}

void Ensemble::learn(const std::vector<Reading>& readings, const PlaceSpeed* place) {
  const auto evidence = [&](Hypothesis& batches, const PlaceSpeed* at) {
    std::vector<double> logs;
    for (const Member& member : batches.members)
      logs.push_back(log_likelihood_of(member, readings) + log_tilt(member.z, at));
    return weigh(batches.members, logs);
  };
  const double usual = evidence(usual_, place);
  const double failing = evidence(failing_, nullptr);
  failing_evidence_ = failing;
  const double odds = failing_odds(usual);
  failing_.chance = 1.0 - 1.0 / (1.0 + odds);
  usual_.chance = 1.0 / (1.0 + odds);
}

double Ensemble::failing_odds(double usual_evidence) const {
  const double prior = table_.row("failure-share").value;
  return prior / (1.0 - prior) * std::exp(failing_evidence_ - usual_evidence);
}

// One move of each member within its prior and the readings raised to `power`.
void Ensemble::move_all(std::vector<Member>& members, std::vector<double>& heights,
                        const std::vector<Reading>& readings, const PlaceSpeed* place, double power,
                        std::uint64_t turn) const {
  const double hours = last_hour(readings);
  const Deviates reach = reach_of(members);
  for (std::size_t i = 0; i < members.size(); ++i) {
    numerics::Stream stream(seed_, turn * members.size() + i, moving);
    Deviates z = members[i].z;
    for (std::size_t place = 0; place < z.size(); ++place)
      z[place] += reach[place] * standard_normal(stream);
    Member moved = run(z, false, hours);
    const double height = log_likelihood_of(moved, readings);
    const double gain =
        log_prior(z, place) - log_prior(members[i].z, place) + power * (height - heights[i]);
    if (std::log(even(stream)) >= gain) continue;
    members[i] = std::move(moved);
    heights[i] = height;
  }
}

Hypothesis Ensemble::told(const std::vector<Reading>& readings, const PlaceSpeed* place) const {
  return usual_.effective() < enough ? refreshed(readings, place) : usual_;
}

Hypothesis Ensemble::refreshed(const std::vector<Reading>& readings,
                               const PlaceSpeed* place) const {
  const std::size_t count = std::max<std::size_t>(1, usual_.members.size() / fresh_part);
  std::vector<Member> members(usual_.members.begin(),
                              usual_.members.begin() + static_cast<std::ptrdiff_t>(count));
  std::uint64_t turn = 0;
  std::vector<double> heights;
  if (place != nullptr) {
    for (const Member& member : members) heights.push_back(log_tilt(member.z, place));
    numerics::Stream stream(seed_, turn, placing);
    members = taken(members, drawn_places(heights, 1.0, even(stream)));
    heights.clear();
  }
  for (const Member& member : members) heights.push_back(log_likelihood_of(member, readings));
  double evidence = 0.0;  // logarithm
  for (double power = 0.0; power < 1.0;) {
    const double next = next_power(heights, power, kept);
    evidence += log_mean_of_power(heights, next - power);
    numerics::Stream stream(seed_, turn, choosing);
    const auto places = drawn_places(heights, next - power, even(stream));
    members = taken(members, places);
    heights = taken(heights, places);
    for (int move = 0; move < moves; ++move)
      move_all(members, heights, readings, place, next, ++turn);
    power = next;
  }
  Hypothesis fresh{{}, 1.0 / (1.0 + failing_odds(evidence))};
  for (const Member& member : members) {
    fresh.members.push_back(run(member.z, false, setting_.horizon));
    fresh.members.back().weight = 1.0 / static_cast<double>(count);
  }
  return fresh;
}

}  // namespace wheyfield::fermentation
