// The kinds of events, and how each folds. The members of their bodies are declared in api
// (docs/formats/fields.md); here stand only those that say what an event is about.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <nlohmann/json.hpp>

#include "journal/event.h"

namespace wheyfield::journal {

enum class Rule {
  latest,  // one thing for each identity, each member of its body the latest said; an answer that
           // two devices noted differently of its latest day is a question
  all,     // every event is a fact of its own
  first,   // the first counts, later ones are notes
  one,     // one value for each identity; two that differ are a question
  act      // says something about other events
};

struct Identity {
  std::string member;      // of the body, a text
  bool needed = true;      // else it may be missing, which is a value of its own
  std::string usual = {};  // what it is when it is missing: written or not, it is the same thing
};

// Takes a body from one version to the next.
using Upcast = void (*)(nlohmann::json& body);

struct Kind {
  std::string name;
  Rule rule = Rule::all;
  std::vector<Identity> identity = {};
  bool by_day = false;               // the civil day belongs to the identity
  std::string of_farm = {};          // the member that names a farm whose facts can be forgotten
  std::string question = {};         // asked when two devices say different things: its code
  std::vector<Upcast> upcasts = {};  // [0] from version 1 to 2, and so on
  bool dated = false;                // of a thing: the civil day is part of what is said of it

  int version() const { return static_cast<int>(upcasts.size()) + 1; }
};

class Kinds {
 public:
  explicit Kinds(std::vector<Kind> kinds);
  const Kind* find(std::string_view name) const;  // null when not known
  const std::vector<Kind>& all() const { return kinds_; }

 private:
  std::vector<Kind> kinds_;
  std::unordered_map<std::string_view, const Kind*> by_name_;
};

// Those of docs/formats/journal.md.
const Kinds& kinds();

// What the event is about, "22-with/1"; the parts are the identity's values in order, the day last,
// "" for one that is missing; "/" and "\" in them written "\/" and "\\". Nothing when a needed one
// is missing or no text.
std::optional<std::string> identity_of(const Kind& kind, const Event& event);

}  // namespace wheyfield::journal
