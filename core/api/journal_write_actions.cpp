// What a person says, as events for the host to store: add, strike, answer, forget, lost.
#include <algorithm>
#include <set>

#include "api/event_fields.h"
#include "api/journal_answer.h"
#include "api/recorder.h"
#include "api/value_check.h"
#include "journal/forget.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using journal::Event;
using journal::EventId;
using nlohmann::json;
using outcome::failure;
using outcome::Problem;
using outcome::Problems;
using outcome::Result;
using Ids = std::vector<EventId>;

const Fields add_fields{"JournalAdd",
                        {{"kind", Holds::text, true},
                         {"on", Holds::date, false},
                         {"body", Holds::object, true},
                         {"replaces", Holds::texts, false},
                         {"device", Holds::text, true},
                         {"clock", Holds::number, true}}};
const Fields strike_fields{"JournalStrike",
                           {{"events", Holds::texts, true},
                            {"why", Holds::text, false},
                            {"device", Holds::text, true},
                            {"clock", Holds::number, true}}};
const Fields answer_fields{"JournalAnswer",
                           {{"question", Holds::text, true},
                            {"take", Holds::text, true},
                            {"device", Holds::text, true},
                            {"clock", Holds::number, true}}};
const Fields forget_fields{
    "JournalForget",
    {{"member", Holds::text, true}, {"device", Holds::text, true}, {"clock", Holds::number, true}}};
const Fields lost_fields{"JournalLost",
                         {{"lost", Holds::text, true},
                          {"last", Holds::number, false},
                          {"device", Holds::text, true},
                          {"clock", Holds::number, true}}};

// A request that writes, its declared fields read.
struct Request {
  Request(const Session& session, const json& body, const Fields& fields)
      : problems(check_shape(body, fields, "")), reader(body, "", session.data.units(), problems) {
    if (!outcome::has_errors(problems)) desk = read_desk(reader);
  }
  bool good() const { return !outcome::has_errors(problems); }

  Problems problems;
  FieldReader reader;
  std::optional<Desk> desk;
};

// The events of these ids, all of them known.
Result<Ids> known_ids(const Session& session, const std::vector<std::string>& texts,
                      const std::string& pointer) {
  Ids ids;
  Problems problems;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::string field = pointer + "/" + std::to_string(i);
    auto id = journal::parse_event_id(texts[i]);
    if (!id)
      outcome::append(problems, outcome::under(field, std::move(id.error())));
    else if (session.events.find(*id).empty())
      problems.push_back({"event-unknown", field, texts[i], {}});
    else
      ids.push_back(std::move(*id));
  }
  if (!problems.empty()) return failure(std::move(problems));
  return ids;
}

// These events, all that they replace and all that is known to replace them: one fact's versions.
Ids versions_of(const Session& session, const Ids& ids) {
  std::set<EventId> all(ids.begin(), ids.end());
  for (std::size_t before = 0; before != all.size();) {
    before = all.size();
    for (const Event* event : session.events.in_order()) {
      const bool replaces_one = std::any_of(event->replaces.begin(), event->replaces.end(),
                                            [&](const EventId& id) { return all.count(id) != 0; });
      if (replaces_one) all.insert(event->id);
      if (all.count(event->id) != 0) all.insert(event->replaces.begin(), event->replaces.end());
    }
  }
  return {all.begin(), all.end()};
}

json texts_of(const Ids& ids) {
  json list = json::array();
  for (const EventId& id : ids) list.push_back(id.text());
  return list;
}

Result<Answer> noted_answer(const Session& session, const Recorder& recorder) {
  Answer answer;
  answer.fields["events"] = recorder.events();
  Json said = Json::array();
  for (const Event& event : recorder.noted()) said.push_back(event_row(session, event));
  answer.fields["noted"] = std::move(said);
  return answer;
}

// The two members of a question become one person.
Result<Answer> joined(const Session& session, const Request& request,
                      const journal::Question& question) {
  std::set<std::string> members;
  for (const Event* event : question.events)
    members.insert(journal::text_in(event->body, "member"));
  Recorder recorder(session, *request.desk);
  recorder.note("same-person", {{"member", *members.begin()}, {"other", *members.rbegin()}},
                session.today);
  return noted_answer(session, recorder);
}

// Two questions are not about which note is true: no note is left because of them.
std::optional<Problem> refusal_of_group_answer(const journal::Question& question,
                                               const std::string& take) {
  if (take == "all") return std::nullopt;
  if (question.code == "same-person") return Problem{"answer-same-or-all", "/take", take, {}};
  if (question.code == "handed-out-above-made")
    return Problem{"answer-all-only", "/take", take, {}};
  return std::nullopt;
}

