// The log of a heap: what was read and turned day by day, held against rules that name degrees,
// days and turnings. It says met, not met, or cannot be said; it never says that a heap is free of
// anything, and no temperature is foretold.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::compost {

struct HeapDay {
  calendar::Date date;
  std::optional<double> celsius;  // in the middle of the heap
  bool turned = false;
  std::optional<double> height;  // [m]
};

// One row for each day that was noted, dates rising, none before `built`.
struct HeapLog {
  calendar::Date built;  // day 0
  std::vector<HeapDay> days;

  calendar::Date last() const { return days.empty() ? built : days.back().date; }
  int day_of(calendar::Date date) const { return date - built; }
  // Days from the first after building to the last noted one on which nobody read degrees.
  std::vector<calendar::Date> unread() const;
  int turnings() const;
  // Part of the first height that the last one lacks; none without two heights.
  std::optional<double> shrinkage() const;
};

// A row of data/heat_rules.toml.
struct HeatRule {
  std::string id;
  double celsius = 0.0;  // [C] at the least
  bool above = false;    // more than `celsius`, not equal
  std::optional<double> celsius_most;
  int days = 0;
  int turnings = 0;
  std::optional<double> ratio_low;  // of the mix as it was built, C:N
  std::optional<double> ratio_high;
  reference_data::Origin origin;
};
// Reads the section "heat_rules". Errors: data-missing.
outcome::Result<std::vector<HeatRule>> read_heat_rules(const reference_data::ReferenceData& data);

enum class Verdict { met, not_met, cannot_say };

struct RuleVerdict {
  Verdict verdict = Verdict::cannot_say;
  int days = 0;         // on which it was warm enough
  int longest_run = 0;  // of such days in a row
  int turnings = 0;     // from the first to the last such day
  // Days without a reading that could still make it met. Only of cannot_say.
  std::vector<calendar::Date> open;
  bool ratio_unknown = false;  // the rule asks for the first C:N and nobody gave it
  bool ratio_outside = false;
};
// ratio: C:N of the mix as it was built.
RuleVerdict judge(const HeatRule& rule, const HeapLog& log, std::optional<double> ratio);

// Days that sludge of 7 % solids or more has to be held at `celsius`: factor / 10^(slope celsius)
// (rows heat-time-days and heat-time-slope; holds from 50 C and 20 minutes on).
double days_at(double celsius, double factor, double slope);

// Part of the dry matter that went, from the ash of the first and of the last sample [% of dry
// weight]: 1 - a0 (100 - a1) / [a1 (100 - a0)]. Precondition: 0 < ash_first <= ash_last < 100.
double dry_matter_lost(double ash_first, double ash_last);

}  // namespace wheyfield::compost
