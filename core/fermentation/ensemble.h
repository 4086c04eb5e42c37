// When will it be sour, and has it failed? Many batches drawn from the table's spreads, each run
// once; readings then weigh them (importance sampling).
//
// Two hypotheses stand side by side: usual batches, and failing ones in which the bacteria work at
// no more than a quarter of their speed, failure-share of all batches before anything is read. The
// hours are those of the usual ones; beside them stands the chance that the batch is failing.
// The window is what may be shown; the numbers of a member may not, for readings do not tell them
// apart. Member i of a seed is the same however many there are.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "fermentation/priors.h"
#include "fermentation/reading.h"

namespace wheyfield::fermentation {

class PlaceSpeed;

struct Member {
  Deviates z{};
  std::vector<double> ph;       // at 0, 1, 2 .. hours
  std::vector<double> celsius;  // of the bucket, the same hours
  double weight = 0.0;          // within its hypothesis; they add up to 1
};

struct Hypothesis {
  std::vector<Member> members;
  double chance = 0.0;  // of the hypothesis

  // 1 / sum of squared weights: how many members still count.
  double effective() const;
};

// Hours by which so many of the batches are at or below a pH; none: not within the horizon.
struct HourWindow {
  std::optional<double> early;   // 10 %
  std::optional<double> likely;  // 50 %
  std::optional<double> late;    // 90 %
};
HourWindow hours_to(const Hypothesis& batches, double ph);
// Of one of them, on a straight line between hours.
std::optional<double> hours_to(const Member& member, double ph);
// Hours by which a share of the batches, 0 < share < 1, is at or below `ph`.
std::optional<double> hours_by(const Hypothesis& batches, double ph, double share);

// Share of the batches at or below `ph` by `hours`.
double share_by(const Hypothesis& batches, double ph, double hours);

class Ensemble {
 public:
  static constexpr std::uint32_t usual_members = 2000;
  static constexpr double enough = 100.0;  // effective members below which to ask for `refreshed`

  // `members` >= 4: so many usual batches, and a quarter as many failing ones.
  Ensemble(const ParameterTable& table, const Setting& setting, std::uint64_t seed,
           std::uint32_t members = usual_members);

  const Hypothesis& usual() const { return usual_; }
  const Hypothesis& failing() const { return failing_; }

  // Weighs all members by all readings of the batch so far, in any order; what was learned before
  // is replaced. Readings after the horizon count at its end. Without readings: equal weights, or
  // those of the place it stands at (place_speed.h; null: nothing is known of it).
  void learn(const std::vector<Reading>& readings, const PlaceSpeed* place = nullptr);

  // For few effective members, after `learn` with the same readings and place: a quarter as many
  // usual batches brought from the prior to the readings step by step (tempering.h), with two
  // Metropolis moves a step. Equal weights. Its `chance` stands instead of that of `usual`.
  Hypothesis refreshed(const std::vector<Reading>& readings,
                       const PlaceSpeed* place = nullptr) const;
  // `refreshed` where fewer than `enough` members count, else `usual`.
  Hypothesis told(const std::vector<Reading>& readings, const PlaceSpeed* place = nullptr) const;

 private:
  Member run(const Deviates& z, bool failing, double hours) const;
  double last_hour(const std::vector<Reading>& readings) const;
  double log_likelihood_of(const Member& member, const std::vector<Reading>& readings) const;
  double failing_odds(double usual_evidence) const;
  void move_all(std::vector<Member>& members, std::vector<double>& heights,
                const std::vector<Reading>& readings, const PlaceSpeed* place, double power,
                std::uint64_t turn) const;

  ParameterTable table_;
  ReadingErrors errors_;
  Setting setting_;
  std::uint64_t seed_;
  Hypothesis usual_;
  Hypothesis failing_;
  double failing_evidence_ = 0.0;  // logarithm
};

}  // namespace wheyfield::fermentation
