// Have the rains begun, or did one storm only look like it? Onset by a stated rule
// (data/onset.toml).
//
//   spell        onset = the first wet day that ends `within_days` days with `amount` mm or more;
//                `dry_days_fail` days in a row drier than `wet_day` in the `watch_days` after it
//                make it a false start, and the search goes on the next day
//   dekad        onset = the first day of a dekad (1-10, 11-20, 21 to the month's end) with
//                `amount` mm, when the next two have `next` mm each, or together
//   accumulated  onset = the day on which `amount` mm have fallen since the earliest day
// Rain before the earliest day does not count.
//
// Nobody knows the next thirty days: until they have passed, and the rule has not yet failed, the
// answer is provisional. An onset does not say that the soil is moist: feel it 15 to 20 cm down.
#pragma once

#include <string>
#include <vector>

#include "reference_data/reference_data.h"
#include "weather/rain.h"

namespace wheyfield::weather {

struct OnsetRule {
  enum class Shape { spell, dekad, accumulated };
  std::string id;  // its plain words are onset.<id> in the catalogue
  Shape shape = Shape::spell;
  double amount = 0;          // [mm]
  int within_days = 0;        // spell
  int dry_days_fail = 0;      // spell
  int watch_days = 0;         // spell
  double wet_day = 0;         // spell [mm]
  double next = 0;            // dekad [mm]
  bool next_is_each = false;  // dekad: in each of the next two; else in both together
  reference_data::Origin origin;
};

// The section "onset". Errors: data-missing, data-range.
outcome::Result<std::vector<OnsetRule>> read_onset_rules(const reference_data::ReferenceData& data);

// nullptr when unknown.
const OnsetRule* find_onset_rule(const std::vector<OnsetRule>& rules, const std::string& id);

struct Onset {
  enum class State {
    onset,        // the rule holds
    provisional,  // begun, but the days to watch have not all passed
    false_start,  // begun and failed, not begun again
    none          // not begun
  };
  State state = State::none;
  calendar::Date day;       // of the onset, or of the last false start; no meaning when none
  calendar::Date watch_to;  // the day on which it is settled
  int longest_dry_run = 0;  // [days] in the watched days seen so far; spell only
  std::vector<calendar::Date> false_starts;  // before `day`, and `day` itself when false
};

// Error: earliest-outside-rain (field "/earliest", {first}, {last}) when the earliest day is not a
// day of the series.
outcome::Result<Onset> onset_of_rains(const RainSeries& rain, const OnsetRule& rule,
                                      calendar::Date earliest);

}  // namespace wheyfield::weather