Problem kind_unknown(const std::string& kind) {
  std::vector<std::string> names;
  std::string known;
  for (const Fields* fields : all_event_fields()) {
    names.emplace_back(fields->name);
    known += (known.empty() ? "" : ", ") + names.back();
  }
  return {"event-kind-unknown",
          "/kind",
          kind,
          {{"known", known}, {"suggestion", nearest(kind, names)}}};
}

}  // namespace

const Fields& journal_add_fields() { return add_fields; }
const Fields& journal_strike_fields() { return strike_fields; }
const Fields& journal_answer_fields() { return answer_fields; }
const Fields& journal_forget_fields() { return forget_fields; }
const Fields& journal_lost_fields() { return lost_fields; }

Result<Answer> journal_add(const Session& session, const json& body) {
  Request request(session, body, add_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string kind = *request.reader.text("kind");
  const Fields* fields = event_fields(kind);
  if (fields == nullptr) return failure(kind_unknown(kind));
  outcome::append(request.problems, check_note(kind, body["body"], *fields, "/body", session.data));
  const auto on = request.reader.date("on").value_or(session.today);
  auto replaces = known_ids(session, request.reader.texts("replaces"), "/replaces");
  if (!replaces) outcome::append(request.problems, std::move(replaces.error()));
  if (!request.good()) return failure(std::move(request.problems));
  if (!replaces->empty() && session.events.find(replaces->front()).front()->kind != kind)
    return failure({"correction-of-other-kind",
                    "/replaces",
                    replaces->front().text(),
                    {{"kind", session.events.find(replaces->front()).front()->kind}}});
  Recorder recorder(session, *request.desk);
  recorder.note(kind, body["body"], on, versions_of(session, *replaces));
  return noted_answer(session, recorder);
}

Result<Answer> journal_strike(const Session& session, const json& body) {
  Request request(session, body, strike_fields);
  if (!request.good()) return failure(std::move(request.problems));
  auto ids = known_ids(session, request.reader.texts("events"), "/events");
  if (!ids) return failure(std::move(ids.error()));
  json act = {{"events", texts_of(versions_of(session, *ids))}};
  if (const auto why = request.reader.text("why")) act["why"] = *why;
  Recorder recorder(session, *request.desk);
  recorder.note("strike", std::move(act), session.today);
  return noted_answer(session, recorder);
}

Result<Answer> journal_answer(const Session& session, const json& body) {
  Request request(session, body, answer_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string name = *request.reader.text("question");
  const auto& open = session.facts.questions;
  const auto question =
      std::find_if(open.begin(), open.end(), [&](const auto& q) { return q.name() == name; });
  if (question == open.end()) return failure({"question-unknown", "/question", name, {}});
  const std::string take = *request.reader.text("take");
  if (question->code == "same-person" && take == "same") return joined(session, request, *question);
  if (auto problem = refusal_of_group_answer(*question, take)) return failure(std::move(*problem));
  const journal::Kind* kind = journal::kinds().find(question->events.front()->kind);
  const bool one_value =
      kind != nullptr && kind->rule == journal::Rule::one && kind->question == question->code;
  if (take == "all" && one_value) return failure({"answer-one-only", "/take", take, {}});
  Ids takes, leaves;
  for (const Event* event : question->events)
    (take == "all" || event->id.text() == take ? takes : leaves).push_back(event->id);
  if (takes.empty() && take != "none") return failure({"answer-unknown", "/take", take, {}});
  Recorder recorder(session, *request.desk);
  recorder.note("choice",
                {{"question", name}, {"takes", texts_of(takes)}, {"leaves", texts_of(leaves)}},
                session.today);
  return noted_answer(session, recorder);
}

Result<Answer> journal_forget(const Session& session, const json& body) {
  Request request(session, body, forget_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string member = *request.reader.text("member");
  if (session.facts.find("member", member) == nullptr &&
      session.facts.find("name", member) == nullptr)
    return failure({"member-unknown", "/member", member, {}});
  Recorder recorder(session, *request.desk);
  recorder.note("forget",
                {{"member", member}, {"farms", journal::farms_to_forget(session.facts, member)}},
                session.today);
  return noted_answer(session, recorder);
}

Result<Answer> journal_lost(const Session& session, const json& body) {
  Request request(session, body, lost_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string lost = *request.reader.text("lost");
  const std::int64_t known = session.events.last_counter(lost);
  const auto last = request.reader.count("last");
  if (!request.good()) return failure(std::move(request.problems));
  if (known == 0) return failure({"device-unknown", "/lost", lost, {}});
  Recorder recorder(session, *request.desk);
  recorder.note("device-lost", {{"device", lost}, {"last", last ? *last : known}}, session.today);
  return noted_answer(session, recorder);
}

}  // namespace wheyfield::api
