#include "api/farm_reader.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/fields.h"
#include "quantity/number_text.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::Severity;

std::string short_number(double value) {
  std::string text = std::to_string(quantity::rounded(value, 2));
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace

void ask_about_length(const FieldReader& r, const crop::Crop& crop, const crop::Lengths& usual) {
  r.add("harvest-far-from-table", "harvest_after", *r.text("harvest_after"),
        {{"crop", crop.id},
         {"least", std::to_string(usual.least)},
         {"most", std::to_string(usual.most)}},
        Severity::question);
}

bool ask_about_start(const FieldReader& r, const crop::Crop& crop) {
  const auto word = r.text("sowing");
  const auto start = crop::parse_start(word.value_or(""));
  if (!start || crop::is_usual_start(crop, *start)) return false;
  std::string usual;
  for (const std::string& way : crop.starts) usual += (usual.empty() ? "" : ", ") + way;
  r.add("sowing-unusual", "sowing", *word, {{"crop", crop.id}, {"usual", usual}},
        Severity::question);
  return true;
}

void ask_about_day_to_come(const FieldReader& r, const char* name,
                           const std::optional<calendar::Date>& seen, calendar::Date today) {
  if (seen && *seen > today)
    r.add("seen-after-today", name, seen->iso(), {{"today", today.iso()}}, Severity::question);
}

void FarmReader::read(season::Season& season) {
  const auto list = body_.find("farms");
  if (list == body_.end()) return;
  std::unordered_map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < list->size(); ++i) {
    const std::string pointer = "/farms/" + std::to_string(i);
    season::Farm one = farm((*list)[i], pointer, season);
    const auto [first, fresh] = seen.emplace(one.code, i);
    if (!fresh && !one.code.empty())
      problems_.push_back({"farm-code-twice",
                           pointer + "/code",
                           one.code,
                           {{"first", "/farms/" + std::to_string(first->second)}}});
    season.farms.push_back(std::move(one));
  }
  odd_units();
  borrowed_sprayers(season);
}

season::Farm FarmReader::farm(const json& object, const std::string& pointer,
                              const season::Season& season) {
  const FieldReader r(object, pointer, units_, problems_);
  season::Farm farm;
  farm.code = r.text("code").value_or("");
  const auto name = r.text("place");
  const auto place = std::find_if(season.places.begin(), season.places.end(),
                                  [&](const auto& p) { return name && p.name == *name; });
  if (place != season.places.end())
    farm.place = static_cast<std::size_t>(place - season.places.begin());
  else if (name)
    r.add("place-unknown", "place", *name);
  farm.method.id = r.text("method").value_or("knapsack");
  farm.method.mix_per_area = r.mix_per_area("mix_rate");
  if (farm.method.mix_per_area)
    r.refuse_outside(data_.constant("mix-rate-limits"), "mix-rate-out-of-range", "mix_rate",
                     quantity::in_litres(*farm.method.mix_per_area * quantity::acres(1)));
  farm.cap = r.volume("cap");
  if (farm.cap)
    r.refuse_outside(data_.constant("cap-volume-limits"), "cap-out-of-range", "cap",
                     quantity::in_millilitres(*farm.cap));
  farm.can = litres_within(r, "can", "can-volume-limits", "can-out-of-range")
                 .value_or(quantity::litres(20));
  farm.sprayer = litres_within(r, "sprayer", "sprayer-volume-limits", "sprayer-out-of-range");
  farm.borrows_sprayer_of = r.text("borrows_sprayer_of").value_or("");
  farm.sprayer_last_held = r.text("sprayer_last_held").value_or("");
  farm.trial_plot = r.flag("trial_plot");
  if (const auto fields = object.find("fields"); fields != object.end())
    for (std::size_t i = 0; i < fields->size(); ++i)
      farm.fields.push_back(field((*fields)[i], pointer + "/fields/" + std::to_string(i), season));
  return farm;
}

