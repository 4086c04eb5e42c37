#include "api/recorder.h"

#include <algorithm>

#include "journal/kinds.h"

namespace wheyfield::api {

using journal::Event;
using journal::EventId;
using journal::Stamp;

std::optional<Desk> read_desk(const FieldReader& r) {
  r.want("device");
  r.want("clock");
  const auto device = r.text("device");
  if (device && !journal::is_device_code(*device))
    r.add("device-code-unreadable", "device", *device);
  const auto clock = r.number("clock");
  if (clock && !(*clock >= 0.0 && *clock < 1e12))
    r.add("clock-unreadable", "clock", *r.text("clock"));
  if (!device || !clock) return std::nullopt;
  return Desk{*device, static_cast<std::int64_t>(*clock)};
}

nlohmann::json as_said(const nlohmann::json& body) {
  if (body.is_number()) return body.dump();
  if (!body.is_structured()) return body;
  nlohmann::json said = body;
  for (auto& inner : said) inner = as_said(inner);
  return said;
}

Recorder::Recorder(const Session& session, const Desk& desk)
    : session_(session),
      desk_(desk),
      clock_(desk.clock),
      counter_(session.events.last_counter(desk.device)) {
  for (const Event* event : session.events.in_order()) clock_.saw(event->at);
  for (const EventId& id : session.damaged)
    if (id.device == desk.device) counter_ = std::max(counter_, id.counter);
}

Stamp Recorder::floor_of(const Event& event) const {
  Stamp floor{-1, 0};
  const auto after = [&](const EventId& id) {
    for (const Event* other : session_.events.find(id)) floor = std::max(floor, other->at);
  };
  for (const EventId& id : event.replaces) after(id);
  for (const char* member : {"events", "takes", "leaves"}) {
    const auto list = event.body.find(member);
    if (list == event.body.end() || !list->is_array()) continue;
    for (const auto& text : *list)
      if (const auto id = journal::parse_event_id(text.is_string() ? text.get<std::string>() : ""))
        after(*id);
  }
  const journal::Kind* kind = journal::kinds().find(event.kind);
  const auto identity = kind == nullptr ? std::nullopt : journal::identity_of(*kind, event);
  const journal::Item* item = identity ? session_.facts.find(event.kind, *identity) : nullptr;
  if (item != nullptr)
    for (const Event* said : item->said) floor = std::max(floor, said->at);
  return floor;
}

void Recorder::note(const std::string& kind, nlohmann::json body, calendar::Date on,
                    std::vector<EventId> replaces) {
  Event event;
  event.id = {desk_.device, ++counter_};
  event.on = on;
  event.utc_offset_min = session_.offset_min;
  event.kind = kind;
  if (const journal::Kind* known = journal::kinds().find(kind)) event.version = known->version();
  event.replaces = std::move(replaces);
  event.body = std::move(body);
  event.at = clock_.next(floor_of(event));
  noted_.push_back(std::move(event));
}

Json event_json(const Event& event) { return Json::parse(journal::line_of(event)); }

Json Recorder::events() const {
  Json list = Json::array();
  for (const Event& event : noted_) list.push_back(event_json(event));
  return list;
}

}  // namespace wheyfield::api
