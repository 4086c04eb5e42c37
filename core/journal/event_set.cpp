#include "journal/event_set.h"

#include <algorithm>

namespace wheyfield::journal {

EventSet::Added EventSet::add(Event event) {
  const EventId id = event.id;
  const auto [first, last] = events_.equal_range(id);
  const bool alone = first == last;
  const std::string head = alone ? std::string() : line_of(head_of(event));
  bool takes_a_body = false;
  for (auto at = first; at != last;) {
    Event& there = *at->second;
    if (line_of(head_of(there)) != head || !(there.blanked() || event.blanked())) {
      if (line_of(there) == line_of(event)) return Added::known;
      ++at;
    } else if (there.blanked()) {
      return Added::known;
    } else {
      takes_a_body = true;
      at = events_.erase(at);
    }
  }
  events_.emplace(id, std::make_unique<Event>(std::move(event)));
  ordered_ = false;
  if (events_.count(id) > 1)
    clashing_.insert(id);
  else
    clashing_.erase(id);
  if (takes_a_body) return Added::blanked;
  return alone ? Added::fresh : Added::clashes;
}

const std::vector<const Event*>& EventSet::in_order() const {
  if (ordered_) return order_;
  order_.clear();
  order_.reserve(events_.size());
  for (const auto& entry : events_) order_.push_back(entry.second.get());
  std::stable_sort(order_.begin(), order_.end(),
                   [](const Event* a, const Event* b) { return comes_before(*a, *b); });
  ordered_ = true;
  return order_;
}

std::vector<const Event*> EventSet::find(const EventId& id) const {
  const auto [first, last] = events_.equal_range(id);
  std::vector<const Event*> all;
  for (auto at = first; at != last; ++at) all.push_back(at->second.get());
  std::sort(all.begin(), all.end(),
            [](const Event* a, const Event* b) { return comes_before(*a, *b); });
  return all;
}

std::int64_t EventSet::last_counter(const std::string& device) const {
  const auto after = events_.upper_bound({device, std::int64_t{1} << 60});
  if (after == events_.begin()) return 0;
  const EventId& id = std::prev(after)->first;
  return id.device == device ? id.counter : 0;
}

}  // namespace wheyfield::journal
