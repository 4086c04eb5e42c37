#include "api/fields.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>

#include <nlohmann/json.hpp>

namespace wheyfield::api {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 21> holds_names{
    "text",     "number", "money",        "volume",  "area", "length", "mix-per-area",
    "strength", "date",   "month",        "weekday", "days", "one-in", "pack",
    "flag",     "choice", "size-by-size", "object",  "list", "texts",  "mass"};

const Fields head{"SeasonHead",
                  {{"name", Holds::text, true},
                   {"from", Holds::date, true},
                   {"to", Holds::date, true},
                   {"first_start", Holds::date, true},
                   {"currency", Holds::text, true},
                   {"recipe", Holds::text, true},
                   {"strength", Holds::strength, true},
                   {"windows", Holds::choice, false, "calendar|degree-days"},
                   {"serum_life", Holds::days, true},
                   {"spare", Holds::one_in, true}}};
const Fields meetings{"Meetings",
                      {{"day", Holds::weekday, true}, {"none_on", Holds::texts, false}}};
const Fields market{"Market", {{"day", Holds::weekday, true}}};
const Fields measure{"Measure", {{"name", Holds::text, true}, {"is", Holds::text, true}}};
const Fields month{
    "MonthMean",
    {{"month", Holds::month, true}, {"min", Holds::number, true}, {"max", Holds::number, true}}};
const Fields reading{
    "Reading",
    {{"date", Holds::date, true}, {"min", Holds::number, true}, {"max", Holds::number, true}}};
const Fields place{"Place",
                   {{"name", Holds::text, true},
                    {"altitude", Holds::length, true},
                    {"months", Holds::list, false, "", &month},
                    {"station", Holds::text, false},
                    {"readings", Holds::list, false, "", &reading}}};
const Fields milk{"MilkRule",
                  {{"from", Holds::date, false},
                   {"until", Holds::date, false},
                   {"day", Holds::text, true},
                   {"most", Holds::volume, true},
                   {"price", Holds::money, true}}};
const Fields vessel{"Vessel",
                    {{"name", Holds::text, true},
                     {"at", Holds::text, true},
                     {"size", Holds::volume, true},
                     {"fill_line", Holds::volume, true},
                     {"milk", Holds::choice, false, "heated|raw"},
                     {"kind", Holds::choice, false, "bucket|heap|apart"}}};
const Fields container{"Container",
                       {{"kind", Holds::choice, true, "can"},
                        {"size", Holds::volume, true},
                        {"count", Holds::number, true},
                        {"without_lid", Holds::number, false}}};
const Fields water{"Water",
                   {{"place", Holds::text, true},
                    {"kind", Holds::choice, true, "tap-chlorinated|river|tank|rain|well"},
                    {"price_per_can", Holds::money, true}}};
const Fields labour{"Labour",
                    {{"day", Holds::money, true},
                     {"hours", Holds::number, true},
                     {"meeting_day_hours", Holds::number, false},
                     {"other_day_hours", Holds::number, false}}};
const Fields price{
    "Price",
    {{"item", Holds::text, true}, {"pack", Holds::pack, true}, {"price", Holds::money, true}}};
const Fields stock{
    "StockItem",
    {{"item", Holds::text, true}, {"amount", Holds::pack, true}, {"made_on", Holds::date, false}}};
const Fields produce{
    "Produce",
    {{"crop", Holds::text, true}, {"price", Holds::money, true}, {"per", Holds::text, true}}};
const Fields preparation{"Preparation",
                         {{"recipe", Holds::text, true},
                          {"amount", Holds::volume, true},
                          {"by", Holds::date, true},
                          {"until", Holds::date, false},
                          {"keeps", Holds::days, true}}};
const Fields absence{"Absence", {{"farm", Holds::text, true}, {"on", Holds::date, true}}};
const Fields field{"FieldOfFarm",
                   {{"crop", Holds::text, true},
                    {"area", Holds::area, true},
                    {"sowing", Holds::choice, true, "direct|nursery|tuber|cutting"},
                    {"sown_on", Holds::date, true},
                    {"nursery_on", Holds::date, false},
                    {"seed", Holds::choice, false, "own|bought|dressed"},
                    {"harvest_after", Holds::days, true},
                    {"own_count", Holds::days, false},
                    {"emerged_on", Holds::date, false},
                    {"flower_or_swelling_on", Holds::date, false},
                    {"first_fruit_on", Holds::date, false},
                    {"seed_mass", Holds::pack, false},
                    {"method", Holds::choice, false, "round-stem"},
                    {"per_plant", Holds::volume, false},
                    {"spacing", Holds::size_by_size, false}}};
const Fields farm{"Farm",
                  {{"code", Holds::text, true},
                   {"place", Holds::text, true},
                   {"method", Holds::choice, true, "knapsack|leafy-branch|can"},
                   {"mix_rate", Holds::mix_per_area, false},
                   {"cap", Holds::volume, false},
                   {"can", Holds::volume, true},
                   {"sprayer", Holds::volume, false},
                   {"borrows_sprayer_of", Holds::text, false},
                   {"sprayer_last_held", Holds::text, false},
                   {"trial_plot", Holds::flag, false},
                   {"fields", Holds::list, true, "", &field}}};
const Fields season{"Season",
                    {{"season", Holds::object, true, "", &head},
                     {"meetings", Holds::object, true, "", &meetings},
                     {"market", Holds::object, true, "", &market},
                     {"measures", Holds::list, false, "", &measure},
                     {"places", Holds::list, true, "", &place},
                     {"milk", Holds::list, true, "", &milk},
                     {"vessels", Holds::list, true, "", &vessel},
                     {"containers", Holds::list, false, "", &container},
                     {"water", Holds::list, true, "", &water},
                     {"labour", Holds::object, true, "", &labour},
                     {"prices", Holds::list, true, "", &price},
                     {"stock", Holds::list, false, "", &stock},
                     {"produce", Holds::list, false, "", &produce},
                     {"preparations", Holds::list, false, "", &preparation},
                     {"absences", Holds::list, false, "", &absence},
                     {"farms", Holds::list, true, "", &farm}}};

std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> parts;
  while (!text.empty()) {
    const std::size_t bar = text.find('|');
    parts.emplace_back(text.substr(0, bar));
    text = bar == std::string_view::npos ? std::string_view() : text.substr(bar + 1);
  }
  return parts;
}

