#include "journal/fold.h"

#include <algorithm>
#include <optional>
#include <unordered_map>

#include "journal/differences.h"
#include "journal/standing.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;

// Members said, null for one taken away.
void merge(json& body, const json& said) {
  if (body.is_null()) body = json::object();
  for (const auto& [member, value] : said.items()) {
    if (value.is_null())
      body.erase(member);
    else
      body[member] = value;
  }
}

class Fold {
 public:
  Fold(const EventSet& events, const Limits& limits, const Kinds& kinds)
      : events_(events), limits_(limits), kinds_(kinds) {}

  Facts facts() {
    read_.known.reserve(events_.size());
    for (const Event* event : events_.in_order()) {
      if (!event->replaces.empty()) read_.corrections.push_back(event);
      if (!event->blanked()) read(*event);
    }
    const Standing standing(events_, read_);
    facts_.unreadable = standing.unreadable();
    facts_.choices = standing.choices();
    for (const ReadEvent& one : read_.known) place(one, standing);
    for (const ReadEvent& one : read_.newer) set_aside(*one.event, standing);
    settle(standing);
    return std::move(facts_);
  }

 private:
  void read(const Event& event) {
    const Kind* kind = kinds_.find(event.kind);
    if (kind == nullptr) {
      facts_.newer.push_back(&event);
    } else if (event.version > kind->version()) {
      read_.newer.push_back({&event, kind, &event});
    } else {
      read_.known.push_back(
          {event.version < kind->version() ? upcast(event, *kind) : &event, kind, &event});
      if (kind->rule == Rule::act) read_.acts.push_back(read_.known.back());
      ++items_of_[kind].most;
    }
  }

  void set_aside(const Event& event, const Standing& standing) {
    if (standing.is_forgotten(event))
      facts_.to_blank.push_back(head_of(event));
    else
      facts_.newer.push_back(&event);
  }

  const Event* upcast(const Event& event, const Kind& kind) {
    Event& copy = facts_.upcast.emplace_back(event);
    for (; copy.version < kind.version(); ++copy.version)
      kind.upcasts[static_cast<std::size_t>(copy.version - 1)](copy.body);
    return &copy;
  }

  void place(const ReadEvent& one, const Standing& standing) {
    const bool always = one.event->kind == "forget" || one.event->kind == "device-lost";
    if (standing.is_forgotten(*one.written)) {
      facts_.to_blank.push_back(head_of(*one.written));
    } else if (!standing.counts(*one.event) && !always) {
      facts_.not_counting.push_back(one.event);
    } else if (one.kind->rule != Rule::act) {
      auto identity = identity_of(*one.kind, *one.event);
      if (identity)
        say(item_of(*one.kind, std::move(*identity)), one);
      else
        facts_.unreadable.push_back(one.event);
    }
  }

  static void say(Item& item, const ReadEvent& one) {
    item.said.push_back(one.event);
    if (one.kind->rule == Rule::latest) merge(item.body, one.event->body);
  }

  Item& item_of(const Kind& kind, std::string identity) {
    KindsItems& of = items_of_[&kind];
    if (of.items == nullptr) {
      of = {of.most, &facts_.items[kind.name], &facts_.places[kind.name]};
      of.places->reserve(of.most);
    }
    const auto known = of.places->find(identity);
    if (known != of.places->end()) return *known->second;
    Item& item = of.items->emplace_back(Item{std::move(identity), json(), {}});
    of.places->emplace(item.identity, &item);
    return item;
  }

  // What counts of each item, and what must be asked.
  void settle(const Standing& standing) {
    for (auto& [name, items] : facts_.items) {
      const Kind& kind = *kinds_.find(name);
      for (Item& item : items) {
        const bool differ = say_different_things(kind, item.said, limits_);
        if (kind.rule == Rule::first) item.body = item.said.front()->body;
        if (kind.rule == Rule::one && !differ) item.body = item.said.back()->body;
        if (kind.question == "answers-differ") item.body = answered_body(item, differ);
        if (differ) ask(kind.question, item.identity, item.said, standing);
      }
    }
    for (const auto& [device, events] : standing.after_loss())
      ask("after-loss", device, kept(events, standing), standing);
    for (const EventId& id : events_.clashing())
      ask("one-code-two-devices", id.text(), kept(events_.find(id), standing), standing);
    std::sort(facts_.questions.begin(), facts_.questions.end(),
              [](const Question& a, const Question& b) { return a.name() < b.name(); });
  }

  // The latest day's answer; none while two devices differ about it.
  static json answered_body(const Item& item, bool differ) {
    auto by_day = item.said;
    std::stable_sort(by_day.begin(), by_day.end(),
                     [](const Event* a, const Event* b) { return a->on < b->on; });
    json body;
    for (const Event* event : by_day) merge(body, event->body);
    if (differ)
      for (const char* member : {"answer", "came"}) body.erase(member);
    return body;
  }

  // Without those whose bodies are taken or are to be taken.
  static std::vector<const Event*> kept(std::vector<const Event*> events,
                                        const Standing& standing) {
    events.erase(std::remove_if(events.begin(), events.end(),
                                [&](const Event* event) {
                                  return event->blanked() || standing.is_forgotten(*event);
                                }),
                 events.end());
    return events;
  }

  void ask(const std::string& code, const std::string& about,
           const std::vector<const Event*>& events, const Standing& standing) {
    Question question{code, about, events};
    if (!events.empty() && !standing.answered(question.name(), events))
      facts_.questions.push_back(std::move(question));
  }

  struct KindsItems {
    std::size_t most = 0;  // as many as it has events
    std::deque<Item>* items = nullptr;
    std::unordered_map<std::string_view, Item*>* places = nullptr;
  };

  const EventSet& events_;
  const Limits& limits_;
  const Kinds& kinds_;
  Facts facts_;
  ReadEvents read_;
  std::unordered_map<const Kind*, KindsItems> items_of_;
};

json ids_of(const std::vector<const Event*>& events) {
  json list = json::array();
  for (const Event* event : events) list.push_back(event->id.text());
  return list;
}

}  // namespace

const std::deque<Item>& Facts::of(const std::string& kind) const {
  static const std::deque<Item> none;
  const auto found = items.find(kind);
  return found == items.end() ? none : found->second;
}

const Item* Facts::find(const std::string& kind, const std::string& identity) const {
  const auto of_kind = places.find(kind);
  if (of_kind == places.end()) return nullptr;
  const auto found = of_kind->second.find(identity);
  return found == of_kind->second.end() ? nullptr : found->second;
}

Facts fold(const EventSet& events, const Limits& limits, const Kinds& kinds) {
  return Fold(events, limits, kinds).facts();
}

std::string text_of(const Facts& facts) {
  json all = {{"not_counting", ids_of(facts.not_counting)},
              {"newer", ids_of(facts.newer)},
              {"unreadable", ids_of(facts.unreadable)}};
  for (const auto& [kind, items] : facts.items)
    for (const Item& item : items)
      all["items"][kind].push_back({item.identity, item.body, ids_of(item.said)});
  for (const Question& question : facts.questions)
    all["questions"].push_back({question.name(), ids_of(question.events)});
  return all.dump();
}

}  // namespace wheyfield::journal
