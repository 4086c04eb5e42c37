#include <algorithm>

#include "api/field_reader.h"
#include "api/group_answer.h"
#include "api/group_fields.h"
#include "api/journal_answer.h"
#include "api/plan_answer.h"
#include "api/plan_rows.h"
#include "group/spoiled.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using calendar::Date;
using journal::text_in;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;

const Fields meeting_fields{"GroupMeeting",
                            {{"on", Holds::date, false}, {"pages", Holds::flag, false}}};

// The plan of the season that the journal tells, when it tells one. A season that cannot be planned
// is said as a notice: the group's part of the page stands.
std::optional<WorkedPlan> plan_of_journal(const Session& session, Answer& answer, bool& told) {
  told = !session.facts.of("season").empty() || !session.facts.of("farm").empty();
  if (!told) return std::nullopt;
  Answer of_plan;
  auto worked = planned(session, json::object(), of_plan);
  if (!worked) {
    answer.problems.push_back({"meeting-without-plan",
                               "",
                               std::to_string(worked.error().size()),
                               {{"first", worked.error().front().field}},
                               Severity::notice});
    return std::nullopt;
  }
  answer.used = std::move(of_plan.used);
  return std::optional<WorkedPlan>(std::move(*worked));
}

// As `season.plan` answers them.
Json meetings_of(const WorkedPlan& worked) { return Json::parse(meetings_text(worked)); }

std::optional<PlannedMeeting> planned_meeting(const WorkedPlan& worked, const Json& meetings,
                                              Date on) {
  const std::string id = "meeting-" + on.iso();
  for (const Json& fields : meetings) {
    if (fields["date"] != on.iso()) continue;
    for (sheet::Page& page : plan_pages(worked))
      if (page.id() == id) return PlannedMeeting{fields, std::move(page)};
  }
  return std::nullopt;
}

bool got_some_since(const Session& session, const std::string& farm, Date day, Date until) {
  const auto& handed_out = session.facts.of("handed-out");
  return std::any_of(handed_out.begin(), handed_out.end(), [&](const journal::Item& item) {
    const journal::Event& event = *item.said.back();
    return text_in(event.body, "farm") == farm && event.on >= day && event.on <= until;
  });
}

// What the plan had for who stayed away at the last meeting, unless something was handed over
// since.
Missed missed_share(const Session& session, const Json& meetings, group::Away away, Date last,
                    Date on) {
  Missed missed{std::move(away), 0, ""};
  const std::string& farm = missed.who.farm;
  if (farm.empty() || got_some_since(session, farm, last, on)) return missed;
  for (const Json& meeting : meetings) {
    if (meeting["date"] != last.iso()) continue;
    for (const Json& share : meeting["shares"]) {
      if (share["farm"] != farm) continue;
      const auto given = share["serum_ml"].get<std::int64_t>();
      missed.kept_ml = std::max<std::int64_t>(0, given - share["short_ml"].get<std::int64_t>());
      if (share["send_by"].is_string()) missed.send_by = share["send_by"];
    }
  }
  return missed;
}

// Members who are there, by code; then the farms of which no member is known.
std::vector<group::Away> attendance_list(const Session& session,
                                         const std::vector<group::Member>& members, Date on) {
  std::vector<group::Away> list;
  std::vector<std::string> known;
  for (const group::Member& member : members) {
    known.push_back(member.farm.empty() ? member.code : member.farm);
    if (member.here(on)) list.push_back({member.code, member.farm});
  }
  std::vector<std::string> farms;
  for (const journal::Item& item : session.facts.of("farm")) {
    const std::string code = text_in(item.body, "code");
    if (std::count(known.begin(), known.end(), code) == 0) farms.push_back(code);
  }
  for (std::string& farm : group::in_code_order(std::move(farms)))
    list.push_back({"", std::move(farm)});
  return list;
}

void gather_people(const Session& session, const group::Persons& persons, GroupMeeting& meeting) {
  const auto members = group::members(session.facts, persons);
  meeting.list = attendance_list(session, members, meeting.on);
  const Date after = meeting.last.value_or(group::first_day());
  for (const group::Member& member : members)
    for (const group::Move& move : member.moves)
      if (move.on > after && move.on <= meeting.on)
        (move.in ? meeting.joined : meeting.left).push_back(member.code);
}

// Of which something may still stand somewhere, or go from hand to hand.
std::vector<std::string> spoiled_and_used(const journal::Facts& facts, Date on) {
  std::vector<std::string> batches;
  for (const group::Spoiled& spoiled : group::spoiled_batches(facts, on))
    if (!spoiled.made.empty() || !spoiled.handed_out.empty()) batches.push_back(spoiled.batch);
  return batches;
}

