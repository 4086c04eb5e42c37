// One thing that happened, as it was written down. Grammar and a worked example:
// docs/formats/journal.md. Events are values; nothing here looks at what they mean.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include <nlohmann/json.hpp>

#include "calendar/date.h"
#include "outcome/result.h"

namespace wheyfield::journal {

// The device that wrote the event, and its running number there, from 1.
struct EventId {
  std::string device;
  std::int64_t counter = 0;

  std::string text() const;  // "KOBO-12"
  friend bool operator==(const EventId& a, const EventId& b) {
    return a.counter == b.counter && a.device == b.device;
  }
  friend bool operator<(const EventId& a, const EventId& b) {
    return a.device != b.device ? a.device < b.device : a.counter < b.counter;
  }
};

// "KOBO-12". Error: event-id-unreadable.
outcome::Result<EventId> parse_event_id(std::string_view text);

// True for 1 to 8 of A-Z 0-9.
bool is_device_code(std::string_view text);

// The largest count within one second.
constexpr std::int32_t largest_count = 1 << 20;

// Of the hybrid logical clock: whole seconds since 1970-01-01T00:00Z, and a count within one
// second.
struct Stamp {
  std::int64_t seconds = 0;
  std::int32_t count = 0;

  friend bool operator==(Stamp a, Stamp b) { return a.seconds == b.seconds && a.count == b.count; }
  friend bool operator<(Stamp a, Stamp b) {
    return a.seconds != b.seconds ? a.seconds < b.seconds : a.count < b.count;
  }
};

// NOLINTNEXTLINE(bugprone-exception-escape): moving a JSON value does not throw
struct Event {
  EventId id;
  Stamp at;
  calendar::Date on;       // the civil day, as the person said it
  int utc_offset_min = 0;  // of the device, -720 to 840
  std::string kind;
  int version = 1;
  std::vector<EventId> replaces;  // those of the same kind that this one corrects
  nlohmann::json body;            // an object; null = blanked

  bool blanked() const { return body.is_null(); }
};

// The one order of events: by stamp, device, counter; of two that share an id, by their text.
bool comes_before(const Event& a, const Event& b);

// The event's one line, without a line end. parse_event gives the same event back, and of what
// parse_event accepts, the same bytes but for blanks and the order of members.
std::string line_of(const Event& event);

// The event without its body: what stays when it is blanked.
Event head_of(Event event);

// Errors, with the member in `field`: json-unreadable, event-not-object, event-member-unknown
// (details: member), event-member-missing, event-id-unreadable, event-stamp-unreadable, those of
// parse_date, event-offset-out-of-range, event-kind-unreadable, event-version-unreadable,
// event-body-not-object, event-number-not-whole (a fraction, or beyond 2^53: its pointer in
// `field`), event-too-deep (more than 16 levels).
outcome::Result<Event> parse_event(std::string_view line);
outcome::Result<Event> event_of(nlohmann::json object);
// Else JSON would pass for text.
template <class Json, std::enable_if_t<std::is_same_v<std::decay_t<Json>, nlohmann::json>, int> = 0>
outcome::Result<Event> parse_event(Json&&) = delete;

}  // namespace wheyfield::journal
