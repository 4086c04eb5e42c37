// What a person says, as events for the host to store: add, strike, answer, forget, lost.
#include <algorithm>
#include <set>

#include "api/append.h"
#include "api/event_fields.h"
#include "api/journal_answer.h"
#include "api/note_doubts.h"
#include "api/recorder.h"
#include "api/value_check.h"
#include "group/forget.h"
#include "group/sounds_alike.h"
#include "journal/standing.h"
#include "journal/versions.h"
#include "quantity/number_text.h"

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
                          {"last_note", Holds::number, false},
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
    else if (session.events.find(*id).size() > 1)
      problems.push_back({"event-id-shared", field, texts[i], {}});
    else
      ids.push_back(std::move(*id));
  }
  if (!problems.empty()) return failure(std::move(problems));
  return ids;
}

// Without those of `others`.
Ids all_but(Ids ids, const Ids& others) {
  ids.erase(std::remove_if(ids.begin(), ids.end(),
                           [&](const EventId& id) {
                             return std::find(others.begin(), others.end(), id) != others.end();
                           }),
            ids.end());
  return ids;
}

// Earlier answers to a question: a new one stands instead of them.
Ids answers_to(const Session& session, const std::string& question) {
  Ids ids;
  for (const Event* event : session.events.in_order())
    if (event->kind == "choice" && journal::text_in(event->body, "question") == question)
      ids.push_back(event->id);
  return ids;
}

// "KOBO-1,TANO-2" names several notes.
std::set<std::string> named_notes(const std::string& text) {
  std::set<std::string> notes;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find(',', start), text.size());
    notes.insert(std::string(quantity::trimmed(std::string_view(text).substr(start, end - start))));
    start = end + 1;
  }
  return notes;
}

json texts_of(const Ids& ids) {
  json list = json::array();
  for (const EventId& id : ids) list.push_back(id.text());
  return list;
}

// What was noted, when it can be read again: a host stores nothing else.
Result<Answer> noted_answer(const Session& session, const Recorder& recorder) {
  for (const Event& event : recorder.noted())
    if (auto read = journal::parse_event(journal::line_of(event)); !read)
      return failure(std::move(read.error()));
  Answer answer;
  answer.fields["events"] = recorder.events();
  Json said = Json::array();
  for (const Event& event : recorder.noted()) said.push_back(event_row(session, event));
  answer.fields["noted"] = std::move(said);
  return answer;
}

// Remarks in which a part of the person's name stands; they are not blanked.
Json remarks_naming(const Session& session, const group::Forgetting& going) {
  std::set<std::u32string> parts;
  for (const std::string& code : going.codes)
    if (const journal::Item* name = session.facts.find("name", code))
      for (std::u32string& word : group::sounded(journal::text_in(name->body, "name")))
        if (word.size() > 2) parts.insert(std::move(word));
  Json remarks = Json::array();
  for (const Event* event : session.events.in_order()) {
    const std::string said = remark_in(*event);
    const auto words = group::sounded(said);
    const bool named = std::any_of(words.begin(), words.end(), [&](const auto& word) {
      return std::any_of(parts.begin(), parts.end(),  // "sefis can": the mark is not heard
                         [&](const auto& part) { return word.compare(0, part.size(), part) == 0; });
    });
    if (named) remarks.push_back({{"id", event->id.text()}, {"says", said}});
  }
  return remarks;
}

// `blanks`: the notes whose bodies these acts would take; `text`: how many, and of which farms.
void put_what_would_go(const Session& session, const std::vector<Event>& acts,
                       const group::Forgetting& going, Answer& answer) {
  Json blanks = Json::array();
  for (const Event& head : would_blank(session, acts))
    for (const Event* event : session.events.find(head.id))
      blanks.push_back(event_row(session, *event));
  std::string farms;
  for (const std::string& farm : going.farms) farms += (farms.empty() ? "" : ", ") + farm;
  answer.fields["text"] =
      session.words.text(farms.empty() ? "journal.forget-names" : "journal.forget-farms",
                         {{"member", going.codes.front()}, {"n", blanks.size()}, {"farms", farms}});
  answer.fields["blanks"] = std::move(blanks);
  answer.fields["remarks"] = remarks_naming(session, going);
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
  if (journal::kinds().find(kind)->rule == journal::Rule::act)
    return failure({"kind-is-an-act", "/kind", kind, {}});
  outcome::append(request.problems, check_note(kind, body["body"], *fields, "/body", session));
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
  recorder.note(kind, as_said(body["body"]), on, journal::versions_of(session.events, *replaces));
  auto answer = noted_answer(session, recorder);
  if (answer) outcome::append(answer->problems, note_doubts(session, kind, body["body"], on));
  return answer;
}

Result<Answer> journal_strike(const Session& session, const json& body) {
  Request request(session, body, strike_fields);
  if (!request.good()) return failure(std::move(request.problems));
  auto ids = known_ids(session, request.reader.texts("events"), "/events");
  if (!ids) return failure(std::move(ids.error()));
  for (const EventId& id : *ids)
    if (const std::string& kind = session.events.find(id).front()->kind;
        kind == "forget" || kind == "device-lost")
      return failure({"never-struck", "/events", id.text(), {}});
  json act = {{"events", texts_of(journal::versions_of(session.events, *ids))}};
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
  const bool one_value = kind != nullptr && kind->question == question->code &&
                         (kind->rule == journal::Rule::one || kind->rule == journal::Rule::latest);
  std::set<std::string> named = take == "none" ? std::set<std::string>() : named_notes(take);
  if (one_value && (take == "all" || named.size() > 1))
    return failure({"answer-one-only", "/take", take, {}});
  Ids takes, leaves;
  for (const Event* event : question->events)
    (take == "all" || named.erase(event->id.text()) != 0 ? takes : leaves).push_back(event->id);
  if (take != "all" && !named.empty())
    return failure({"answer-unknown", "/take", *named.begin(), {}});
  // What is left is left in all its versions: else a corrected value would come back.
  leaves = all_but(journal::versions_of(session.events, leaves), takes);
  Recorder recorder(session, *request.desk);
  recorder.note("choice",
                {{"question", name}, {"takes", texts_of(takes)}, {"leaves", texts_of(leaves)}},
                session.today, answers_to(session, name));
  return noted_answer(session, recorder);
}

Result<Answer> journal_forget(const Session& session, const json& body) {
  Request request(session, body, forget_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string member = *request.reader.text("member");
  const group::Forgetting going = group::forgetting(session.facts, member);
  if (going.codes.empty()) return failure({"member-unknown", "/member", member, {}});
  Recorder recorder(session, *request.desk);
  for (const std::string& code : going.codes)
    recorder.note("forget", {{"member", code}, {"farms", going.farms}}, session.today);
  auto answer = noted_answer(session, recorder);
  if (answer) put_what_would_go(session, recorder.noted(), going, *answer);
  return answer;
}

Result<Answer> journal_lost(const Session& session, const json& body) {
  Request request(session, body, lost_fields);
  if (!request.good()) return failure(std::move(request.problems));
  const std::string lost = *request.reader.text("lost");
  const std::int64_t known = session.events.last_counter(lost);
  const auto last = request.reader.count("last_note");
  if (!request.good()) return failure(std::move(request.problems));
  if (known == 0) return failure({"device-unknown", "/lost", lost, {}});
  if (lost == request.desk->device) return failure({"lost-is-this-device", "/lost", lost, {}});
  Recorder recorder(session, *request.desk);
  recorder.note("device-lost", {{"device", lost}, {"last", last ? *last : known}}, session.today);
  return noted_answer(session, recorder);
}

}  // namespace wheyfield::api
