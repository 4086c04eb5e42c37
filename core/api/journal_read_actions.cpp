// What was written down, for people: list, questions, table, verify, preview, the season it tells.
#include <algorithm>
#include <set>

#include "api/append.h"
#include "api/event_fields.h"
#include "api/journal_answer.h"
#include "api/season_facts.h"
#include "journal/clock.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using journal::EventSet;
using journal::Facts;
using journal::Item;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;

const Fields notes_fields{"JournalList",
                          {{"kind", Holds::text, false},
                           {"about", Holds::text, false},
                           {"last", Holds::number, false},
                           {"pages", Holds::flag, false}}};
const Fields table_fields{"JournalTable", {{"kind", Holds::text, true}}};

std::set<journal::EventId> ids_of(const std::vector<const Event*>& events) {
  std::set<journal::EventId> ids;
  for (const Event* event : events) ids.insert(event->id);
  return ids;
}

// Does any member say just this, alone or in a list?
bool names(const json& said, const std::string& code) {
  if (said.is_string()) return said.get_ref<const std::string&>() == code;
  return said.is_structured() &&
         std::any_of(said.begin(), said.end(), [&](const json& one) { return names(one, code); });
}

// With the year where it is not this one.
std::string day_text(const Session& session, const Json& iso) {
  const auto on = calendar::parse_date(iso.get<std::string>());
  return on->year() == session.today.year() ? session.words.date(*on)
                                            : session.words.long_date(*on);
}

sheet::Page notes_page(const Session& session, const Json& rows) {
  const words::Catalogue& w = session.words;
  sheet::Page page("journal", w.text("journal.list-title"));
  page.text(w.text("journal.list-counts", {{"n", rows.size()}}));
  std::vector<std::vector<std::string>> table;
  for (const Json& row : rows) {
    const bool counts = row["counts"].get<bool>();
    table.push_back({row["id"], day_text(session, row["on"]), kind_words(session, row["kind"]),
                     row["says"], counts ? "" : w.text("journal.does-not-count")});
  }
  page.table(
      {{w.text("col.note")}, {w.text("col.day")}, {w.text("col.kind")}, {w.text("col.says")}, {""}},
      std::move(table));
  return page;
}

sheet::Page questions_page(const Session& session, const Json& questions) {
  const words::Catalogue& w = session.words;
  sheet::Page page("questions", w.text("journal.questions-title"));
  page.text(w.text("journal.questions-counts", {{"n", questions.size()}}));
  for (const Json& question : questions) {
    page.heading(question["name"]);
    page.text(question["text"]);
    std::vector<std::vector<std::string>> rows;
    for (const Json& choice : question["choices"]) {
      rows.push_back({choice["id"], day_text(session, choice["on"]), choice["says"]});
    }
    page.table({{w.text("col.note")}, {w.text("col.day")}, {w.text("col.says")}}, std::move(rows));
  }
  return page;
}

sheet::Page verify_page(const Session& session, const std::map<std::string, std::int64_t>& devices,
                        const std::map<std::string, int>& kinds) {
  const words::Catalogue& w = session.words;
  sheet::Page page("verify", w.text("journal.verify-title"));
  page.text(w.text("journal.list-counts", {{"n", session.events.size()}}));
  page.text(w.text("journal.questions-counts", {{"n", session.facts.questions.size()}}));
  std::vector<std::vector<std::string>> rows;
  for (const auto& [device, last] : devices) rows.push_back({device, std::to_string(last)});
  page.table({{w.text("col.device")}, {w.text("col.last-note"), true}}, std::move(rows));
  rows.clear();
  for (const auto& [kind, count] : kinds)
    rows.push_back({kind_words(session, kind), std::to_string(count)});
  page.table({{w.text("col.kind")}, {w.text("col.notes"), true}}, std::move(rows));
  return page;
}

// Whether the stamps of a device lie too far ahead of this clock.
std::set<std::string> devices_ahead(const std::vector<const Event*>& events, std::int64_t clock) {
  std::set<std::string> ahead;
  for (const Event* event : events)
    if (event->at.seconds > clock + journal::furthest_ahead_s) ahead.insert(event->id.device);
  return ahead;
}

Json questions_json(const Session& session, const Facts& facts) {
  Json list = Json::array();
  for (const auto& question : facts.questions) list.push_back(question_json(session, question));
  return list;
}

}  // namespace

const Fields& journal_list_fields() { return notes_fields; }
const Fields& journal_table_fields() { return table_fields; }

