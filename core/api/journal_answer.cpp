#include "api/journal_answer.h"

#include <algorithm>

#include "group/hand_outs.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using nlohmann::json;

std::string shown_value(const Session& session, const json& value) {
  if (value.is_null()) return session.words.text("journal.taken-away");
  if (!value.is_string() && !value.is_array()) return value.dump();
  if (value.is_string()) return value.get<std::string>();
  std::string list;
  for (const json& one : value) list += (list.empty() ? "" : ", ") + shown_value(session, one);
  return list;
}

std::string word_or(const Session& session, const std::string& key, const std::string& otherwise) {
  return session.words.has(key) ? session.words.text(key) : otherwise;
}

}  // namespace

std::string kind_words(const Session& session, const std::string& kind) {
  return word_or(session, "event.kind." + kind, kind);
}

std::string body_words(const Session& session, const Event& event) {
  if (event.blanked()) return session.words.text("journal.forgotten");
  std::string all;
  for (const auto& [member, value] : event.body.items()) {
    if (value.is_object()) continue;
    const std::string named = word_or(session, "event.member." + member, member);
    all += (all.empty() ? "" : ", ") + named + " " + shown_value(session, value);
  }
  return all;
}

std::string remark_in(const Event& event) {
  if (event.blanked()) return "";
  std::string all;
  for (const char* member : {"note", "why", "fate", "topic", "for", "none_because"})
    if (const std::string said = journal::text_in(event.body, member); !said.empty())
      all += (all.empty() ? "" : "; ") + said;
  return all;
}

Json event_row(const Session& session, const Event& event) {
  const journal::Kind* kind = journal::kinds().find(event.kind);
  const auto about = kind == nullptr || event.blanked()
                         ? std::nullopt
                         : std::optional(journal::identity_of(*kind, event).value_or(""));
  return {{"id", event.id.text()},       {"on", event.on.iso()},
          {"device", event.id.device},   {"kind", event.kind},
          {"about", about.value_or("")}, {"says", body_words(session, event)}};
}

Json question_json(const Session& session, const journal::Question& question) {
  words::Values values{{"about", question.about}, {"n", question.events.size()}};
  if (question.code == "handed-out-above-made") {
    const auto ml = group::above_made_ml(question.events, session.data.units());
    values.emplace("litres", words::Decimal{static_cast<double>(ml) / 1000.0, 3});
  }
  Json choices = Json::array();
  for (const Event* event : question.events) choices.push_back(event_row(session, *event));
  return {{"code", question.code},
          {"about", question.about},
          {"name", question.name()},
          {"text", session.words.text("question." + question.code, values)},
          {"choices", std::move(choices)}};
}

}  // namespace wheyfield::api
