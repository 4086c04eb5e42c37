// One fact as it was written and corrected: notes that replace one another.
#pragma once

#include <vector>

#include "journal/event_set.h"

namespace wheyfield::journal {

// These events, all that they replace and all that is known to replace any of them. Ids that are
// not known are kept. In the order of ids.
std::vector<EventId> versions_of(const EventSet& events, const std::vector<EventId>& ids);

}  // namespace wheyfield::journal
