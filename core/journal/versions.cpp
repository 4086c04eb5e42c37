#include "journal/versions.h"

#include <algorithm>
#include <set>

namespace wheyfield::journal {

std::vector<EventId> versions_of(const EventSet& events, const std::vector<EventId>& ids) {
  std::set<EventId> all(ids.begin(), ids.end());
  const auto known = [&](const EventId& id) { return all.count(id) != 0; };
  for (std::size_t before = 0; before != all.size();) {
    before = all.size();
    for (const Event* event : events.in_order()) {
      const std::vector<EventId>& replaced = event->replaces;
      if (replaced.empty()) continue;
      if (std::any_of(replaced.begin(), replaced.end(), known)) all.insert(event->id);
      if (known(event->id)) all.insert(replaced.begin(), replaced.end());
    }
  }
  return {all.begin(), all.end()};
}

}  // namespace wheyfield::journal
