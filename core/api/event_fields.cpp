#include "api/event_fields.h"

#include <algorithm>
#include <deque>
#include <map>
#include <string>

#include "journal/kinds.h"

namespace wheyfield::api {
namespace {

constexpr bool needed = true;

using H = Holds;

const Fields work[] = {
    {"batch",
     {{"label", H::text, needed},
      {"recipe", H::text},
      {"vessel", H::text},
      {"farm", H::text},
      {"milk", H::choice, false, "heated|raw"},
      {"amount", H::volume},
      {"half", H::choice, false, "morning|afternoon"},
      {"starter", H::choice, false, "rinse-water|serum|none"}}},
    {"reading",
     {{"batch", H::text, needed},
      {"half", H::choice, needed, "morning|afternoon"},
      {"ph", H::number},
      {"scale", H::choice, false, "half-strip|third-strip|meter"},
      {"set", H::choice, false, "yes|no"},
      {"liquid", H::choice, false, "clear|milky"},
      {"smell", H::choice, false, "clean-sour|sweet|putrid|other"},
      {"surface", H::choice, false, "clear|white-film|coloured-mould|gas"},
      {"temperature", H::number}}},
    {"step", {{"batch", H::text, needed}, {"step", H::text, needed}, {"amount", H::pack}}},
    {"made",
     {{"batch", H::text, needed}, {"product", H::text, needed}, {"amount", H::volume, needed}}},
    {"lost", {{"batch", H::text, needed}, {"why", H::text}, {"fate", H::text}}},
    {"use",
     {{"farm", H::text, needed},
      {"crop", H::text, needed},
      {"nth", H::text},
      {"use", H::text, needed},
      {"serum", H::volume},
      {"method", H::choice, false, "knapsack|leafy-branch|can|round-stem"},
      {"put_on", H::choice, false, "leaves|soil|seed"},
      {"none_because", H::text}}},
    {"seen",
     {{"farm", H::text, needed},
      {"crop", H::text, needed},
      {"nth", H::text},
      {"what", H::choice, needed, "emerged|flower-or-swelling|first-fruit"}}},
    {"plot",
     {{"plot", H::text, needed},
      {"farm", H::text, needed},
      {"crop", H::text},
      {"nth", H::text},
      {"size", H::size_by_size},
      {"note", H::text}}},
    {"draw",
     {{"trial", H::text, needed},
      {"farm", H::text, needed},
      {"with", H::text, needed},
      {"without", H::text}}},
    {"weight",
     {{"plot", H::text, needed},
      {"picking", H::text},
      {"farm", H::text, needed},
      {"mass", H::mass},
      {"none_because", H::text}}}};

const Fields group[] = {
    {"member", {{"member", H::text, needed}, {"farm", H::text}}},
    {"name",
     {{"member", H::text, needed}, {"name", H::text}, {"village", H::text}, {"phone", H::text}}},
    {"agreed",
     {{"member", H::text, needed},
      {"purpose", H::choice, needed, "records|result-nameless|donor-nameless|photo"},
      {"answer", H::choice, needed, "yes|no"},
      {"witness", H::text}}},
    {"same-person", {{"member", H::text, needed}, {"other", H::text, needed}}},
    {"joined", {{"member", H::text, needed}, {"farm", H::text}}},
    {"left", {{"member", H::text, needed}, {"farm", H::text}, {"why", H::text}}},
    {"duty",
     {{"duty", H::text, needed},
      {"from", H::date, needed},
      {"member", H::text, needed},
      {"until", H::date}}},
    {"meeting", {{"held", H::choice, false, "yes|no"}, {"topic", H::text}, {"place", H::text}}},
    {"attendance", {{"member", H::text, needed}, {"came", H::choice, needed, "yes|no"}}},
    {"paid-in",
     {{"member", H::text, needed},
      {"what", H::text, needed},
      {"amount", H::pack},
      {"money", H::money}}},
    {"paid-out",
     {{"what", H::text, needed},
      {"member", H::text},
      {"amount", H::pack},
      {"money", H::money},
      {"for", H::text}}},
    {"handed-out",
     {{"farm", H::text, needed},
      {"product", H::text, needed},
      {"amount", H::volume, needed},
      {"batch", H::text}}},
    {"visit", {{"farm", H::text, needed}, {"by", H::text, needed}, {"note", H::text}}},
    {"field-day", {{"place", H::text, needed}, {"people", H::number}, {"note", H::text}}},
    {"taught", {{"member", H::text, needed}, {"what", H::text, needed}, {"people", H::number}}}};

const Fields acts[] = {
    {"strike", {{"events", H::texts, needed}, {"why", H::text}}},
    {"choice",
     {{"question", H::text, needed}, {"takes", H::texts, needed}, {"leaves", H::texts, needed}}},
    {"forget", {{"member", H::text, needed}, {"farms", H::texts}}},
    {"device-lost", {{"device", H::text, needed}, {"last", H::number, needed}}}};

const Field& field_named(const Fields& fields, std::string_view name) {
  return *std::find_if(fields.fields.begin(), fields.fields.end(),
                       [&](const Field& f) { return f.name == name; });
}

// The fields of a season section, only what its kind needs required.
Fields said_about(std::string_view kind, const Fields& section) {
  Fields fields{kind, {}};
  const journal::Kind& of = *journal::kinds().find(kind);
  for (Field f : section.fields) {
    if (f.name == "fields") continue;
    f.required = std::any_of(of.identity.begin(), of.identity.end(), [&](const auto& part) {
      return part.needed && part.member == f.name;
    });
    fields.fields.push_back(f);
  }
  if (kind == "field") {
    fields.fields.insert(fields.fields.begin(), {"farm", H::text, needed});
    fields.fields.push_back({"nth", H::text});
  }
  return fields;
}

std::deque<Fields> made_up() {
  std::deque<Fields> all;
  for (const SeasonSection& section : season_sections()) {
    const Fields& of = *field_named(season_fields(), section.name).inner;
    all.push_back(said_about(section.kind, of));
    if (section.name == "farms")
      all.push_back(said_about("field", *field_named(of, "fields").inner));
  }
  all.insert(all.end(), std::begin(work), std::end(work));
  all.insert(all.end(), std::begin(group), std::end(group));
  all.insert(all.end(), std::begin(acts), std::end(acts));
  return all;
}

const std::deque<Fields>& all_fields() {
  static const std::deque<Fields> all = made_up();
  return all;
}

}  // namespace

const std::vector<SeasonSection>& season_sections() {
  static const std::vector<SeasonSection> sections{
      {"season", "season", false}, {"meetings", "meetings", false},
      {"market", "market", false}, {"measures", "measure"},
      {"places", "place"},         {"milk", "milk-rule"},
      {"vessels", "vessel"},       {"containers", "container"},
      {"water", "water"},          {"labour", "labour", false},
      {"prices", "price"},         {"stock", "stock"},
      {"produce", "produce"},      {"preparations", "preparation"},
      {"absences", "absence"},     {"farms", "farm"}};
  return sections;
}

const Fields* event_fields(std::string_view kind) {
  for (const Fields& fields : all_fields())
    if (fields.name == kind) return &fields;
  return nullptr;
}

std::vector<const Fields*> all_event_fields() {
  std::vector<const Fields*> all;
  for (const Fields& fields : all_fields()) all.push_back(&fields);
  return all;
}

}  // namespace wheyfield::api
