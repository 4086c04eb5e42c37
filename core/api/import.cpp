#include "api/import.h"

namespace wheyfield::api {
namespace {

std::string shown(const nlohmann::json& value) {
  return value.is_string() ? value.get<std::string>() : value.dump();
}

}  // namespace

void note_what_is_new(const journal::Kind& kind, const std::string& identity, nlohmann::json body,
                      const journal::Facts& facts, calendar::Date on, Recorder& recorder,
                      Import& import) {
  const journal::Item* item = facts.find(kind.name, identity);
  if (item == nullptr) {
    ++import.fresh;
    return recorder.note(kind.name, std::move(body), on);
  }
  nlohmann::json anew = nlohmann::json::object();
  for (const auto& [member, value] : body.items()) {
    const auto was = item->body.find(member);
    const bool known = was != item->body.end();
    if (known && *was == value) continue;
    anew[member] = value;
    import.changes.push_back({kind.name, identity, member, known ? shown(*was) : "", shown(value)});
  }
  const calendar::Date was_on = item->said.back()->on;
  const bool other_day = kind.dated && was_on != on;
  if (other_day) import.changes.push_back({kind.name, identity, "on", was_on.iso(), on.iso()});
  if (anew.empty() && !other_day) {
    ++import.same;
    return;
  }
  for (const journal::Identity& part : kind.identity)
    if (body.contains(part.member)) anew[part.member] = body[part.member];
  recorder.note(kind.name, std::move(anew), on);
}

}  // namespace wheyfield::api