season::Field FarmReader::field(const json& object, const std::string& pointer,
                                const season::Season& season) {
  const FieldReader r(object, pointer, units_, problems_);
  season::Field field;
  if (const auto area = r.area("area")) {
    field.area = *area;
    area_questions(r, *area);
  }
  planting(r, field.planting);
  seen(r, field);
  sown_within(r, field.planting, season);
  harvest_questions(r, field.planting);
  round_stem(r, field);
  return field;
}

void FarmReader::planting(const FieldReader& r, crop::Planting& planting) {
  if (const auto crop = r.text("crop")) {
    planting.crop = crops_.find(*crop);
    if (!planting.crop)
      r.add("crop-unknown", "crop", *crop, {{"suggestion", nearest(*crop, crops_.ids())}});
  }
  planting.start = crop::parse_start(r.text("sowing").value_or("")).value_or(crop::Start::direct);
  if (planting.crop) ask_about_start(r, *planting.crop);
  const auto seed = r.text("seed");
  planting.seed = crop::parse_seed(seed.value_or("")).value_or(crop::Seed::dressed);
  const bool sown = planting.start == crop::Start::direct || planting.start == crop::Start::nursery;
  if (sown && !seed) r.add("seed-missing", "seed", "");
  if (const auto day = r.date("sown_on")) planting.set_out = *day;
  planting.nursery = r.date("nursery_on");
  if (planting.start == crop::Start::nursery && !planting.nursery && !r.text("nursery_on"))
    r.add("nursery-date-missing", "nursery_on", "");
  if (planting.nursery && *planting.nursery >= planting.set_out)
    r.add("nursery-date-late", "nursery_on", planting.nursery->iso(),
          {{"limit", planting.set_out.iso()}});
  planting.harvest_after = r.days("harvest_after").value_or(100);
}

// What was seen in the field, counted or weighed: all of it may be left out.
void FarmReader::seen(const FieldReader& r, season::Field& field) {
  field.seen.emerged = r.date("emerged_on");
  field.seen.fourth = r.date("flower_or_swelling_on");
  field.seen.fifth = r.date("first_fruit_on");
  ask_about_day_to_come(r, "emerged_on", field.seen.emerged, today_);
  ask_about_day_to_come(r, "flower_or_swelling_on", field.seen.fourth, today_);
  ask_about_day_to_come(r, "first_fruit_on", field.seen.fifth, today_);
  field.own_count = r.days("own_count");
  const auto mass = r.pack("seed_mass");
  if (!mass) return;
  if (mass->unit != "kg")
    return r.add("unit-other-kind", "seed_mass", *r.text("seed_mass"),
                 {{"unit", mass->unit}, {"known", "kg, g"}});
  if (!(mass->amount > 0.0)) return r.add("not-above-zero", "seed_mass", *r.text("seed_mass"));
  field.seed_mass = quantity::kilograms(mass->amount);
  if (r.text("seed").value_or("") == "dressed")
    r.add("seed-dressed-weighed", "seed_mass", *r.text("seed_mass"), {}, Severity::question);
}

// A perennial may have been planted last year; a year more is a slip of the pen.
void FarmReader::sown_within(const FieldReader& r, const crop::Planting& planting,
                             const season::Season& season) {
  const calendar::Date first = season.from - 365;
  if (!r.text("sown_on") || season.to <= season.from || planting.set_out == calendar::Date())
    return;
  if (planting.set_out < first || planting.set_out > season.to)
    r.add("sown-outside", "sown_on", planting.set_out.iso(),
          {{"from", first.iso()}, {"to", season.to.iso()}});
}

void FarmReader::harvest_questions(const FieldReader& r, const crop::Planting& planting) {
  if (!planting.crop || planting.crop->stages.empty() || !r.text("harvest_after")) return;
  const crop::Lengths usual =
      crop::usual_lengths(*planting.crop, data_.constant("harvest-length-limits"));
  if (planting.harvest_after < usual.least || planting.harvest_after > usual.most)
    ask_about_length(r, *planting.crop, usual);
}

