// Many groups and a few trainers: which weekday each group meets, whom it meets, and when the lorry
// brings molasses.
//
// Groups share nothing but the trainers' days and the lorry, so each is planned by itself on every
// weekday (group_plan.h) and only then chosen among (weekdays.h). A group takes one visit a week.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "outcome/result.h"
#include "programme/group_plan.h"
#include "programme/lorry.h"
#include "programme/worth.h"
#include "quantity/money.h"
#include "quantity/quantity.h"

namespace wheyfield::programme {

constexpr std::size_t days_a_week = 7;

inline std::size_t day_index(calendar::Weekday day) { return static_cast<std::size_t>(day) - 1; }
inline calendar::Weekday weekday_at(std::size_t index) {
  return static_cast<calendar::Weekday>(index + 1);
}

struct Trainer {
  std::string name;
  std::vector<calendar::Weekday> days;  // without repeats
  std::size_t visits_a_day = 0;
  bool works_on(calendar::Weekday day) const;
};

// A group that cannot move.
struct FixedDay {
  std::string group;
  calendar::Weekday day = calendar::Weekday::monday;
};

struct LorryOffer {
  Lorry terms;  // its days come from the rest
  quantity::Volume can;
  std::optional<calendar::Weekday> weekday;
  std::vector<calendar::Date> on;
  std::optional<calendar::Date> from;  // none: from the first day of the earliest season on
  std::optional<calendar::Date> until;
};

struct Programme {
  std::string name;
  quantity::Money worth_moving;  // a group moves only where that saves more than this
  std::vector<Trainer> trainers;
  std::vector<FixedDay> fixed;
  std::optional<LorryOffer> lorry;

  std::array<std::size_t, days_a_week> visits() const;  // from Monday on
  std::size_t visits_a_week() const;
  const FixedDay* fixed_day(const std::string& group) const;
};

// A group with its plans.
struct GroupPlans {
  std::string group;   // its name in the programme
  std::string season;  // the name of its season
  std::string currency;
  calendar::Date from;
  calendar::Date to;
  calendar::Date first_start;
  std::size_t farms = 0;
  std::size_t fields = 0;
  double acres = 0.0;
  calendar::Weekday now = calendar::Weekday::monday;
  std::vector<DayPlan> days;  // the day it meets on now, and those on which a trainer works
  bool with_solver = false;   // what was left open went to the exact solver

  const DayPlan* on(calendar::Weekday day) const;
};

struct PlacedGroup {
  calendar::Weekday day = calendar::Weekday::monday;
  std::size_t trainer = 0;
  bool fixed = false;
};

// How near to the best the plans behind the choice are proven, over all groups and days.
struct Proof {
  std::size_t plans = 0;
  std::size_t least_short = 0;   // proven that nothing can be left less short
  std::size_t best = 0;          // proven best
  std::size_t within_tenth = 0;  // within 0.1 %
  std::size_t within_half = 0;   // within 0.5 %
  double worst_gap = 0.0;        // of those proven least short
  // With the solver only.
  struct Solver {
    std::size_t handed_over = 0;
    std::size_t better = 0;  // of them: the plan became better
    std::size_t near = 0;    // of them: now proven least short and within 0.1 %
  };
  std::optional<Solver> solver = {};
};

struct ProgrammePlan {
  std::vector<PlacedGroup> groups;  // as handed in
  Worth now;
  Worth proposed;
  Worth own_best;  // as if visits never ran out
  Proof proof;
  std::vector<Can> cans;  // by the proposed days; none without a lorry
  std::optional<Deliveries> deliveries;
  std::vector<calendar::Date> outside;  // days of the lorry that lie in no season: left out
};

// Whether trainers and fixed days fit these groups. Errors, with pointers under /programme:
//   programme-without-groups; trainers missing is left to the reader
//   fixed-group-unknown (suggestion), fixed-group-twice
//   fixed-day-without-trainer (group, day, known: the days on which one works)
//   fixed-day-full (day, groups, visits, n: so many too many)
//   visits-too-few (groups, visits, n)
outcome::Problems check_visits(const Programme& programme, const std::vector<std::string>& groups);

// Errors: those of `check_visits`; group-day-missing (a group without a plan for any day it could
// meet on, or for its own).
outcome::Result<ProgrammePlan> plan_programme(const Programme& programme,
                                              const std::vector<GroupPlans>& groups);

}  // namespace wheyfield::programme
