// Many things said at once: a season file, or the rows of a table.
#include <algorithm>
#include <map>

#include "api/event_fields.h"
#include "api/journal_answer.h"
#include "api/recorder.h"
#include "api/season_facts.h"
#include "api/season_reader.h"
#include "api/value_check.h"
#include "journal/versions.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using journal::Item;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;

const Fields import_fields{"JournalImport",
                           {{"season", Holds::object, true},
                            {"pages", Holds::flag, false},
                            {"device", Holds::text, true},
                            {"clock", Holds::number, true}}};
const Fields row_fields{
    "JournalRow",
    {{"id", Holds::text, false}, {"on", Holds::date, false}, {"body", Holds::object, true}}};
const Fields rows_fields{"JournalRows",
                         {{"kind", Holds::text, true},
                          {"rows", Holds::list, true, "", &row_fields},
                          {"pages", Holds::flag, false},
                          {"device", Holds::text, true},
                          {"clock", Holds::number, true}}};

Json change_json(const Change& change) {
  return {{"kind", change.kind},
          {"about", change.about},
          {"member", change.member},
          {"was", change.was},
          {"now", change.now}};
}

sheet::Page import_page(const Session& session, const Import& import) {
  const words::Catalogue& w = session.words;
  sheet::Page page("import", w.text("journal.import-title"));
  page.text(
      w.text("journal.import-counts",
             {{"changed", import.changes.size()}, {"fresh", import.fresh}, {"same", import.same}}));
  std::vector<std::vector<std::string>> rows;
  for (const Change& c : import.changes)
    rows.push_back({kind_words(session, c.kind), c.about, c.member, c.was, c.now});
  page.table({{w.text("col.kind")},
              {w.text("col.about")},
              {w.text("col.member")},
              {w.text("col.was")},
              {w.text("col.now")}},
             std::move(rows));
  return page;
}

Answer import_answer(const Session& session, const json& body, const Recorder& recorder,
                     const Import& import) {
  Answer answer;
  answer.fields["events"] = recorder.events();
  answer.fields["fresh"] = import.fresh;
  answer.fields["same"] = import.same;
  answer.fields["changes"] = Json::array();
  for (const Change& change : import.changes)
    answer.fields["changes"].push_back(change_json(change));
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(import_page(session, import))});
  return answer;
}

// Rows of one kind against what stands.
class RowImport {
 public:
  RowImport(const Session& session, const Fields& fields, const std::string& kind,
            Recorder& recorder)
      : session_(session),
        fields_(fields),
        kind_(*journal::kinds().find(kind)),
        recorder_(recorder) {}

  void row(const json& row, const std::string& pointer) {
    Problems found = check_note(kind_.name, row["body"], fields_, pointer + "/body", session_);
    const FieldReader r(row, pointer, session_.data.units(), found);
    const auto on = r.date("on").value_or(session_.today);
    if (!outcome::has_errors(found)) take(without_blanks(row["body"]), on, r);
    outcome::append(problems, std::move(found));
  }

  Import import;
  Problems problems;

 private:
  static json without_blanks(json body) {
    for (auto member = body.begin(); member != body.end();)
      member = member->is_null() || *member == "" ? body.erase(member) : std::next(member);
    return body;
  }

  void take(json body, calendar::Date on, const FieldReader& r) {
    if (kind_.rule == journal::Rule::latest)
      thing(std::move(body), on, r);
    else if (const auto id = r.text("id"))
      correct(std::move(body), on, *id, r);
    else
      fact(std::move(body), on);
  }

  std::string identity(const json& body, calendar::Date on) const {
    Event event;
    event.on = on;
    event.body = body;
    return journal::identity_of(kind_, event).value_or("");
  }

  void thing(json body, calendar::Date on, const FieldReader& r) {
    const std::string about = identity(body, on);
    const auto [first, alone] = rows_.emplace(about, r.at("body"));
    if (!alone) return r.add("row-twice", "body", about, {{"first", first->second}});
    note_what_is_new(kind_, about, std::move(body), session_.facts, on, recorder_, import);
  }

  // A row without an id is new unless it stands already.
  void fact(json body, calendar::Date on) {
    const Item* item = session_.facts.find(kind_.name, identity(body, on));
    const bool stands =
        item != nullptr && std::any_of(item->said.begin(), item->said.end(),
                                       [&](const Event* event) { return event->body == body; });
    if (stands) {
      ++import.same;
      return;
    }
    ++import.fresh;
    recorder_.note(kind_.name, std::move(body), on);
  }

  // A row with the id of a note corrects what stands of it by now. A row that says what the note
  // said was not touched, whoever has corrected the note since.
  void correct(json body, calendar::Date on, const std::string& text, const FieldReader& r) {
    const auto id = journal::parse_event_id(text);
    const auto found = id ? session_.events.find(*id) : std::vector<const Event*>();
    if (found.empty() || found.front()->kind != kind_.name)
      return r.add("event-unknown", "id", text);
    if (found.size() > 1) return r.add("event-id-shared", "id", text);
    const auto versions = journal::versions_of(session_.events, {*id});
    const Event& was = *latest_of(versions);
    const auto says_the_same = [&](const Event& event) {
      return event.body == body && event.on == on;
    };
    if (says_the_same(*found.front()) || says_the_same(was)) {
      ++import.same;
      return;
    }
    import.changes.push_back({kind_.name, text, "", body_words(session_, was), said_words(body)});
    recorder_.note(kind_.name, std::move(body), on, versions);
  }

  const Event* latest_of(const std::vector<journal::EventId>& versions) const {
    const Event* latest = nullptr;
    for (const journal::EventId& version : versions)
      for (const Event* event : session_.events.find(version))
        if (latest == nullptr || journal::comes_before(*latest, *event)) latest = event;
    return latest;
  }

  std::string said_words(const json& body) const {
    Event event;
    event.body = body;
    return body_words(session_, event);
  }

  const Session& session_;
  const Fields& fields_;
  const journal::Kind& kind_;
  Recorder& recorder_;
  std::map<std::string, std::string> rows_;  // identity -> where it stood first
};

}  // namespace

const Fields& journal_rows_fields() { return rows_fields; }

Result<Answer> journal_import(const Session& session, const json& body) {
  Problems problems = check_shape(body, import_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const auto desk = read_desk(r);
  if (!desk) return failure(std::move(problems));
  const json& season = body["season"];
  auto read = read_season(season, session.crops, session.data, session.today);
  if (!read) return failure(read.error());
  Recorder recorder(session, *desk);
  const auto import = import_season(season, session.facts, session.today, recorder);
  if (!import) return failure(import.error());
  Answer answer = import_answer(session, body, recorder, *import);
  answer.problems = std::move(read->remarks);
  answer.used = std::move(read->used);
  return answer;
}

Result<Answer> journal_rows(const Session& session, const json& body) {
  Problems problems = check_shape(body, rows_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const auto desk = read_desk(r);
  const std::string kind = *r.text("kind");
  const Fields* fields = event_fields(kind);
  const journal::Kind* known = journal::kinds().find(kind);
  if (fields == nullptr || known == nullptr || known->rule == journal::Rule::act)
    r.add("event-kind-unknown", "kind", kind);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  Recorder recorder(session, *desk);
  RowImport rows(session, *fields, kind, recorder);
  std::size_t i = 0;
  for (const json& row : body["rows"]) rows.row(row, "/rows/" + std::to_string(i++));
  if (outcome::has_errors(rows.problems)) return failure(std::move(rows.problems));
  return import_answer(session, body, recorder, rows.import);
}

}  // namespace wheyfield::api
