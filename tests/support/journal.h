// Devices that write events, for tests of the journal.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "journal/clock.h"
#include "journal/event_set.h"
#include "journal/fold.h"

namespace wheyfield::testing {

// 7 March 2027, 6:00 UTC.
constexpr std::int64_t morning_s = 1804399200;

// Writes as a host does: running numbers, stamps of its clock over all that it has seen.
class Device {
 public:
  explicit Device(std::string code, std::int64_t now = morning_s)
      : code_(std::move(code)), now_(now) {}

  void at(std::int64_t now) { now_ = now; }
  void later(std::int64_t seconds) { now_ += seconds; }

  const journal::Event& note(const std::string& kind, nlohmann::json body,
                             const std::string& on = "2027-03-07",
                             std::vector<journal::EventId> replaces = {}) {
    journal::Clock clock(now_);
    for (const journal::Event* event : set_.in_order()) clock.saw(event->at);
    journal::Event event;
    event.id = {code_, set_.last_counter(code_) + 1};
    event.at = clock.next(latest_of(referred(body, replaces)));
    event.on = *calendar::parse_date(on);
    event.utc_offset_min = 180;
    event.kind = kind;
    event.replaces = std::move(replaces);
    event.body = std::move(body);
    const journal::EventId id = event.id;
    set_.add(std::move(event));
    return *set_.find(id).front();
  }
  const journal::Event& strike(const std::vector<journal::EventId>& ids) {
    return note("strike", {{"events", texts(ids)}, {"why", "mistaken"}});
  }
  const journal::Event& choose(const std::string& question,
                               const std::vector<journal::EventId>& takes,
                               const std::vector<journal::EventId>& leaves) {
    return note("choice",
                {{"question", question}, {"takes", texts(takes)}, {"leaves", texts(leaves)}});
  }

  // Takes in all that the other has.
  void take(const Device& other) {
    for (const journal::Event* event : other.set_.in_order()) set_.add(*event);
  }
  journal::EventSet& set() { return set_; }
  journal::Facts facts() const { return journal::fold(set_, {0.3}); }

 private:
  static std::vector<std::string> texts(const std::vector<journal::EventId>& ids) {
    std::vector<std::string> all;
    for (const journal::EventId& id : ids) all.push_back(id.text());
    return all;
  }
  static std::vector<journal::EventId> referred(const nlohmann::json& body,
                                                std::vector<journal::EventId> ids) {
    for (const char* member : {"events", "takes", "leaves"})
      if (body.contains(member))
        for (const nlohmann::json& id : body[member])
          ids.push_back(*journal::parse_event_id(id.get<std::string>()));
    return ids;
  }
  journal::Stamp latest_of(const std::vector<journal::EventId>& ids) const {
    journal::Stamp latest{-1, 0};
    for (const journal::EventId& id : ids)
      for (const journal::Event* event : set_.find(id)) latest = std::max(latest, event->at);
    return latest;
  }

  std::string code_;
  std::int64_t now_;
  journal::EventSet set_;
};

// "weights-differ/22-with/1" and so on.
inline std::vector<std::string> questions(const journal::Facts& facts) {
  std::vector<std::string> names;
  for (const journal::Question& question : facts.questions) names.push_back(question.name());
  return names;
}

}  // namespace wheyfield::testing
