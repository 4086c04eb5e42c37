// What a use means for the picking of a crop that is eaten raw: how long it waits after serum on
// its leaves, and which fields get serum on soil that what is eaten touches.
#pragma once

#include <optional>
#include <vector>

#include "dosing/harvest.h"
#include "season/plan.h"

namespace wheyfield::season {

struct HarvestWait {
  calendar::Date pick_from;      // after a use on the last day of the window
  calendar::Date first_picking;  // as entered: set out + days to harvest
  calendar::Date use_by;         // a use up to this day keeps the first picking
  bool passes_picking() const { return pick_from > first_picking; }
};

// None where the use puts no serum on leaves that are eaten raw: no plants stand yet, the method
// reaches no leaves, or they are closed (dosing::placements; from the first picking on always).
std::optional<HarvestWait> harvest_wait(const Season& season, const FieldUse& use,
                                        const dosing::HarvestRule& rule);

// A field with serum on soil that what is eaten raw touches: no rule of this project tells a day to
// pick (dosing::earliest_harvest).
struct RawGround {
  std::size_t farm = 0;          // index into Season::farms
  std::size_t field = 0;         // index into Farm::fields
  calendar::Date until;          // last day of the last such use's window
  calendar::Date first_picking;  // as entered: set out + days to harvest
};

// Fields where land preparation or a use round the stem ends less than `manure_days` before the
// first picking, as a rule for raw manure counts (raw-manure-soil-days); by farm and field, each
// once.
std::vector<RawGround> raw_grounds(const Season& season, const std::vector<PlannedUse>& uses,
                                   int manure_days);

}  // namespace wheyfield::season
