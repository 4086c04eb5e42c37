#include "journal/kinds.h"

namespace wheyfield::journal {
namespace {

// "farm crop nth?1": a question mark after a member that may be missing, then what it usually is.
std::vector<Identity> members(std::string_view text) {
  std::vector<Identity> all;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    const std::size_t mark = std::min(word.find('?'), word.size());
    const bool needed = mark == word.size();
    all.push_back({std::string(word.substr(0, mark)), needed,
                   needed ? std::string() : std::string(word.substr(mark + 1))});
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return all;
}

Kind dated(Kind kind) {
  kind.dated = true;
  return kind;
}

constexpr bool on_a_day = true;

std::vector<Kind> season_kinds() {
  return {{"season", Rule::latest},
          {"meetings", Rule::latest},
          {"market", Rule::latest},
          {"labour", Rule::latest},
          {"measure", Rule::latest, members("name")},
          {"place", Rule::latest, members("name")},
          {"vessel", Rule::latest, members("name")},
          {"milk-rule", Rule::latest, members("from? until? day")},
          {"container", Rule::latest, members("kind size")},
          {"water", Rule::latest, members("place")},
          {"price", Rule::latest, members("item pack")},
          {"stock", Rule::latest, members("item made_on?")},
          {"produce", Rule::latest, members("crop")},
          {"preparation", Rule::latest, members("recipe by")},
          {"absence", Rule::latest, members("farm on"), !on_a_day, "farm"},
          {"farm", Rule::latest, members("code"), !on_a_day, "code"},
          {"field", Rule::latest, members("farm crop nth?1"), !on_a_day, "farm"}};
}

std::vector<Kind> work_kinds() {
  return {{"batch", Rule::one, members("label"), !on_a_day, "", "batch-twice"},
          {"reading", Rule::all, members("batch half"), on_a_day, "", "readings-differ"},
          {"step", Rule::all, members("batch step"), on_a_day},
          {"made", Rule::all, members("batch product"), on_a_day, "", "noted-twice"},
          {"lost", Rule::all, members("batch")},
          {"use", Rule::all, members("farm crop nth?1 use"), on_a_day, "farm"},
          dated({"seen", Rule::latest, members("farm crop nth?1 what"), !on_a_day, "farm"}),
          {"plot", Rule::latest, members("plot"), !on_a_day, "farm"},
          {"draw", Rule::first, members("trial farm"), !on_a_day, "farm"},
          {"weight", Rule::one, members("plot picking?"), !on_a_day, "farm", "weights-differ"}};
}

std::vector<Kind> group_kinds() {
  return {{"member", Rule::latest, members("member")},
          {"name", Rule::latest, members("member")},
          {"agreed", Rule::latest, members("member purpose"), !on_a_day, "", "answers-differ"},
          {"same-person", Rule::all, members("member other")},
          dated({"joined", Rule::latest, members("member")}),
          dated({"left", Rule::latest, members("member")}),
          {"duty", Rule::latest, members("duty from")},
          {"meeting", Rule::latest, {}, on_a_day},
          {"attendance", Rule::latest, members("member"), on_a_day, "", "answers-differ"},
          {"paid-in", Rule::all, members("member what"), on_a_day, "", "noted-twice"},
          {"paid-out", Rule::all, members("what member?"), on_a_day, "", "noted-twice"},
          {"handed-out", Rule::all, members("farm product"), on_a_day, "", "noted-twice"},
          {"visit", Rule::all, members("farm by"), on_a_day, "farm"},
          {"field-day", Rule::all, members("place"), on_a_day},
          {"taught", Rule::all, members("member what"), on_a_day},
          {"strike", Rule::act},
          {"choice", Rule::act},
          {"forget", Rule::act, members("member")},
          {"device-lost", Rule::act, members("device")}};
}

std::vector<Kind> every_kind() {
  std::vector<Kind> all = season_kinds();
  for (auto* more : {&work_kinds, &group_kinds})
    for (Kind& kind : more()) all.push_back(std::move(kind));
  return all;
}

void append_part(std::string& identity, std::string_view part) {
  for (const char c : part) {
    if (c == '/' || c == '\\') identity += '\\';
    identity += c;
  }
}

}  // namespace

Kinds::Kinds(std::vector<Kind> kinds) : kinds_(std::move(kinds)) {
  for (const Kind& kind : kinds_) by_name_.emplace(kind.name, &kind);
}

const Kind* Kinds::find(std::string_view name) const {
  const auto found = by_name_.find(name);
  return found == by_name_.end() ? nullptr : found->second;
}

const Kinds& kinds() {
  static const Kinds all(every_kind());
  return all;
}

std::optional<std::string> identity_of(const Kind& kind, const Event& event) {
  std::string identity;
  bool first = true;
  for (const Identity& part : kind.identity) {
    if (!first) identity += '/';
    first = false;
    const auto value = event.body.find(part.member);
    const bool missing = value == event.body.end() || value->is_null();
    if (missing && !part.needed) continue;
    if (missing || !value->is_string()) return std::nullopt;
    const auto& text = value->get_ref<const std::string&>();
    if (part.needed || text != part.usual) append_part(identity, text);
  }
  if (kind.by_day) identity += (first ? "" : "/") + event.on.iso();
  return identity;
}

}  // namespace wheyfield::journal
