// What can be told of one batch: when it sets and is sour, how sour it should be hour by hour, and
// how likely it is failing. Shown as windows; the numbers of single members never leave this room.
#pragma once

#include <optional>
#include <vector>

#include "fermentation/ensemble.h"

namespace wheyfield::fermentation {

// pH that 10, 50 and 90 % of the batches are at or below, an hour each from 0 on, in steps of 0.01:
// of the usual ones, and of failing ones where that is the likelier.
struct PhBand {
  double hours;
  double low;
  double likely;
  double high;
};

struct Outlook {
  double curd_ph = 0.0;        // row curd-ph
  double ready_ph = 0.0;       // row ready-ph
  HourWindow set;              // hours to curd-ph
  HourWindow ready;            // hours to ready-ph
  HourWindow sour;             // hours to sour-ph
  HourWindow set_at_first;     // hours to curd-ph before any reading of its own
  std::optional<double> gone;  // the same, by which a share of lost-share would be
  double failing = 0.0;        // chance, after the readings
  std::vector<PhBand> band;    // after the readings
};

// Learns `readings` in `batch` and tells; draws the members anew where too few still count. Hours
// and band leave out members that had set by a look that says it has not: the readings' floor of
// mistakes keeps those alive, and what lies behind need not be told.
Outlook outlook(Ensemble& batch, const ParameterTable& table, const std::vector<Reading>& readings,
                const PlaceSpeed* place = nullptr);

}  // namespace wheyfield::fermentation
