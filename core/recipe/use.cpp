#include "recipe/use.h"

#include <algorithm>

#include "recipe/reading.h"

namespace wheyfield::recipe {
namespace {

using nlohmann::json;
using outcome::Problems;
using reference_data::read_origin;
using reference_data::read_sourced;
using reference_data::read_string;

const Names<Place> places{{"leaves", Place::leaves},
                          {"soil", Place::soil},
                          {"seed", Place::seed},
                          {"drinking-water", Place::drinking_water},
                          {"not-said", Place::not_said}};
const Names<Store> stores{{"room", Store::room},
                          {"cool", Store::cool},
                          {"refrigerated", Store::refrigerated},
                          {"not-said", Store::not_said}};
const Names<Advice> advices{{"use", Advice::use},
                            {"extend", Advice::extend},
                            {"fix", Advice::fix},
                            {"discard", Advice::discard}};

template <class E>
const char* word_of(const Names<E>& names, E value) {
  for (const auto& [name, known] : names)
    if (known == value) return name;
  return names.front().first;
}

std::string optional_word(const json& row, const char* member, const std::string& field,
                          Problems& problems) {
  if (!row.is_object() || !row.contains(member)) return "";
  return take_or<std::string>(read_string(row, member, field), "", problems);
}

Sourced number(const json& row, const char* member, const std::string& field, Problems& problems) {
  const json value = row.is_object() ? row.value(member, json()) : json();
  return take_or(read_sourced(value, field + "/" + member), Sourced{}, problems);
}

Sign read_sign(const json& row, const std::string& field, Problems& problems) {
  Sign sign;
  sign.sign = take_or<std::string>(read_string(row, "sign", field), "", problems);
  sign.causes = read_strings(row, "causes");
  if (sign.causes.empty())
    problems.push_back({"data-missing", field, "causes", {{"member", "causes"}}});
  sign.action = take_or<std::string>(read_string(row, "action", field), "", problems);
  sign.verdict = read_word(row, "verdict", advices, field, problems);
  sign.origin = take_or(read_origin(row, field), Origin{}, problems);
  return sign;
}

HarvestGap read_gap(const json& row, const std::string& field, Problems& problems) {
  HarvestGap gap;
  gap.days = read_days(row, "days", field, problems);
  gap.where = take_or<std::string>(read_string(row, "where", field), "", problems);
  gap.rule = take_or<std::string>(read_string(row, "rule", field), "", problems);
  gap.origin = take_or(read_origin(row, field), Origin{}, problems);
  return gap;
}

std::optional<Strength> read_strength(const json& row, const std::string& field,
                                      Problems& problems) {
  if (!row.is_object() || !row.contains("strength_parts")) return std::nullopt;
  Strength strength;
  strength.parts =
      take_or(reference_data::read_number(row, "strength_parts", field), 0.0, problems);
  strength.on = read_word(row, "strength_on", places, field, problems);
  return strength;
}

bool weaker(const Dilution& a, const Dilution& b) {
  if (a.parts.high != b.parts.high) return a.parts.high > b.parts.high;
  return a.parts.low > b.parts.low;
}

}  // namespace

const char* place_word(Place place) { return word_of(places, place); }
const char* store_word(Store store) { return word_of(stores, store); }
const char* advice_word(Advice advice) { return word_of(advices, advice); }

void Use::note(reference_data::UsedSources& used) const {
  for (const Dilution& one : dilutions) used.note(one.parts.origin, "dilution");
  for (const Keeping& one : keeping) used.note(one.days.origin, "keeping");
  for (const Sign& one : signs) used.note(one.origin, "sign." + one.sign);
  for (const HarvestGap& one : harvest) used.note(one.origin, "harvest");
  for (const Content& one : contents) used.note(one.percent.origin, "content." + one.nutrient);
  if (ph) used.note(ph->origin, "ph");
}

double Use::spread() const {
  if (dilutions.size() < 2) return 1.0;
  double strongest = dilutions.front().parts.low;
  for (const Dilution& one : dilutions) strongest = std::min(strongest, one.parts.low);
  return dilutions.front().parts.high / strongest;
}

std::optional<calendar::Date> earliest_harvest(const Use& use, calendar::Date last_used,
                                               std::optional<int> own_days) {
  std::optional<int> longest = own_days;
  for (const HarvestGap& gap : use.harvest) longest = std::max(longest.value_or(0), gap.days);
  if (!longest) return std::nullopt;
  return last_used + *longest;
}

Use read_use(const json& recipe, const std::string& field, Problems& problems) {
  Use use;
  use.strength = read_strength(recipe, field, problems);
  each(recipe, "dilutions", field, [&](const json& row, const std::string& at) {
    use.dilutions.push_back({number(row, "parts", at, problems),
                             read_word(row, "on", places, at, problems),
                             optional_word(row, "says", at, problems), use.dilutions.size()});
  });
  std::stable_sort(use.dilutions.begin(), use.dilutions.end(), weaker);
  each(recipe, "keeping", field, [&](const json& row, const std::string& at) {
    use.keeping.push_back({number(row, "days", at, problems),
                           read_word(row, "store", stores, at, problems),
                           optional_word(row, "says", at, problems)});
  });
  each(recipe, "signs", field, [&](const json& row, const std::string& at) {
    use.signs.push_back(read_sign(row, at, problems));
  });
  each(recipe, "harvest", field, [&](const json& row, const std::string& at) {
    use.harvest.push_back(read_gap(row, at, problems));
  });
  each(recipe, "contents", field, [&](const json& row, const std::string& at) {
    use.contents.push_back({take_or<std::string>(read_string(row, "nutrient", at), "", problems),
                            number(row, "percent", at, problems),
                            optional_word(row, "says", at, problems)});
  });
  if (recipe.is_object() && recipe.contains("ph")) use.ph = number(recipe, "ph", field, problems);
  return use;
}

}  // namespace wheyfield::recipe
