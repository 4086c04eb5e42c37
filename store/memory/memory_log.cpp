#include "store/memory/memory_log.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <utility>

namespace wheyfield::store {

using journal::EventId;
using journal::LogEntry;
using outcome::Result;

class MemoryShelf {
 public:
  // None when `numbered` and an id is there with another line: that id is in `taken`.
  std::optional<std::size_t> append(const std::vector<LogEntry>& entries, bool numbered,
                                    EventId& taken) {
    const std::lock_guard<std::mutex> held(mutex_);
    for (const LogEntry& entry : entries)
      if (numbered && places_.count(entry.id) > 0 && !holds(entry)) {
        taken = entry.id;
        return std::nullopt;
      }
    std::size_t added = 0;
    for (const LogEntry& entry : entries) {
      if (holds(entry)) continue;
      places_[entry.id].push_back(entries_.size());
      entries_.push_back(entry);
      ++added;
    }
    return added;
  }

  std::vector<LogEntry> read() {
    const std::lock_guard<std::mutex> held(mutex_);
    return entries_;
  }

  void blank(const std::vector<LogEntry>& entries) {
    const std::lock_guard<std::mutex> held(mutex_);
    std::set<EventId> there;  // ids of which one line has been put
    for (const LogEntry& entry : entries) {
      const auto found = places_.find(entry.id);
      if (found == places_.end()) continue;
      if (!there.insert(entry.id).second) {
        found->second.push_back(entries_.size());
        entries_.push_back(entry);
        continue;
      }
      entries_[found->second.front()].line = entry.line;
      drop_all_but_first(entry.id);
    }
  }

 private:
  bool holds(const LogEntry& entry) const {
    const auto found = places_.find(entry.id);
    return found != places_.end() &&
           std::any_of(found->second.begin(), found->second.end(),
                       [&](std::size_t place) { return entries_[place].line == entry.line; });
  }

  void drop_all_but_first(const EventId& id) {
    if (places_[id].size() == 1) return;
    std::vector<LogEntry> kept;
    bool first = true;
    for (LogEntry& entry : entries_) {
      if (entry.id == id && !std::exchange(first, false)) continue;
      kept.push_back(std::move(entry));
    }
    entries_ = std::move(kept);
    places_.clear();
    for (std::size_t place = 0; place < entries_.size(); ++place)
      places_[entries_[place].id].push_back(place);
  }

  std::mutex mutex_;
  std::vector<LogEntry> entries_;  // by arrival
  std::map<EventId, std::vector<std::size_t>> places_;
};

namespace {

class MemoryLog : public journal::EventLog {
 public:
  explicit MemoryLog(std::shared_ptr<MemoryShelf> shelf) : shelf_(std::move(shelf)) {}

  Result<std::size_t> append(const std::vector<LogEntry>& entries) override {
    EventId taken;
    return *shelf_->append(entries, false, taken);
  }
  Result<std::size_t> append_numbered(const std::vector<LogEntry>& entries) override {
    EventId taken;
    if (const auto added = shelf_->append(entries, true, taken)) return *added;
    return outcome::failure({"store-id-taken", "", taken.text(), {}});
  }
  Result<journal::Kept> read() override { return journal::Kept{shelf_->read(), {}}; }
  Result<void> blank(const std::vector<LogEntry>& entries) override {
    shelf_->blank(entries);
    return {};
  }
  Result<void> verify() override { return {}; }

 private:
  std::shared_ptr<MemoryShelf> shelf_;
};

}  // namespace

std::shared_ptr<MemoryShelf> make_memory_shelf() { return std::make_shared<MemoryShelf>(); }

std::unique_ptr<journal::EventLog> open_memory_log(std::shared_ptr<MemoryShelf> shelf) {
  return std::make_unique<MemoryLog>(std::move(shelf));
}

}  // namespace wheyfield::store
