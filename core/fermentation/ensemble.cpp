#include "fermentation/ensemble.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

#include "fermentation/normal.h"
#include "numerics/stream.h"

namespace wheyfield::fermentation {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr int steps_an_hour = 2;
constexpr int moves = 2;

// Parts of a seed's streams.
enum Part : std::uint64_t { drawing = 0, failing_draw = 1, moving = 2 };

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

// Of the distribution that all deviates are drawn from, without its constant.
double log_prior(const Deviates& z) {
  double squares = 0.0;
  for (const double each : z) squares += each * each;
  return -0.5 * squares;
}

}  // namespace

double Hypothesis::effective() const {
  double squares = 0.0;
  for (const Member& member : members) squares += member.weight * member.weight;
  return 1.0 / squares;
}

HourWindow hours_to(const Hypothesis& batches, double ph) {
  std::vector<std::pair<double, double>> hours;  // and weight
  for (const Member& member : batches.members)
    hours.emplace_back(member_hours(member, ph), member.weight);
  std::stable_sort(hours.begin(), hours.end());
  const auto by = [&](double share) -> std::optional<double> {
    double sum = 0.0;
    for (const auto& [at, weight] : hours) {
      sum += weight;
      if (sum >= share) return at < never ? std::optional(at) : std::nullopt;
    }
    return std::nullopt;
  };
  return {by(0.1), by(0.5), by(0.9)};
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
    usual_.members.push_back(run(drawn(seed, i, drawing), false));
  for (std::uint32_t i = 0; i < members / 4; ++i)
    failing_.members.push_back(run(drawn(seed, i, failing_draw), true));
  learn({});
}

Member Ensemble::run(const Deviates& z, bool failing) const {
  const BatchModel batch =
      failing ? failing_batch_of(table_, z, setting_.brew) : batch_of(table_, z, setting_.brew);
  const std::vector<Moment> moments = course(batch, setting_, 1.0 / steps_an_hour);
  Member member{z, {}, {}, 0.0};
  member.ph.reserve(moments.size() / steps_an_hour + 1);
  member.celsius.reserve(moments.size() / steps_an_hour + 1);
  for (std::size_t i = 0; i < moments.size(); i += steps_an_hour) {
    member.ph.push_back(moments[i].ph);
    member.celsius.push_back(moments[i].celsius);
  }
  return member;
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

void Ensemble::learn(const std::vector<Reading>& readings) {
  const auto evidence = [&](Hypothesis& batches) {
    std::vector<double> logs;
    for (const Member& member : batches.members)
      logs.push_back(log_likelihood_of(member, readings));
    return weigh(batches.members, logs);
  };
  const double usual = evidence(usual_);
  const double failing = evidence(failing_);
  const double prior = table_.row("failure-share").value;
  const double odds = prior / (1.0 - prior) * std::exp(failing - usual);
  failing_.chance = 1.0 - 1.0 / (1.0 + odds);
  usual_.chance = 1.0 / (1.0 + odds);
}

// How far a move goes: half of each deviate's standard deviation among the weighted members.
Deviates Ensemble::half_deviations() const {
  Deviates half{};
  for (std::size_t place = 0; place < half.size(); ++place) {
    double mean = 0.0, squares = 0.0;
    for (const Member& member : usual_.members) {
      mean += member.weight * member.z[place];
      squares += member.weight * member.z[place] * member.z[place];
    }
    half[place] = 0.5 * std::sqrt(std::max(0.0, squares - mean * mean));
  }
  return half;
}

Hypothesis Ensemble::refreshed(const std::vector<Reading>& readings) const {
  const std::size_t count = usual_.members.size();
  const Deviates half = half_deviations();
  numerics::Stream first(seed_, count, moving);
  const double offset = even(first);
  Hypothesis fresh{{}, usual_.chance};
  std::size_t from = 0;
  double reached = usual_.members[0].weight;
  for (std::size_t i = 0; i < count; ++i) {
    const double mark = (static_cast<double>(i) + offset) / static_cast<double>(count);
    while (reached < mark && from + 1 < count) reached += usual_.members[++from].weight;
    Member member = usual_.members[from];
    member.weight = 1.0 / static_cast<double>(count);
    double height = log_prior(member.z) + log_likelihood_of(member, readings);
    numerics::Stream stream(seed_, i, moving);
    for (int move = 0; move < moves; ++move) {
      Deviates z = member.z;
      for (std::size_t place = 0; place < z.size(); ++place)
        z[place] += half[place] * standard_normal(stream);
      Member moved = run(z, false);
      const double moved_height = log_prior(z) + log_likelihood_of(moved, readings);
      if (std::log(even(stream)) >= moved_height - height) continue;
      moved.weight = member.weight;
      member = std::move(moved);
      height = moved_height;
    }
    fresh.members.push_back(std::move(member));
  }
  return fresh;
}

}  // namespace wheyfield::fermentation
