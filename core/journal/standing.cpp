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

bool says_when_lost(const Event& act) {
  const auto last = act.body.find("last");
  return last != act.body.end() && last->is_number_integer();
}

}  // namespace

std::string text_in(const json& body, const std::string& member) {
  const auto value = body.find(member);
  return value != body.end() && value->is_string() ? value->get<std::string>() : std::string();
}

Standing::Standing(const EventSet& events, const ReadEvents& read) : events_(events), read_(read) {
  lost_devices();
  hold_aside();
  strikes_and_choices();
  if (!held_.empty()) {
    // Some may have been taken in by a choice; strikes among them count from then on.
    hold_aside();
    strikes_and_choices();
  }
  corrections();
  forget();
}

// The latest first: an act that was taken away itself takes nothing away. What one answer to a
// question leaves and another takes stays, and is asked about again.
void Standing::strikes_and_choices() {
  gone_ = held_;
  choices_.clear();
  unreadable_.clear();
  std::map<EventId, std::set<std::string>> left;  // by which questions
  for (auto one = read_.acts.rbegin(); one != read_.acts.rend(); ++one) {
    const Event& act = *one->event;
    if (act.kind == "device-lost" && !says_when_lost(act)) unreadable_.push_back(&act);
    const bool strike = act.kind == "strike";
    if ((!strike && act.kind != "choice") || gone_.count(act.id) != 0 || left.count(act.id) != 0)
      continue;
    const auto out = ids_in(act.body, strike ? "events" : "leaves");
    const auto kept = strike ? Ids() : ids_in(act.body, "takes");
    if (!out || !kept) {
      unreadable_.push_back(&act);
      continue;
    }
    for (const EventId& id : earlier_than(act, strike ? *out : act.replaces))
      if (strike || events_.find(id).front()->kind == act.kind) gone_.insert(id);
    if (strike) continue;
    const std::string question = text_in(act.body, "question");
    for (const EventId& id : earlier_than(act, *out)) left[id].insert(question);
    choices_.push_back({question, *kept, *out});
  }
  for (const Choice& choice : choices_)
    for (const EventId& id : choice.takes)
      if (const auto found = left.find(id); found != left.end())
        found->second.erase(choice.question);
  for (const auto& [id, questions] : left)
    if (!questions.empty()) gone_.insert(id);
}

// Those of the ids that were written before the act.
Ids Standing::earlier_than(const Event& act, const Ids& ids) const {
  Ids earlier;
  for (const EventId& id : ids)
    for (const Event* event : events_.find(id))
      if (comes_before(*event, act)) earlier.push_back(id);
  return earlier;
}

// That a device is lost cannot be struck, least of all by whoever found it; what it wrote later can
// be taken in by a choice.
void Standing::lost_devices() {
  for (const ReadEvent& one : read_.acts) {
    if (one.event->kind != "device-lost" || is_late(one.event->id)) continue;
    if (!says_when_lost(*one.event)) continue;
    const auto counter = one.event->body.at("last").get<std::int64_t>();
    const auto [known, first] = last_of_lost_.emplace(text_in(one.event->body, "device"), counter);
    if (!first) known->second = std::min(known->second, counter);
  }
}

bool Standing::is_late(const EventId& id) const {
  const auto lost = last_of_lost_.find(id.device);
  return lost != last_of_lost_.end() && id.counter > lost->second;
}

void Standing::hold_aside() {
  held_.clear();
  after_loss_.clear();
  if (last_of_lost_.empty()) return;
  for (const Event* event : events_.in_order()) {
    if (!is_late(event->id) || answered("after-loss/" + event->id.device, {event})) continue;
    held_.insert(event->id);
    after_loss_[event->id.device].push_back(event);
  }
}

// By the heads of the events: a correction whose body was taken corrects all the same.
void Standing::corrections() {
  for (const Event* correction : read_.corrections) {
    if (gone_.count(correction->id) != 0) continue;
    for (const EventId& id : correction->replaces)
      for (const Event* event : events_.find(id))
        if (event->kind == correction->kind && comes_before(*event, *correction))
          replaced_.insert(id);
  }
}

// Whether or not anybody struck it: bodies that another phone has taken do not come back.
void Standing::forget() {
  std::set<std::string> members;
  std::set<std::string> farms;
  for (const ReadEvent& one : read_.acts) {
    if (one.event->kind != "forget") continue;
    members.insert(text_in(one.event->body, "member"));
    const auto named = one.event->body.find("farms");
    if (named == one.event->body.end() || !named->is_array()) continue;
    for (const json& farm : *named)
      if (farm.is_string()) farms.insert(farm.get<std::string>());
  }
  if (members.empty()) return;
  const auto is_of_them = [&](const ReadEvent& one) {
    const json& body = one.event->body;
    if (one.event->kind == "name") return members.count(text_in(body, "member")) != 0;
    return !one.kind->of_farm.empty() && farms.count(text_in(body, one.kind->of_farm)) != 0;
  };
  for (const auto* list : {&read_.known, &read_.newer})
    for (const ReadEvent& one : *list)
      if (is_of_them(one)) forgotten_.insert(one.written);
}

}  // namespace wheyfield::journal
