// Ready, late or lost: what the looks at one batch say against its outlook, and when to look again.
//
// The serum of a batch may be used when it was at or below the pH of its scale twice, or once with
// curd set and liquid clear; once is enough for strips with steps of 0.3 and for a meter. Rows
// use-half-strip, use-third-strip, use-meter: a printed 4.0 of a half-unit strip was truly at or
// below 4.2 in 93 of 100 batches of the model, a 4.5 in 64. Not a word about safety.
//
// Late: past the hour by which nine of ten usual batches have set, and not seen set. Probably lost:
// past the hour of lost-share of them while what was seen makes failing no less likely than it was,
// or late while failing is likelier than not. Before, nothing is called failed. A sign that the
// model does not know goes before all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fermentation/look.h"
#include "fermentation/outlook.h"

namespace wheyfield::fermentation {

enum class Standing {
  young,          // nothing can be seen yet
  due,            // may have set: look
  set,            // curd, not yet sour enough to be used
  usable,         // sour enough, by the rule above
  soil_only,      // set, clear and past the hours of ready-ph, and nobody read a pH
  late,           // should have set
  probably_lost,  // should have long set
  lost            // a sign says so
};

struct UseRule {
  explicit UseRule(const ParameterTable& table);
  double half_strip, third_strip, meter;  // pH read, at or below
  double curd;                            // pH read that counts as set where nobody looked
  double acid;                            // pH read from which gas is no longer before the acid
  double failure_share;                   // of batches of which nothing was seen
  double rise_once, rise_twice;           // above the lowest pH read before
};

// The signs that looks show, by their ids in data/quality.toml, each once: smells and surfaces as
// they were said, and
//   gas-before-acid  gas while neither curd nor a pH of `acid` was seen
//   milky            the liquid at the last look
//   ph-rising        a pH read rise_once above the lowest before, or two in a row by rise_twice
// Precondition: hours rise.
std::vector<std::string> signs_of(const std::vector<Look>& looks, const UseRule& rule);

// By the rule above.
bool may_be_used(const std::vector<Look>& looks, const UseRule& rule);

// "not-set-late" and "not-set-lost": what standing late is as a sign; "" for others.
const char* sign_of(Standing standing);

// `now` [h] since it began, `discarded`: one of its signs says throw away.
Standing judge(const std::vector<Look>& looks, const Outlook& outlook, double now,
               const UseRule& rule, bool discarded);

// Hours since it began at which a look tells most: the median of setting, then a third of the
// window later, then the same for the pH it can be used at; never before `now`. None: nothing is
// left to be seen, or not within the horizon.
std::optional<double> next_look(Standing standing, const Outlook& outlook, double now);

}  // namespace wheyfield::fermentation
