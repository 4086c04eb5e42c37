// How long the picking of a crop that is eaten raw waits for a use on its leaves.
#pragma once

#include <optional>

#include "dosing/harvest.h"
#include "season/demand.h"

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

}  // namespace wheyfield::season