void FarmReader::round_stem(const FieldReader& r, season::Field& field) {
  if (r.text("method").value_or("") != "round-stem") return;
  const auto per_plant =
      litres_within(r, "per_plant", "plant-mix-limits", "plant-mix-out-of-range");
  const auto spacing = r.size_by_size("spacing");
  if (spacing) spacing_within(r, *spacing);
  if (!r.text("per_plant")) r.add("round-stem-incomplete", "per_plant", "");
  if (!r.text("spacing")) r.add("round-stem-incomplete", "spacing", "");
  if (per_plant && spacing)
    field.round_stem = season::RoundStem{*per_plant, spacing->first, spacing->second};
}

std::optional<quantity::Volume> FarmReader::litres_within(const FieldReader& r, const char* name,
                                                          const char* limits,
                                                          const char* code) const {
  const auto volume = r.volume(name);
  if (volume) r.refuse_outside(data_.constant(limits), code, name, quantity::in_litres(*volume));
  return volume;
}

// Said once, of the number that is out.
void FarmReader::spacing_within(const FieldReader& r,
                                std::pair<quantity::Length, quantity::Length> spacing) const {
  const reference_data::Sourced& limits = data_.constant("spacing-limits");
  const auto [closer, wider] = std::minmax(spacing.first, spacing.second);
  const bool close = quantity::rounded(quantity::in_metres(closer), 6) < limits.low;
  r.refuse_outside(limits, "spacing-out-of-range", "spacing",
                   quantity::in_metres(close ? closer : wider));
}

void FarmReader::area_questions(const FieldReader& r, quantity::Area area) {
  const std::string text = *r.text("area");
  Written& written = area_units_[std::string(quantity::split_unit(text).unit)];
  if (written.count++ == 0) {
    written.pointer = r.at("area");
    written.text = text;
  }
  const double limit = data_.constant("area-question-above").value;
  const double acres = quantity::in_acres(area);
  if (acres <= limit) return;
  r.add("area-large", "area", text,
        {{"acres", short_number(acres)},
         {"side", std::to_string(std::lround(std::sqrt(quantity::in_square_metres(area))))},
         {"limit", short_number(limit)}},
        Severity::question);
}

// Hectares among acres: the commonest slip, two and a half times too much serum.
void FarmReader::odd_units() {
  if (area_units_.size() < 2) return;
  const auto usual = std::max_element(
      area_units_.begin(), area_units_.end(),
      [](const auto& a, const auto& b) { return a.second.count < b.second.count; });
  for (const auto& [unit, written] : area_units_) {
    if (unit == usual->first || written.count * 2 > usual->second.count) continue;
    const auto area = units_.area(written.text);
    const double acres = area ? quantity::in_acres(*area) : 0.0;
    const double side = area ? std::sqrt(quantity::in_square_metres(*area)) : 0.0;
    problems_.push_back({"area-other-unit",
                         written.pointer,
                         written.text,
                         {{"usual", usual->first},
                          {"acres", short_number(acres)},
                          {"side", std::to_string(std::lround(side))}},
                         Severity::question});
  }
}

void FarmReader::borrowed_sprayers(season::Season& season) {
  std::unordered_map<std::string, const season::Farm*> by_code;
  for (const season::Farm& farm : season.farms) by_code.emplace(farm.code, &farm);
  for (std::size_t i = 0; i < season.farms.size(); ++i) {
    season::Farm& farm = season.farms[i];
    if (farm.borrows_sprayer_of.empty()) continue;
    const auto owner = by_code.find(farm.borrows_sprayer_of);
    const std::string pointer = "/farms/" + std::to_string(i) + "/borrows_sprayer_of";
    if (owner == by_code.end() || !owner->second->sprayer) {
      problems_.push_back({"sprayer-owner-unknown", pointer, farm.borrows_sprayer_of, {}});
      continue;
    }
    if (!farm.sprayer) farm.sprayer = owner->second->sprayer;
    if (farm.sprayer_last_held.empty()) farm.sprayer_last_held = owner->second->sprayer_last_held;
  }
}

}  // namespace wheyfield::api
