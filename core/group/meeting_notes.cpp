#include "group/meeting_notes.h"

#include <algorithm>
#include <set>

#include "calendar/meeting_days.h"
#include "journal/standing.h"
#include "quantity/number_text.h"

namespace wheyfield::group {
namespace {

using calendar::Date;
using journal::Event;
using journal::Facts;
using journal::Item;
using journal::text_in;

// Person -> day -> came. Of two codes of one person on a day: came, if one of them came.
using Attendance = std::map<std::string, std::map<int, bool>>;

Attendance attendance(const Facts& facts, const Persons& persons) {
  Attendance all;
  for (const Item& item : facts.of("attendance")) {
    if (!item.body.contains("came")) continue;  // two devices differ about it
    auto& days = all[persons.of(text_in(item.body, "member"))];
    days[item.said.back()->on.days()] |= text_in(item.body, "came") == "yes";
  }
  return all;
}

std::optional<Date> day_in(const Item& item, const char* member) {
  const auto day = calendar::parse_date(text_in(item.body, member));
  return day ? std::optional<Date>(*day) : std::nullopt;
}

// The group's weekday, when one is noted.
std::optional<calendar::MeetingDays> meeting_days(const Facts& facts) {
  const auto& noted = facts.of("meetings");
  if (noted.empty()) return std::nullopt;
  const auto& body = noted.front().body;
  const auto weekday = calendar::parse_weekday(text_in(body, "day"));
  if (!weekday) return std::nullopt;
  calendar::MeetingDays days{*weekday, {}};
  const auto none_on = body.find("none_on");
  if (none_on == body.end() || !none_on->is_array()) return days;
  for (const auto& text : *none_on)
    if (const auto day = calendar::parse_date(text.is_string() ? text.get<std::string>() : ""))
      days.none_on.push_back(*day);
  return days;
}

// What is noted of one day, true = held or to be held.
std::map<int, bool> noted_meetings(const Facts& facts) {
  std::map<int, bool> noted;
  for (const Item& item : facts.of("meeting"))
    noted[item.said.back()->on.days()] = text_in(item.body, "held") != "no";
  return noted;
}

// Who holds the farm: persons there on the day, and whether anybody ever held it.
struct Holders {
  std::vector<std::string> here;
  bool any = false;
};

Holders holders(const std::vector<Member>& all, const std::string& farm, Date day) {
  Holders of;
  for (const Member& member : all) {
    if (member.farm != farm) continue;
    of.any = true;
    if (member.here(day)) of.here.push_back(member.code);
  }
  return of;
}

std::vector<std::string> farms_said_away(const Facts& facts, Date day) {
  std::vector<std::string> farms;
  for (const Item& item : facts.of("absence"))
    if (day_in(item, "on") == day) farms.push_back(text_in(item.body, "farm"));
  return in_code_order(std::move(farms));
}

// The numbers of the notes in a form that adds up alike in any order.
std::optional<std::int64_t> people_in(const Event& event) {
  const auto people = event.body.find("people");
  if (people == event.body.end()) return std::nullopt;
  const auto number =
      quantity::parse_number(people->is_string() ? people->get<std::string>() : people->dump());
  if (!number || !(*number >= 0.0) || *number > 1e6) return std::nullopt;
  return static_cast<std::int64_t>(*number);
}

}  // namespace

bool is_meeting_day(const Facts& facts, Date day) { return next_meeting(facts, day) == day; }

std::optional<Date> next_meeting(const Facts& facts, Date day) {
  const auto noted = noted_meetings(facts);
  const auto days = meeting_days(facts);
  constexpr int look_days = 366;
  for (Date on = day; on - day <= look_days; on = on + 1) {
    const auto said = noted.find(on.days());
    if (said == noted.end() ? days && days->meets(on) : said->second) return on;
  }
  return std::nullopt;
}

std::optional<Date> last_meeting(const Facts& facts, Date day) {
  std::optional<Date> last;
  const auto look_at = [&](Date on) {
    if (on < day && (!last || *last < on)) last = on;
  };
  for (const Item& item : facts.of("attendance")) look_at(item.said.back()->on);
  for (const auto& [on, held] : noted_meetings(facts))
    if (held) look_at(Date::from_days(on));
  return last;
}

std::vector<Away> away_on(const Facts& facts, const Persons& persons, Date day) {
  const std::vector<Member> all = members(facts, persons);
  const Attendance who = attendance(facts, persons);
  const auto noted = [&](const std::string& code) -> std::optional<bool> {
    const auto person = who.find(code);
    if (person == who.end() || person->second.count(day.days()) == 0) return std::nullopt;
    return person->second.at(day.days());
  };
  std::vector<Away> away;
  for (const Member& member : all)
    if (noted(member.code) == false) away.push_back({member.code, member.farm});
  for (const std::string& farm : farms_said_away(facts, day)) {
    const Holders of = holders(all, farm, day);
    if (!of.any) away.push_back({"", farm});
    const bool heard_of = std::any_of(of.here.begin(), of.here.end(),
                                      [&](const auto& code) { return noted(code).has_value(); });
    if (heard_of) continue;
    for (const std::string& code : of.here) away.push_back({code, farm});
  }
  return away;
}

std::vector<std::string> absent_twice(const Facts& facts, const Persons& persons, Date day) {
  const Attendance who = attendance(facts, persons);
  std::vector<std::string> twice;
  for (const Member& member : members(facts, persons)) {
    const auto days = who.find(member.code);
    if (days == who.end() || !member.here(day)) continue;
    int running = 0;
    for (const auto& [on, came] : days->second)
      if (on < day.days()) running = came ? 0 : running + 1;
    if (running >= 2) twice.push_back(member.code);
  }
  return twice;
}

std::vector<Duty> duties_on(const Facts& facts, Date day) {
  std::map<std::string, Duty> current;
  for (const Item& item : facts.of("duty")) {
    const auto from = day_in(item, "from");
    if (!from || *from > day) continue;
    Duty& duty = current[text_in(item.body, "duty")];
    if (duty.from < from->iso())
      duty = {text_in(item.body, "duty"), text_in(item.body, "member"), from->iso(),
              text_in(item.body, "until")};
  }
  std::vector<Duty> all;
  for (const auto& [name, duty] : current)
    if (duty.until.empty() || duty.until >= day.iso()) all.push_back(duty);
  return all;
}

Taught taught(const Facts& facts, const Persons& persons, Date up_to) {
  Taught sums;
  for (const Item& item : facts.of("taught"))
    for (const Event* event : item.said) {
      if (event->on > up_to) continue;
      const auto people = people_in(*event);
      if (!people) {
        sums.unread.push_back(event);
        continue;
      }
      sums.people[persons.of(text_in(event->body, "member"))] += *people;
      sums.all += *people;
    }
  return sums;
}

std::vector<std::string> visits_due(const Facts& facts, const Persons& persons, Date day) {
  const std::vector<Member> all = members(facts, persons);
  std::set<std::string> farms;
  for (const Item& item : facts.of("farm")) farms.insert(text_in(item.body, "code"));
  for (const Member& member : all)
    if (!member.farm.empty()) farms.insert(member.farm);
  for (const Item& item : facts.of("visit"))
    if (item.said.front()->on <= day) farms.erase(text_in(item.said.front()->body, "farm"));
  std::vector<std::string> due;
  for (const std::string& farm : farms) {
    const Holders of = holders(all, farm, day);
    if (!of.any || !of.here.empty()) due.push_back(farm);
  }
  return in_code_order(std::move(due));
}

}  // namespace wheyfield::group
