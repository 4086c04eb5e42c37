#include "journal/event_set.h"

#include <algorithm>

namespace wheyfield::journal {

EventSet::Added EventSet::add(Event event) {
  const EventId id = event.id;
  const auto [first, last] = events_.equal_range(id);
  bool gone = false;
  for (auto at = first; at != last; ++at) gone = gone || at->second->blanked();
  if (gone) event.body = nullptr;
  const bool takes_bodies = event.blanked() && !gone && first != last;
  if (takes_bodies) blank(id);
  const auto [from, to] = events_.equal_range(id);
  const bool there = std::any_of(
      from, to, [&](const auto& entry) { return line_of(*entry.second) == line_of(event); });
  const bool alone = from == to;
  if (!there) {
    events_.emplace(id, std::make_unique<Event>(std::move(event)));
    ordered_ = false;
    if (!alone) clashing_.insert(id);
  }
  if (takes_bodies) return Added::blanked;
  if (there) return Added::known;
  return alone ? Added::fresh : Added::clashes;
}

void EventSet::blank(const EventId& id) {
  const auto [first, last] = events_.equal_range(id);
  std::set<std::string> lines;
  for (auto at = first; at != last;) {
    at->second->body = nullptr;
    const bool again = !lines.insert(line_of(*at->second)).second;
    at = again ? events_.erase(at) : std::next(at);
    ordered_ = ordered_ && !again;
  }
  if (events_.count(id) < 2) clashing_.erase(id);
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
