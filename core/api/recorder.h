// Makes events of what is said: running number, stamp, day. The core keeps no clock, so the host
// hands in its device's code and what its clock says.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/field_reader.h"
#include "api/session.h"
#include "journal/clock.h"

namespace wheyfield::api {

// The members `device` (a code of 1 to 8 of A-Z 0-9) and `clock` (seconds since 1970) of a request
// that writes. Errors: missing-device, device-code-unreadable, missing-clock, clock-unreadable.
struct Desk {
  std::string device;
  std::int64_t clock = 0;
};
std::optional<Desk> read_desk(const FieldReader& r);

// A body as an event holds it: what was written, so numbers as their text.
nlohmann::json as_said(const nlohmann::json& body);

class Recorder {
 public:
  Recorder(const Session& session, const Desk& desk);

  // Adds one event: stamped after those it replaces or refers to, and after what was said last
  // about the same thing.
  void note(const std::string& kind, nlohmann::json body, calendar::Date on,
            std::vector<journal::EventId> replaces = {});

  // All that was noted, for the member `events` of an answer.
  Json events() const;
  const std::vector<journal::Event>& noted() const { return noted_; }

 private:
  journal::Stamp floor_of(const journal::Event& event) const;

  const Session& session_;
  Desk desk_;
  journal::Clock clock_;
  std::int64_t counter_;
  std::vector<journal::Event> noted_;
};

// One event as JSON, its members in the order of its line.
Json event_json(const journal::Event& event);

}  // namespace wheyfield::api
