// All events that are known, each once: the union of what came in, in whatever order, number of
// copies and parts.
#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "journal/event.h"

namespace wheyfield::journal {

class EventSet {
 public:
  enum class Added {
    fresh,    // was not known
    known,    // nothing changed
    clashes,  // another event has this id: both are kept
    blanked   // came without its body, and took the body of the one that was here
  };

  // Of events that are alike but for their bodies, one without a body takes the body of the other,
  // whichever came first. So add(head_of(event)) blanks an event.
  Added add(Event event);

  // In order; valid until the set changes.
  const std::vector<const Event*>& in_order() const;
  // All events with this id: one, but for two devices with one code.
  std::vector<const Event*> find(const EventId& id) const;
  // Ids that several events share.
  const std::set<EventId>& clashing() const { return clashing_; }
  // The highest counter of a device, 0 when it wrote nothing.
  std::int64_t last_counter(const std::string& device) const;
  std::size_t size() const { return events_.size(); }

 private:
  std::multimap<EventId, std::unique_ptr<Event>> events_;
  std::set<EventId> clashing_;
  mutable std::vector<const Event*> order_;
  mutable bool ordered_ = true;
};

}  // namespace wheyfield::journal
