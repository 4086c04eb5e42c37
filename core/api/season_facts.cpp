#include "api/season_facts.h"

#include <algorithm>
#include <map>
#include <set>

#include "api/event_fields.h"
#include "group/persons.h"
#include "journal/kinds.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using journal::Facts;
using journal::Item;
using journal::text_in;
using nlohmann::json;
using outcome::Problems;

// Members of a row that an event has and a season body has not.
json without(json body, std::initializer_list<const char*> members) {
  for (const char* member : members) body.erase(member);
  return body;
}

// ---- facts -> body

const std::map<std::string, const char*>& members_of_sightings() {
  static const std::map<std::string, const char*> all{
      {"emerged", "emerged_on"},
      {"flower-or-swelling", "flower_or_swelling_on"},
      {"first-fruit", "first_fruit_on"}};
  return all;
}

// Farms that had people, of whom none is there any more.
std::set<std::string> farms_left(const Facts& facts, calendar::Date today) {
  std::set<std::string> left;
  std::set<std::string> held;
  for (const group::Member& member : group::members(facts, group::Persons(facts)))
    (member.here(today) ? held : left).insert(member.farm);
  for (const std::string& farm : held) left.erase(farm);
  return left;
}

// In the order in which they were first spoken of; several fields of one crop by their number.
std::vector<const Item*> fields_in_order(const Facts& facts) {
  const auto crop_of = [](const Item& item) {
    return text_in(item.body, "farm") + "/" + text_in(item.body, "crop");
  };
  const auto number = [](const Item* item) {
    const std::string nth = text_in(item->body, "nth");
    return nth.empty() ? std::string("1") : nth;
  };
  std::map<std::string, std::vector<const Item*>> of_crop;
  for (const Item& item : facts.of("field")) of_crop[crop_of(item)].push_back(&item);
  for (auto& [crop, items] : of_crop)
    std::stable_sort(items.begin(), items.end(), [&](const Item* a, const Item* b) {
      return group::code_before(number(a), number(b));
    });
  std::map<std::string, std::size_t> next;
  std::vector<const Item*> all;
  for (const Item& item : facts.of("field"))
    all.push_back(of_crop[crop_of(item)][next[crop_of(item)]++]);
  return all;
}

using Rows = std::map<std::string, const Item*>;

std::map<std::string, std::vector<const Item*>> fields_by_farm(const Facts& facts) {
  std::map<std::string, std::vector<const Item*>> all;
  for (const Item* item : fields_in_order(facts)) all[text_in(item->body, "farm")].push_back(item);
  return all;
}

json field_row(const Facts& facts, const Item& item) {
  json row = without(item.body, {"farm", "nth"});
  for (const auto& [what, member] : members_of_sightings()) {
    const Item* seen = facts.find("seen", item.identity + "/" + what);
    if (seen != nullptr) row[member] = seen->said.back()->on.iso();
  }
  return row;
}

json farm_rows(const Facts& facts, const std::set<std::string>& left, Rows& rows) {
  const auto fields = fields_by_farm(facts);
  json list = json::array();
  for (const Item& item : facts.of("farm")) {
    const std::string code = text_in(item.body, "code");
    const std::string pointer = "/farms/" + std::to_string(list.size());
    rows[pointer] = &item;
    json row = item.body;
    row["fields"] = json::array();
    const auto of_farm = fields.find(code);
    if (left.count(code) == 0 && of_farm != fields.end())
      for (const Item* field : of_farm->second) {
        rows[pointer + "/fields/" + std::to_string(row["fields"].size())] = field;
        row["fields"].push_back(field_row(facts, *field));
      }
    list.push_back(std::move(row));
  }
  return list;
}

// Does the vessel stand where nobody of the group is any more?
bool is_stranded(const Facts& facts, const std::set<std::string>& left, const Item& vessel) {
  const std::string at = text_in(vessel.body, "at");
  return !at.empty() && (left.count(at) != 0 || facts.find("farm", at) == nullptr);
}

void add_absences(const Facts& facts, json& rows) {
  for (const Item& item : facts.of("attendance")) {
    if (text_in(item.body, "came") != "no") continue;
    const Item* member = facts.find("member", text_in(item.body, "member"));
    const std::string farm = member == nullptr ? "" : text_in(member->body, "farm");
    const json row = {{"farm", farm}, {"on", item.said.back()->on.iso()}};
    const bool there = std::find(rows.begin(), rows.end(), row) != rows.end();
    if (!there && facts.find("farm", farm) != nullptr) rows.push_back(row);
  }
}

// ---- body -> events

bool is_blank(const json& value) {
  return value.is_null() || (value.is_string() && value.get_ref<const std::string&>().empty());
}

