#include "api/value_check.h"

#include <algorithm>
#include <map>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/field_reader.h"

namespace wheyfield::api {
namespace {

using outcome::Problems;

void read_value(const FieldReader& r, const Field& field) {
  const char* name = field.name.data();
  switch (field.holds) {
    case Holds::number:
      r.number(name);
      break;
    case Holds::money:
      r.money(name);
      break;
    case Holds::volume:
      r.volume(name);
      break;
    case Holds::area:
      r.area(name);
      break;
    case Holds::length:
      r.length(name);
      break;
    case Holds::mix_per_area:
      r.mix_per_area(name);
      break;
    case Holds::strength:
      r.strength(name);
      break;
    case Holds::date:
      r.date(name);
      break;
    case Holds::month:
      r.month(name);
      break;
    case Holds::weekday:
      r.weekday(name);
      break;
    case Holds::days:
      r.days(name);
      break;
    case Holds::one_in:
      r.one_in(name);
      break;
    case Holds::pack:
      r.pack(name);
      break;
    case Holds::size_by_size:
      r.size_by_size(name);
      break;
    case Holds::mass:
      r.mass(name);
      break;
    default:
      break;
  }
}

// Kinds that need one of several parts.
const std::map<std::string, std::vector<const char*>>& one_of_these() {
  static const std::map<std::string, std::vector<const char*>> parts{
      {"reading", {"ph", "set", "liquid", "smell", "surface", "temperature"}},
      {"weight", {"mass", "none_because"}},
      {"paid-in", {"amount", "money"}},
      {"paid-out", {"amount", "money"}}};
  return parts;
}

void want_something_said(const std::string& kind, const std::string& pointer, const FieldReader& r,
                         Problems& problems) {
  const auto parts = one_of_these().find(kind);
  if (parts == one_of_these().end()) return;
  std::string known;
  for (const char* part : parts->second) {
    if (r.given(part)) return;
    known += (known.empty() ? "" : ", ") + std::string(part);
  }
  problems.push_back({"note-says-nothing", pointer, kind, {{"known", known}}});
}

// A name has a kind of its own, so that it can be forgotten.
bool is_code(const std::string& text) {
  return text.size() <= 12 && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                  c == '-';
         });
}

}  // namespace

Problems check_values(const nlohmann::json& object, const Fields& fields,
                      const std::string& pointer, const quantity::UnitTable& units) {
  Problems problems = check_shape(object, fields, pointer);
  if (!object.is_object()) return problems;
  const FieldReader r(object, pointer, units, problems);
  for (const Field& field : fields.fields) {
    const std::string name(field.name);
    if (field.holds != Holds::list || !object.contains(name) || !object[name].is_array()) {
      read_value(r, field);
      continue;
    }
    for (std::size_t i = 0; i < object[name].size(); ++i) {
      if (!object[name][i].is_object()) continue;
      const FieldReader row(object[name][i], r.at(name.c_str()) + "/" + std::to_string(i), units,
                            problems);
      for (const Field& inner : field.inner->fields) read_value(row, inner);
    }
  }
  return problems;
}

Problems check_note(const std::string& kind, const nlohmann::json& body, const Fields& fields,
                    const std::string& pointer, const Session& session) {
  const reference_data::ReferenceData& data = session.data;
  Problems problems = check_values(body, fields, pointer, data.units());
  const FieldReader r(body, pointer, data.units(), problems);
  want_something_said(kind, pointer, r, problems);
  for (const char* member : {"member", "other", "by", "witness"})
    if (const auto code = r.text(member); code && !is_code(*code))
      r.add("code-unreadable", member, *code);
  if (const auto recipe = r.text("recipe"); recipe && session.recipe(*recipe) == nullptr) {
    std::vector<std::string> known;
    for (const recipe::Recipe& one : session.recipes) known.push_back(one.id);
    r.add("recipe-unknown", "recipe", *recipe, {{"suggestion", nearest(*recipe, known)}});
  }
  if (kind != "reading" || outcome::has_errors(problems)) return problems;
  if (const auto ph = r.number("ph"))
    r.refuse_outside(data.constant("ph-written"), "ph-out-of-range", "ph", *ph);
  if (const auto celsius = r.number("temperature"))
    r.refuse_outside(data.constant("bucket-celsius-written"), "bucket-celsius-out-of-range",
                     "temperature", *celsius);
  return problems;
}

}  // namespace wheyfield::api
