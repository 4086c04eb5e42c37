#include "api/note_doubts.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "api/fields.h"
#include "group/persons.h"
#include "group/spoiled.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using journal::text_in;
using nlohmann::json;
using outcome::Problems;
using outcome::Severity;

using Codes = std::set<std::string>;

Codes said_of(const Session& session, const char* kind, const char* member) {
  Codes codes;
  for (const journal::Item& item : session.facts.of(kind))
    for (const journal::Event* event : item.said)
      if (std::string code = text_in(event->body, member); !code.empty())
        codes.insert(std::move(code));
  return codes;
}

Codes members_of(const Session& session) {
  Codes codes;
  for (const char* kind : {"member", "name", "joined"})
    codes.merge(said_of(session, kind, "member"));
  return codes;
}

// A member of a body that names a thing, and the things of its sort that are noted.
struct Named {
  const char* member;
  const char* sort;  // "farm"
  Codes known;
};

std::vector<Named> named_in(const Session& session, const std::string& kind) {
  const bool introduces = kind == "member" || kind == "name" || kind == "joined";
  std::vector<Named> all{{"farm", "farm", said_of(session, "farm", "code")},
                         {"at", "farm", said_of(session, "farm", "code")},
                         {"batch", "batch", said_of(session, "batch", "label")},
                         {"vessel", "vessel", said_of(session, "vessel", "name")}};
  if (!introduces) all.push_back({"member", "member", members_of(session)});
  all.push_back({"other", "member", members_of(session)});
  all.push_back({"witness", "member", members_of(session)});
  if (kind == "weight") all.push_back({"plot", "plot", said_of(session, "plot", "plot")});
  if (kind == "farm" || kind == "water")
    all.push_back({"place", "place", said_of(session, "place", "name")});
  return all;
}

void ask_about_codes(const Session& session, const std::string& kind, const json& body,
                     Problems& problems) {
  for (const Named& named : named_in(session, kind)) {
    const std::string code = text_in(body, named.member);
    if (code.empty() || named.known.empty() || named.known.count(code) != 0) continue;
    problems.push_back({"code-not-noted",
                        "/body/" + std::string(named.member),
                        code,
                        {{"sort", session.words.text("code-sort." + std::string(named.sort))},
                         {"nearest", nearest(code, {named.known.begin(), named.known.end()})}},
                        Severity::notice});
  }
}

void ask_about_day(const Session& session, calendar::Date on, Problems& problems) {
  const int ahead = on - session.today;
  const bool far = ahead > session.data.constant("note-days-ahead").value ||
                   -ahead > session.data.constant("note-days-back").value;
  if (!far) return;
  problems.push_back({"day-far",
                      "/on",
                      on.iso(),
                      {{"days", std::to_string(std::abs(ahead))},
                       {"way", session.words.text(ahead > 0 ? "day-far.ahead" : "day-far.back")}},
                      Severity::notice});
}

void warn_of_lost(const Session& session, const std::string& kind, const json& body,
                  Problems& problems) {
  if (kind != "made" && kind != "handed-out") return;
  const std::string batch = text_in(body, "batch");
  for (const group::Spoiled& spoiled : group::spoiled_batches(session.facts)) {
    if (spoiled.batch != batch) continue;
    std::string signs;
    for (const journal::Event* sign : spoiled.signs)
      signs += (signs.empty() ? "" : ", ") + sign->id.text();
    problems.push_back(
        {"batch-was-lost", "/body/batch", batch, {{"signs", signs}}, Severity::notice});
  }
}

void ask_about_currency(const Session& session, const json& body, Problems& problems) {
  const auto& seasons = session.facts.of("season");
  const bool known = !seasons.empty() && !text_in(seasons.front().body, "currency").empty();
  if (body.contains("money") && !known)
    problems.push_back({"money-without-currency", "/body/money", "", {}, Severity::notice});
}

}  // namespace

Problems note_doubts(const Session& session, const std::string& kind, const json& body,
                     calendar::Date on) {
  Problems problems;
  warn_of_lost(session, kind, body, problems);
  ask_about_day(session, on, problems);
  ask_about_codes(session, kind, body, problems);
  ask_about_currency(session, body, problems);
  return problems;
}

}  // namespace wheyfield::api