class Importer {
 public:
  Importer(const Facts& facts, calendar::Date on, Recorder& recorder)
      : facts_(facts), on_(on), recorder_(recorder) {}

  outcome::Result<Import> import(const json& body) {
    for (const SeasonSection& section : season_sections()) {
      const auto found = body.find(section.name);
      if (found == body.end()) continue;
      const std::string pointer = "/" + std::string(section.name);
      if (!section.list)
        row(std::string(section.kind), *found, pointer);
      else if (section.name == "farms")
        farms(*found);
      else
        rows(std::string(section.kind), *found, pointer);
    }
    if (!problems_.empty()) return outcome::failure(std::move(problems_));
    return std::move(import_);
  }

 private:
  void rows(const std::string& kind, const json& list, const std::string& pointer) {
    for (std::size_t i = 0; i < list.size(); ++i)
      row(kind, list[i], pointer + "/" + std::to_string(i));
  }

  void farms(const json& list) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string pointer = "/farms/" + std::to_string(i);
      row("farm", without(list[i], {"fields"}), pointer);
      const auto fields = list[i].find("fields");
      if (fields == list[i].end()) continue;
      std::map<std::string, int> of_crop;
      for (std::size_t f = 0; f < fields->size(); ++f) {
        json one = (*fields)[f];
        one["farm"] = as_said(list[i].value("code", json()));
        const int nth = ++of_crop[text_in(one, "crop")];
        if (nth > 1) one["nth"] = std::to_string(nth);
        row("field", one, pointer + "/fields/" + std::to_string(f));
      }
    }
  }

  void row(const std::string& kind_name, const json& row, const std::string& pointer) {
    journal::Event event;
    event.kind = kind_name;
    event.on = on_;
    event.body = json::object();
    for (const auto& [member, value] : row.items())
      if (!is_blank(value)) event.body[member] = as_said(value);
    const journal::Kind& kind = *journal::kinds().find(kind_name);
    const auto identity = journal::identity_of(kind, event);
    if (!identity) return;  // the season reader has said what is missing
    const auto [first, alone] = seen_[kind_name].emplace(*identity, pointer);
    if (!alone)
      problems_.push_back({"row-twice", pointer, *identity, {{"first", first->second}}});
    else
      note_what_is_new(kind, *identity, std::move(event.body), facts_, on_, recorder_, import_);
  }

  const Facts& facts_;
  calendar::Date on_;
  Recorder& recorder_;
  std::map<std::string, std::map<std::string, std::string>> seen_;
  Import import_;
  Problems problems_;
};

}  // namespace

SeasonTold season_told(const Facts& facts, calendar::Date today) {
  SeasonTold told{json::object(), {}, {}};
  if (facts.of("season").empty() && facts.of("farm").empty()) return told;
  const std::set<std::string> left = farms_left(facts, today);
  for (const SeasonSection& section : season_sections()) {
    const std::string name(section.name);
    const auto& items = facts.of(std::string(section.kind));
    if (!section.list) {
      if (items.empty()) continue;
      told.body[name] = items.front().body;
      told.rows["/" + name] = &items.front();
    } else if (section.name == "farms") {
      told.body[name] = farm_rows(facts, left, told.rows);
    } else {
      told.body[name] = json::array();
      for (const Item& item : items) {
        if (section.kind == "vessel" && is_stranded(facts, left, item)) {
          told.notices.push_back({"vessel-without-farm",
                                  "",
                                  text_in(item.body, "name"),
                                  {{"at", text_in(item.body, "at")}},
                                  outcome::Severity::notice});
          continue;
        }
        told.rows["/" + name + "/" + std::to_string(told.body[name].size())] = &item;
        told.body[name].push_back(item.body);
      }
    }
  }
  add_absences(facts, told.body["absences"]);
  return told;
}

outcome::Problems at_their_notes(const SeasonTold& told, Problems problems) {
  for (outcome::Problem& problem : problems) {
    std::string row = problem.field;
    while (!row.empty() && told.rows.count(row) == 0) row.erase(row.rfind('/'));
    if (row.empty()) continue;
    const std::string member = problem.field.substr(row.size());
    const auto& said = told.rows.at(row)->said;
    const auto saying = std::find_if(said.rbegin(), said.rend(), [&](const journal::Event* event) {
      return !member.empty() && event->body.contains(member.substr(1));
    });
    const journal::Event* note = saying == said.rend() ? said.back() : *saying;
    problem.field = "/notes/" + note->id.text() + member;
  }
  return problems;
}

outcome::Result<Import> import_season(const json& body, const Facts& facts, calendar::Date on,
                                      Recorder& recorder) {
  return Importer(facts, on, recorder).import(body);
}

}  // namespace wheyfield::api
