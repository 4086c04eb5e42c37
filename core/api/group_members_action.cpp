#include "api/field_reader.h"
#include "api/group_answer.h"
#include "api/group_fields.h"

namespace wheyfield::api {
namespace {

using group::Member;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;

const Fields members_fields{"GroupMembers", {{"pages", Holds::flag, false}}};

Json day_json(const std::optional<calendar::Date>& day) { return day ? Json(day->iso()) : Json(); }

// Everybody, with what was paid and taught up to today.
struct Membership {
  std::vector<Member> members;
  group::Payments paid;
  group::Taught taught;

  const group::Balance& balance(const std::string& code) const {
    static const group::Balance none;
    const auto found = paid.by_person.find(code);
    return found == paid.by_person.end() ? none : found->second;
  }
  std::int64_t taught_by(const std::string& code) const {
    const auto found = taught.people.find(code);
    return found == taught.people.end() ? 0 : found->second;
  }
};

Membership membership(const Session& session) {
  const group::Persons persons(session.facts);
  return {group::members(session.facts, persons),
          group::payments(session.facts, session.data.units(), persons, group::first_day(),
                          session.today),
          group::taught(session.facts, persons, session.today)};
}

Json member_json(const Membership& all, const Member& member) {
  const group::Balance& balance = all.balance(member.code);
  return {{"member", member.code},
          {"also", member.also},
          {"farm", member.farm},
          {"name", member.name},
          {"joined", day_json(member.joined_on())},
          {"left", day_json(member.left_on())},
          {"agreed", member.agreed},
          {"paid_in", paid_json(balance.in)},
          {"paid_out", paid_json(balance.out)},
          {"taught", all.taught_by(member.code)}};
}

std::string agreed_text(const Session& session, const Member& member) {
  std::vector<std::string> parts;
  for (const std::string& purpose : member.agreed) {
    const std::string key = "group.purpose." + purpose;
    parts.push_back(session.words.has(key) ? session.words.text(key) : purpose);
  }
  return list_text(parts);
}

std::string paid_cell(const Session& session, const group::Paid& paid) {
  return paid.nothing() ? "" : paid_text(session, paid);
}

sheet::Page members_page(const Session& session, const Membership& all) {
  const words::Catalogue& w = session.words;
  sheet::Page page("members", w.text("group.members-title"));
  page.text(w.text("group.members-counts", {{"n", all.members.size()}}));
  const auto day = [&](const std::optional<calendar::Date>& on) { return on ? w.date(*on) : ""; };
  std::vector<std::vector<std::string>> rows;
  for (const Member& member : all.members) {
    const group::Balance& balance = all.balance(member.code);
    std::vector<std::string> codes{member.code};
    codes.insert(codes.end(), member.also.begin(), member.also.end());
    const std::int64_t taught = all.taught_by(member.code);
    rows.push_back({list_text(codes), member.name, member.farm, day(member.joined_on()),
                    day(member.left_on()), agreed_text(session, member),
                    paid_cell(session, balance.in), paid_cell(session, balance.out),
                    taught > 0 ? std::to_string(taught) : ""});
  }
  page.table({{w.text("col.group-member"), true},
              {w.text("col.name"), false},
              {w.text("col.farm"), true},
              {w.text("col.joined"), false},
              {w.text("col.left-group"), false},
              {w.text("col.agreed"), false},
              {w.text("col.paid-in"), false},
              {w.text("col.paid-out"), false},
              {w.text("col.taught"), true}},
             std::move(rows));
  page.text(w.text("group.taught", {{"n", static_cast<long long>(all.taught.all)}}));
  if (const std::size_t n = all.paid.unread.size() + all.taught.unread.size(); n > 0)
    page.text(w.text("group.unread-notes", {{"n", n}}));
  return page;
}

}  // namespace

const Fields& group_members_fields() { return members_fields; }

Result<Answer> group_members(const Session& session, const json& body) {
  Problems problems = check_shape(body, members_fields, "");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const Membership all = membership(session);
  Answer answer;
  answer.fields["members"] = Json::array();
  for (const Member& member : all.members)
    answer.fields["members"].push_back(member_json(all, member));
  answer.fields["taught"] = all.taught.all;
  answer.fields["unread"] = all.paid.unread.size() + all.taught.unread.size();
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(members_page(session, all))});
  return answer;
}

}  // namespace wheyfield::api
