// What is known, worked out from everything that was written down. Start here to read the journal.
//
// A pure function of the set of events: the same events give the same facts in any order of
// arrival. Rules and kinds: docs/formats/journal.md.
#pragma once

#include <deque>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "journal/choice.h"
#include "journal/event_set.h"
#include "journal/kinds.h"

namespace wheyfield::journal {

// What one identity of a kind stands for.
struct Item {
  std::string identity;  // identity_of its events
  nlohmann::json body;   // latest: the members together; first, one: the body that counts;
                         // null for `all`, and for `one` while two values differ
  std::vector<const Event*> said;  // by order; struck, replaced and left events are not here
};

// Something that people noted differently. Its name is code/about.
struct Question {
  std::string code;                  // "weights-differ"
  std::string about;                 // "22-with/1"
  std::vector<const Event*> events;  // by order
  std::string name() const { return code + "/" + about; }
};

// Its parts point into each other and into the events: moved, never copied.
struct Facts {
  Facts() = default;
  Facts(Facts&&) = default;
  Facts& operator=(Facts&&) = default;

  // By kind; the items in the order in which they were first spoken of.
  std::map<std::string, std::deque<Item>> items;
  std::vector<Question> questions;         // by name
  std::vector<const Event*> not_counting;  // struck, replaced, left, held aside: by order
  std::vector<const Event*> newer;         // of kinds or versions not known here
  std::vector<const Event*> unreadable;    // without what their kind needs
  std::vector<Choice> choices;             // that stand, for questions that are asked elsewhere
  std::vector<Event> to_blank;             // heads of what `forget` asks to blank

  // The items of a kind; none when nothing was said.
  const std::deque<Item>& of(const std::string& kind) const;
  // The item of that identity, or null.
  const Item* find(const std::string& kind, const std::string& identity) const;

  // Of each kind: identity -> its item in `items`, whose text is the key.
  std::map<std::string, std::unordered_map<std::string_view, Item*>> places;
  std::deque<Event> upcast;  // older events in their newest version; the items point into it
};

// From where on a difference is asked about.
struct Limits {
  double ph_apart = 0.0;  // between two readings of one batch on a half-day [pH]
};

// The facts point into `events`, which must outlive them and stay as it is. Bodies that are blanked
// or that `forget` asks to blank are passed over, so that the facts do not tell which.
Facts fold(const EventSet& events, const Limits& limits, const Kinds& kinds = journal::kinds());

// The facts as text, for comparing them: every item, question and list but `to_blank`.
std::string text_of(const Facts& facts);

}  // namespace wheyfield::journal
