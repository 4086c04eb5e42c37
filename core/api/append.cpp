#include "api/append.h"

#include <algorithm>
#include <set>

#include "api/recorder.h"
#include "group/questions.h"

namespace wheyfield::api {

using journal::Event;
using journal::EventId;
using journal::EventSet;
using nlohmann::json;
using outcome::failure;
using outcome::Result;

namespace {

// Is there an event with this id that was written so?
bool stands_as(const EventSet& events, const EventId& id, const std::string& line) {
  const auto found = events.find(id);
  return std::any_of(found.begin(), found.end(),
                     [&](const Event* event) { return journal::line_of(*event) == line; });
}

Result<std::set<EventId>> damaged_in(const json& request) {
  std::set<EventId> ids;
  const auto list = request.find("damaged");
  if (list == request.end()) return ids;
  if (!list->is_array()) return failure({"wrong-shape", "/damaged", "", {{"shape", "list"}}});
  for (const json& text : *list) {
    auto id = journal::parse_event_id(text.is_string() ? text.get<std::string>() : text.dump());
    if (!id) return failure(outcome::under("/damaged", std::move(id.error())));
    ids.insert(std::move(*id));
  }
  return ids;
}

}  // namespace

Result<std::vector<Event>> read_events(const json& request) {
  const auto list = request.find("events");
  if (list == request.end() || !list->is_array())
    return failure({"wrong-shape", "/events", "", {{"shape", "list"}}});
  std::vector<Event> events;
  outcome::Problems problems;
  for (std::size_t i = 0; i < list->size(); ++i) {
    auto event = journal::event_of((*list)[i]);
    if (event)
      events.push_back(std::move(*event));
    else
      outcome::append(problems,
                      outcome::under("/events/" + std::to_string(i), std::move(event.error())));
  }
  if (!problems.empty()) return failure(std::move(problems));
  return events;
}

journal::Facts facts_of(const EventSet& events, const reference_data::ReferenceData& data) {
  return group::with_questions(journal::fold(events, {data.constant("readings-apart").value}),
                               data.units());
}

std::vector<Event> would_blank(const Session& session, const std::vector<Event>& events) {
  EventSet all;
  for (const Event* event : session.events.in_order()) all.add(*event);
  for (const Event& event : events) all.add(event);
  return facts_of(all, session.data).to_blank;
}

Result<Answer> append_events(Session& session, const json& request) {
  auto events = read_events(request);
  if (!events) return failure(events.error());
  auto damaged = damaged_in(request);
  if (!damaged) return failure(damaged.error());
  session.damaged.merge(*damaged);
  std::map<EventSet::Added, int> count;
  std::set<EventId> blank;
  for (Event& event : *events) {
    const EventId id = event.id;
    const std::string line = journal::line_of(event);
    const EventSet::Added added = session.events.add(std::move(event));
    ++count[added];
    if (added == EventSet::Added::blanked || !stands_as(session.events, id, line)) blank.insert(id);
  }
  for (auto id = session.damaged.begin(); id != session.damaged.end();)
    id = session.events.find(*id).empty() ? std::next(id) : session.damaged.erase(id);
  session.facts = facts_of(session.events, session.data);
  const std::vector<Event> to_blank = session.facts.to_blank;
  for (const Event& head : to_blank) {
    blank.insert(head.id);
    session.events.add(head);
  }
  if (!to_blank.empty()) session.facts = facts_of(session.events, session.data);
  Answer answer;
  answer.fields["added"] = count[EventSet::Added::fresh] + count[EventSet::Added::clashes];
  answer.fields["known"] = count[EventSet::Added::known] + count[EventSet::Added::blanked];
  answer.fields["clashes"] = count[EventSet::Added::clashes];
  answer.fields["blank"] = Json::array();
  for (const EventId& id : blank)
    for (const Event* event : session.events.find(id))
      answer.fields["blank"].push_back(event_json(*event));
  return answer;
}

}  // namespace wheyfield::api