std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] != b[j - 1])});
      diagonal = above;
    }
  }
  return row[b.size()];
}

bool shape_fits(const json& value, Holds holds) {
  switch (holds) {
    case Holds::object:
      return value.is_object();
    case Holds::list:
      return value.is_array();
    case Holds::texts:
      return value.is_array() &&
             std::all_of(value.begin(), value.end(), [](const json& v) { return v.is_string(); });
    case Holds::flag:
      return value.is_boolean();
    default:
      return value.is_string() || value.is_number();
  }
}

void check_value(const json& value, const Field& f, const std::string& at,
                 outcome::Problems& problems) {
  if (!shape_fits(value, f.holds)) {
    problems.push_back({"wrong-shape",
                        at,
                        value.dump().substr(0, 60),
                        {{"shape", std::string(holds_name(f.holds))}}});
    return;
  }
  if (f.holds == Holds::object && f.inner)
    outcome::append(problems, check_shape(value, *f.inner, at));
  if (f.holds == Holds::list)
    for (std::size_t i = 0; i < value.size(); ++i)
      outcome::append(problems, check_shape(value[i], *f.inner, at + "/" + std::to_string(i)));
  if (f.holds != Holds::choice) return;
  const std::string word = value.is_string() ? value.get<std::string>() : value.dump();
  const std::vector<std::string> known = split(f.choices);
  if (std::find(known.begin(), known.end(), word) == known.end())
    problems.push_back({"choice-unknown",
                        at,
                        word,
                        {{"known", joined(known)}, {"suggestion", nearest(word, known)}}});
}

}  // namespace

const Fields& season_fields() { return season; }
const Fields& month_fields() { return month; }
const Fields& reading_fields() { return reading; }

std::string_view holds_name(Holds holds) { return holds_names[static_cast<std::size_t>(holds)]; }

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  std::string best;
  std::size_t least = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& name : known)
    if (const std::size_t d = edits(word, name); d < least) {
      least = d;
      best = name;
    }
  return best;
}

outcome::Problems check_shape(const json& body, const Fields& fields, const std::string& pointer) {
  outcome::Problems problems;
  if (!body.is_object()) {
    problems.push_back({"wrong-shape", pointer, body.dump().substr(0, 60), {{"shape", "object"}}});
    return problems;
  }
  std::vector<std::string> known;
  for (const Field& f : fields.fields) known.emplace_back(f.name);
  for (const auto& [key, value] : body.items())
    if (std::find(known.begin(), known.end(), key) == known.end())
      problems.push_back({"key-unknown",
                          pointer + "/" + key,
                          key,
                          {{"known", joined(known)}, {"suggestion", nearest(key, known)}}});
  for (const Field& f : fields.fields) {
    const std::string name(f.name);
    const std::string at = pointer + "/" + name;
    const auto found = body.find(name);
    const bool blank = found == body.end() || found->is_null() ||
                       (found->is_string() && found->get<std::string>().empty());
    if (!blank) check_value(*found, f, at, problems);
    if (!blank || !f.required) continue;
    const bool many = f.holds == Holds::list || f.holds == Holds::object;
    problems.push_back({many ? "missing" : "missing-" + name, at, "", {{"name", name}}});
  }
  return problems;
}

namespace {

void add_type(const Fields& fields, std::set<std::string>& seen, nlohmann::ordered_json& types) {
  if (!seen.insert(std::string(fields.name)).second) return;
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const Field& f : fields.fields) {
    nlohmann::ordered_json one = {
        {"name", f.name}, {"holds", holds_name(f.holds)}, {"required", f.required}};
    if (!f.choices.empty()) one["choices"] = split(f.choices);
    if (f.inner) one["type"] = f.inner->name;
    list.push_back(std::move(one));
  }
  types[std::string(fields.name)] = std::move(list);
  for (const Field& f : fields.fields)
    if (f.inner) add_type(*f.inner, seen, types);
}

}  // namespace

nlohmann::ordered_json schema_json(const std::vector<const Fields*>& wanted) {
  nlohmann::ordered_json types = nlohmann::ordered_json::object();
  std::set<std::string> seen;
  for (const Fields* fields : wanted) add_type(*fields, seen, types);
  return types;
}

}  // namespace wheyfield::api