GroupMeeting gathered(const Session& session, Date on, Answer& answer) {
  const journal::Facts& facts = session.facts;
  const group::Persons persons(facts);
  const auto& units = session.data.units();
  GroupMeeting meeting;
  meeting.on = on;
  meeting.meeting_day = group::is_meeting_day(facts, on);
  meeting.last = group::last_meeting(facts, on);
  meeting.duties = group::duties_on(facts, on);
  meeting.products = group::hand_outs(facts, units, on);
  meeting.spoiled = spoiled_and_used(facts, on);
  meeting.in_all = group::payments(facts, units, persons, group::first_day(), on);
  meeting.since =
      group::payments(facts, units, persons, meeting.last.value_or(group::first_day()), on);
  meeting.absent_twice = group::absent_twice(facts, persons, on);
  meeting.visits_due = group::visits_due(facts, persons, on);
  gather_people(session, persons, meeting);
  Json meetings = Json::array();
  const auto worked = plan_of_journal(session, answer, meeting.season_told);
  if (worked) {
    meetings = meetings_of(*worked);
    meeting.plan = planned_meeting(*worked, meetings, on);
  }
  // Of an older meeting nobody knows whether the time of its uses has passed.
  if (meeting.last && group::next_meeting(facts, *meeting.last + 1) != on) meetings.clear();
  if (meeting.last)
    for (group::Away& away : group::away_on(facts, persons, *meeting.last))
      meeting.missed.push_back(missed_share(session, meetings, std::move(away), *meeting.last, on));
  return meeting;
}

Json missed_json(const std::vector<Missed>& missed) {
  Json list = Json::array();
  for (const Missed& one : missed)
    list.push_back({{"member", one.who.member},
                    {"farm", one.who.farm},
                    {"kept_ml", one.kept_ml},
                    {"send_by", one.send_by.empty() ? Json() : Json(one.send_by)}});
  return list;
}

Json products_json(const std::vector<group::HandOut>& products) {
  Json list = Json::array();
  for (const group::HandOut& one : products)
    list.push_back({{"product", one.product},
                    {"had_ml", one.had_ml},
                    {"made_ml", one.made_ml},
                    {"handed_out_ml", one.handed_out_ml},
                    {"spoiled_ml", one.spoiled_ml},
                    {"left_ml", one.left_ml()},
                    {"unread", one.unread.size()}});
  return list;
}

Json duties_json(const std::vector<group::Duty>& duties) {
  Json list = Json::array();
  for (const group::Duty& duty : duties)
    list.push_back(
        {{"duty", duty.duty}, {"member", duty.member}, {"from", duty.from}, {"until", duty.until}});
  return list;
}

Json attendance_json(const std::vector<group::Away>& people) {
  Json list = Json::array();
  for (const group::Away& one : people)
    list.push_back({{"member", one.member}, {"farm", one.farm}});
  return list;
}

void add_meeting_fields(const Session& session, const GroupMeeting& meeting, Answer& answer) {
  Json& fields = answer.fields;
  fields["on"] = meeting.on.iso();
  fields["meeting_day"] = meeting.meeting_day;
  fields["plan"] = meeting.plan ? meeting.plan->fields : Json();
  fields["last_meeting"] = meeting.last ? Json(meeting.last->iso()) : Json();
  fields["absent_last"] = missed_json(meeting.missed);
  fields["absent_twice"] = meeting.absent_twice;
  fields["duties"] = duties_json(meeting.duties);
  fields["products"] = products_json(meeting.products);
  fields["lost_batches"] = meeting.spoiled;
  fields["paid_in"] = {{"since", paid_json(meeting.since.all.in)},
                       {"in_all", paid_json(meeting.in_all.all.in)}};
  fields["paid_out"] = {{"since", paid_json(meeting.since.all.out)},
                        {"in_all", paid_json(meeting.in_all.all.out)}};
  fields["unread_payments"] = meeting.in_all.unread.size();
  fields["joined"] = meeting.joined;
  fields["left"] = meeting.left;
  fields["attendance"] = attendance_json(meeting.list);
  fields["visits_due"] = meeting.visits_due;
  fields["questions"] = Json::array();
  for (const journal::Question& question : session.facts.questions)
    fields["questions"].push_back(question_json(session, question));
}

}  // namespace

const Fields& group_meeting_fields() { return meeting_fields; }

Result<Answer> group_meeting(const Session& session, const json& body) {
  Problems problems = check_shape(body, meeting_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  const auto asked = outcome::has_errors(problems) ? std::nullopt : r.date("on");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const Date on =
      asked ? *asked : group::next_meeting(session.facts, session.today).value_or(session.today);
  Answer answer;
  const GroupMeeting meeting = gathered(session, on, answer);
  if (!meeting.meeting_day)
    answer.problems.push_back(
        {"no-meeting-day", "/on", on.iso(), {{"day", session.words.date(on)}}, Severity::notice});
  add_meeting_fields(session, meeting, answer);
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(group_meeting_page(session, meeting))});
  return answer;
}

}  // namespace wheyfield::api
