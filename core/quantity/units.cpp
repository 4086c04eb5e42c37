#include "quantity/units.h"

#include <algorithm>
#include <cctype>
#include <utility>

#include "quantity/number_text.h"

namespace wheyfield::quantity {
namespace {

using outcome::failure;
using outcome::Result;

bool same_but_case(std::string_view a, std::string_view b) {
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](char x, char y) {
           return std::tolower(static_cast<unsigned char>(x)) ==
                  std::tolower(static_cast<unsigned char>(y));
         });
}

template <class Same>
const Unit* first_match(const std::vector<Unit>& units, Same same) {
  for (const Unit& unit : units) {
    if (same(unit.name)) return &unit;
    if (std::any_of(unit.aliases.begin(), unit.aliases.end(), same)) return &unit;
  }
  return nullptr;
}

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

// Units of which `word` is only the end: "gallon" of "US gallon" and "imperial gallon".
std::vector<std::string> units_ending(const std::vector<Unit>& units, std::string_view word) {
  std::vector<std::string> found;
  const auto ends = [&](std::string_view name) {
    return name.size() > word.size() + 1 && name[name.size() - word.size() - 1] == ' ' &&
           same_but_case(name.substr(name.size() - word.size()), word);
  };
  for (const Unit& unit : units)
    if (ends(unit.name) || std::any_of(unit.aliases.begin(), unit.aliases.end(), ends))
      found.push_back(unit.name);
  return found;
}

}  // namespace

void UnitTable::add(Unit unit) { units_.push_back(std::move(unit)); }

const Unit* UnitTable::find(std::string_view name) const {
  const Unit* exact = first_match(units_, [&](std::string_view n) { return n == name; });
  if (exact) return exact;
  return first_match(units_, [&](std::string_view n) { return same_but_case(n, name); });
}

std::vector<std::string> UnitTable::names(Dimension dimension) const {
  std::vector<std::string> names;
  for (const Unit& unit : units_)
    if (unit.dimension == dimension) names.push_back(unit.name);
  return names;
}

Result<UnitTable::Amount> UnitTable::amount(std::string_view text) const {
  const NumberAndUnit parts = split_unit(text);
  const auto number = parse_number(parts.number);
  if (!number) return failure({number.error()[0].code, "", std::string(text), {}});
  std::vector<std::string> all_names;
  for (const Unit& unit : units_) all_names.push_back(unit.name);
  if (parts.unit.empty())
    return failure({"unit-missing", "", std::string(text), {{"known", joined(all_names)}}});
  const Unit* unit = find(parts.unit);
  if (const auto several = units_ending(units_, parts.unit); !unit && several.size() > 1)
    return failure({"unit-which",
                    "",
                    std::string(text),
                    {{"unit", std::string(parts.unit)}, {"which", joined(several)}}});
  if (!unit)
    return failure({closed_ ? "unit-unknown-here" : "unit-unknown",
                    "",
                    std::string(text),
                    {{"unit", std::string(parts.unit)}, {"known", joined(all_names)}}});
  return Amount{*number, unit};
}

Result<double> UnitTable::in_si(std::string_view text, Dimension dimension) const {
  auto read = amount(text);
  if (!read) {
    for (auto& problem : read.error()) problem.details["known"] = joined(names(dimension));
    return outcome::failure(read.error());
  }
  if (read->unit->dimension != dimension)
    return failure({"unit-other-kind",
                    "",
                    std::string(text),
                    {{"unit", read->unit->name}, {"known", joined(names(dimension))}}});
  return read->number * read->unit->factor;
}

Result<Length> UnitTable::length(std::string_view text) const {
  return in_si(text, Dimension::length).map(Length::from_si);
}
Result<Area> UnitTable::area(std::string_view text) const {
  return in_si(text, Dimension::area).map(Area::from_si);
}
Result<Volume> UnitTable::volume(std::string_view text) const {
  return in_si(text, Dimension::volume).map(Volume::from_si);
}
Result<Mass> UnitTable::mass(std::string_view text) const {
  return in_si(text, Dimension::mass).map(Mass::from_si);
}

Result<Length> UnitTable::mix_per_area(std::string_view text) const {
  const std::size_t slash = text.rfind('/');
  if (slash == std::string_view::npos)
    return failure({"rate-unreadable", "", std::string(text), {}});
  const auto top = volume(text.substr(0, slash));
  const std::string per(trimmed(text.substr(slash + 1)));
  const auto bottom = area(split_unit(per).number.empty() ? "1 " + per : per);
  if (!top || !bottom || !(bottom->si() > 0.0))
    return failure({"rate-unreadable", "", std::string(text), {}});
  return *top / *bottom;
}

Result<double> parse_strength(std::string_view text) {
  const std::size_t colon = text.find(':');
  const auto bad = [&] { return failure({"strength-unreadable", "", std::string(text), {}}); };
  if (colon == std::string_view::npos) return bad();
  const auto one = parse_number(text.substr(0, colon));
  const auto parts = parse_number(text.substr(colon + 1));
  if (!one || !parts || *one != 1.0 || !(*parts > 1.0) || *parts > 1e6) return bad();
  return *parts;
}

Result<Money> parse_money(std::string_view text) {
  const auto number = parse_number(text);
  if (!number) return outcome::failure(number.error());
  if (*number < 0.0) return failure({"below-zero", "", std::string(text), {}});
  if (*number > 1e12) return failure({"too-large", "", std::string(text), {{"limit", "1e12"}}});
  return Money::from_amount(*number);
}

}  // namespace wheyfield::quantity