Result<Answer> journal_list(const Session& session, const json& body) {
  Problems problems = check_shape(body, notes_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  const auto last = r.count("last");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const auto kind = r.text("kind");
  const auto about = r.text("about");
  const auto aside = ids_of(session.facts.not_counting);
  std::vector<Json> rows;
  for (const Event* event : session.events.in_order()) {
    if (kind && event->kind != *kind) continue;
    Json row = event_row(session, *event);
    if (about && row["about"] != *about && !names(event->body, *about)) continue;
    rows.push_back(std::move(row));
    rows.back()["counts"] = !event->blanked() && aside.count(event->id) == 0;
  }
  if (last && static_cast<std::size_t>(*last) < rows.size())
    rows.erase(rows.begin(), rows.end() - *last);
  Answer answer;
  answer.fields["notes"] = Json(rows);
  if (wants_pages(body))
    answer.fields["pages"] =
        Json::array({sheet::to_json(notes_page(session, answer.fields["notes"]))});
  return answer;
}

Result<Answer> journal_questions(const Session& session, const json& body) {
  Answer answer;
  answer.fields["questions"] = questions_json(session, session.facts);
  if (wants_pages(body))
    answer.fields["pages"] =
        Json::array({sheet::to_json(questions_page(session, answer.fields["questions"]))});
  return answer;
}

Result<Answer> journal_table(const Session& session, const json& body) {
  Problems problems = check_shape(body, table_fields, "");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const FieldReader r(body, "", session.data.units(), problems);
  const std::string kind = *r.text("kind");
  const Fields* fields = event_fields(kind);
  const journal::Kind* known = journal::kinds().find(kind);
  if (fields == nullptr) return failure({"event-kind-unknown", "/kind", kind, {}});
  std::vector<std::string> columns;
  for (const Field& field : fields->fields)
    if (field.holds != Holds::list) columns.emplace_back(field.name);
  Json rows = Json::array();
  const auto row = [&](const std::string& id, calendar::Date on, const json& said) {
    Json cells = Json::array({id, on.iso()});
    for (const std::string& column : columns) {
      const auto value = said.find(column);
      const bool blank = value == said.end() || value->is_null();
      cells.push_back(blank ? "" : value->is_string() ? value->get<std::string>() : value->dump());
    }
    rows.push_back(std::move(cells));
  };
  for (const Item& item : session.facts.of(kind)) {
    if (known->rule == journal::Rule::latest) {
      row(item.said.back()->id.text(), item.said.back()->on, item.body);
      continue;
    }
    for (const Event* event : item.said) row(event->id.text(), event->on, event->body);
  }
  Answer answer;
  columns.insert(columns.begin(), {"id", "on"});
  answer.fields["kind"] = kind;
  answer.fields["columns"] = columns;
  answer.fields["rows"] = std::move(rows);
  return answer;
}

Result<Answer> journal_season(const Session& session, const json&) {
  Answer answer;
  SeasonTold told = season_told(session.facts, session.today);
  answer.fields["season"] = told.body;
  answer.problems = std::move(told.notices);
  if (answer.fields["season"].empty()) return failure({"nothing-recorded", "", "", {}});
  return answer;
}

Result<Answer> journal_verify(const Session& session, const json& body) {
  Problems problems;
  const FieldReader r(body, "", session.data.units(), problems);
  const auto clock = r.number("clock");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  Answer answer;
  std::map<std::string, std::int64_t> devices;
  std::map<std::string, int> kinds;
  for (const Event* event : session.events.in_order()) {
    std::int64_t& last = devices[event->id.device];
    last = std::max(last, event->id.counter);
    ++kinds[event->kind];
  }
  answer.fields["notes"] = session.events.size();
  answer.fields["devices"] = devices;
  answer.fields["kinds"] = kinds;
  answer.fields["questions"] = session.facts.questions.size();
  answer.fields["newer"] = session.facts.newer.size();
  answer.fields["damaged"] = Json::array();
  for (const journal::EventId& id : session.damaged) {
    answer.fields["damaged"].push_back(id.text());
    answer.problems.push_back({"store-note-damaged", "", id.text(), {}, Severity::notice});
  }
  answer.fields["unreadable"] = Json::array();
  for (const Event* event : session.facts.unreadable) {
    answer.fields["unreadable"].push_back(event_row(session, *event));
    answer.problems.push_back(
        {"event-unreadable", "", event->id.text(), {{"kind", event->kind}}, Severity::notice});
  }
  if (!session.facts.newer.empty())
    answer.problems.push_back(
        {"events-newer", "", std::to_string(session.facts.newer.size()), {}, Severity::notice});
  if (clock)
    for (const std::string& device :
         devices_ahead(session.events.in_order(), static_cast<std::int64_t>(*clock)))
      answer.problems.push_back({"device-ahead", "", device, {}, Severity::notice});
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(verify_page(session, devices, kinds))});
  return answer;
}

Result<Answer> journal_preview(const Session& session, const json& body) {
  auto events = read_events(body);
  if (!events) return failure(events.error());
  EventSet all;
  for (const Event* event : session.events.in_order()) all.add(*event);
  std::map<EventSet::Added, int> count;
  for (Event& event : *events) ++count[all.add(std::move(event))];
  const Facts facts = facts_of(all, session.data);
  std::set<std::string> open;
  for (const auto& question : session.facts.questions) open.insert(question.name());
  Json fresh = Json::array();
  for (const auto& question : facts.questions)
    if (open.count(question.name()) == 0) fresh.push_back(question_json(session, question));
  const int added = count[EventSet::Added::fresh] + count[EventSet::Added::clashes];
  const std::set<journal::EventId> unreadable_before = ids_of(session.facts.unreadable);
  const auto unreadable =
      std::count_if(facts.unreadable.begin(), facts.unreadable.end(),
                    [&](const Event* event) { return unreadable_before.count(event->id) == 0; });
  Answer answer;
  answer.fields["added"] = added;
  answer.fields["known"] = count[EventSet::Added::known] + count[EventSet::Added::blanked];
  answer.fields["questions"] = std::move(fresh);
  answer.fields["newer"] = facts.newer.size() - session.facts.newer.size();
  answer.fields["unreadable"] = unreadable;
  answer.fields["blanks"] = facts.to_blank.size();
  answer.fields["text"] =
      session.words.text("journal.preview", {{"n", added},
                                             {"questions", answer.fields["questions"].size()},
                                             {"problems", static_cast<int>(unreadable)}});
  if (!facts.to_blank.empty())
    answer.fields["text"] =
        answer.fields["text"].get<std::string>() + " " +
        session.words.text("journal.preview-blanks", {{"n", facts.to_blank.size()}});
  return answer;
}

}  // namespace wheyfield::api
