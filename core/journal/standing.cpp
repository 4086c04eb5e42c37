#include "journal/standing.h"

#include <algorithm>
#include <optional>

namespace wheyfield::journal {
namespace {

using nlohmann::json;
using Ids = std::vector<EventId>;

// The ids in a member of an act's body; nothing when it is no list of ids.
std::optional<Ids> ids_in(const json& body, const char* member) {
  const auto list = body.find(member);
  if (list == body.end() || !list->is_array()) return std::nullopt;
  Ids ids;
  for (const json& one : *list) {
    auto id = parse_event_id(one.is_string() ? one.get<std::string>() : "");
    if (!id) return std::nullopt;
    ids.push_back(std::move(*id));
  }
  return ids;
}

bool holds(const Ids& ids, const EventId& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

std::string text_in(const json& body, const std::string& member) {
  const auto value = body.find(member);
  return value != body.end() && value->is_string() ? value->get<std::string>() : std::string();
}

Standing::Standing(const EventSet& events, const std::vector<ReadEvent>& read,
                   const std::vector<ReadEvent>& newer)
    : events_(events), read_(read) {
  strikes_and_choices();
  lost_devices();
  corrections();
  forget(newer);
}

// The latest first: an act that was taken away itself takes nothing away.
void Standing::strikes_and_choices() {
  for (auto one = read_.rbegin(); one != read_.rend(); ++one) {
    const Event& act = *one->event;
    const bool strike = act.kind == "strike";
    if ((!strike && act.kind != "choice") || gone_.count(act.id) != 0) continue;
    const auto out = ids_in(act.body, strike ? "events" : "leaves");
    const auto kept = strike ? Ids() : ids_in(act.body, "takes");
    if (!out || !kept) {
      unreadable_.push_back(&act);
      continue;
    }
    take_away(*out, act);
    if (!strike) choices_.push_back({text_in(act.body, "question"), *kept, *out});
  }
}

void Standing::take_away(const Ids& ids, const Event& act) {
  for (const EventId& id : ids)
    for (const Event* event : events_.find(id))
      if (comes_before(*event, act)) gone_.insert(id);
}

void Standing::lost_devices() {
  for (const ReadEvent& one : read_) {
    if (one.event->kind != "device-lost" || !counts(*one.event)) continue;
    const auto last = one.event->body.find("last");
    if (last == one.event->body.end() || !last->is_number_integer()) {
      unreadable_.push_back(one.event);
      continue;
    }
    const auto counter = last->get<std::int64_t>();
    const auto [known, first] = last_of_lost_.emplace(text_in(one.event->body, "device"), counter);
    if (!first) known->second = std::min(known->second, counter);
  }
  if (!last_of_lost_.empty()) hold_aside();
}

void Standing::hold_aside() {
  for (const ReadEvent& one : read_) {
    const EventId& id = one.event->id;
    const auto lost = last_of_lost_.find(id.device);
    if (lost == last_of_lost_.end() || id.counter <= lost->second || !counts(*one.event)) continue;
    if (answered("after-loss/" + id.device, {one.event})) continue;
    after_loss_[id.device].push_back(one.event);
  }
  for (const auto& [device, events] : after_loss_)
    for (const Event* event : events) gone_.insert(event->id);
}

// By the heads of the events: a correction whose body was taken corrects all the same.
void Standing::corrections() {
  for (const Event* correction : events_.in_order()) {
    if (correction->replaces.empty() || gone_.count(correction->id) != 0) continue;
    for (const EventId& id : correction->replaces)
      for (const Event* event : events_.find(id))
        if (event->kind == correction->kind && comes_before(*event, *correction))
          replaced_.insert(id);
  }
}

void Standing::forget(const std::vector<ReadEvent>& newer) {
  std::set<std::string> members;
  for (const ReadEvent& one : read_)
    if (one.event->kind == "forget" && counts(*one.event))
      members.insert(text_in(one.event->body, "member"));
  if (members.empty()) return;
  const std::set<std::string> farms = forgotten_farms(members);
  const auto is_of_them = [&](const ReadEvent& one) {
    const json& body = one.event->body;
    if (one.event->kind == "name") return members.count(text_in(body, "member")) != 0;
    return !one.kind->of_farm.empty() && farms.count(text_in(body, one.kind->of_farm)) != 0;
  };
  for (const auto* list : {&read_, &newer})
    for (const ReadEvent& one : *list)
      if (is_of_them(one)) forgotten_.insert(one.event->id);
}

// The farms of members who are to be forgotten and did not agree to nameless results; but not a
// farm that somebody else holds as well.
std::set<std::string> Standing::forgotten_farms(const std::set<std::string>& members) const {
  std::map<std::string, std::string> farm_of;
  std::map<std::string, bool> agreed;
  for (const ReadEvent& one : read_) {
    if (!counts(*one.event)) continue;
    const json& body = one.event->body;
    const std::string member = text_in(body, "member");
    if (one.event->kind == "member" && body.contains("farm"))
      farm_of[member] = text_in(body, "farm");
    else if (one.event->kind == "agreed" && text_in(body, "purpose") == "result-nameless")
      agreed[member] = text_in(body, "answer") == "yes";
  }
  std::set<std::string> farms;
  for (const auto& [member, farm] : farm_of) farms.insert(farm);
  for (const auto& [member, farm] : farm_of)
    if (members.count(member) == 0 || agreed[member]) farms.erase(farm);
  farms.erase("");
  return farms;
}

bool Standing::answered(const std::string& question,
                        const std::vector<const Event*>& events) const {
  return std::any_of(choices_.begin(), choices_.end(), [&](const Choice& choice) {
    return choice.question == question &&
           std::all_of(events.begin(), events.end(), [&](const Event* event) {
             return holds(choice.takes, event->id) || holds(choice.leaves, event->id);
           });
  });
}

}  // namespace wheyfield::journal
