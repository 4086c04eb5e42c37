#include "nutrients/nutrients.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "compost/ingredient.h"

namespace wheyfield::nutrients {
namespace {

using nlohmann::json;
using outcome::Problems;
using outcome::take_or;

std::optional<Range> difference(const std::optional<Range>& a, const std::optional<Range>& b) {
  return a && b ? std::optional(*a - *b) : std::nullopt;
}

std::optional<Range> sum(const std::optional<Range>& a, const std::optional<Range>& b) {
  return a && b ? std::optional(*a + *b) : std::nullopt;
}

// Nothing known on one side leaves what the other says.
std::optional<Range> widest(const std::optional<Range>& a, const std::optional<Range>& b) {
  if (!a || !b) return a ? a : b;
  return Range{std::min(a->low, b->low), std::max(a->high, b->high)};
}

Range times(const Sourced& rate, double amount) { return {rate.low * amount, rate.high * amount}; }

class RowReader {
 public:
  RowReader(const json& row, std::string field, Problems& problems)
      : row_(row), field_(std::move(field)), problems_(problems) {}

  std::string text(const char* member) const {
    return take_or<std::string>(reference_data::read_string(row_, member, field_), "", problems_);
  }
  Sourced number(const char* member) const {
    const json cell = row_.is_object() ? row_.value(member, json()) : json();
    return take_or(reference_data::read_sourced(cell, field_ + "/" + member), Sourced{}, problems_);
  }
  std::optional<Sourced> number_if_there(const char* member) const {
    if (!row_.is_object() || !row_.contains(member)) return std::nullopt;
    return number(member);
  }
  // The oxide of the row, or its element turned into it.
  Sourced oxide(const char* oxide, const char* element, double per_element) const {
    if (const auto there = number_if_there(oxide)) return *there;
    Sourced number = this->number(element);
    number.value *= per_element;
    number.low *= per_element;
    number.high *= per_element;
    return number;
  }

 private:
  const json& row_;
  std::string field_;
  Problems& problems_;
};

template <class Read>
void each_row(const reference_data::ReferenceData& data, const std::string& table,
              Problems& problems, Read read) {
  std::size_t count = 0;
  for (const json& row : data.section(table.c_str())) {
    read(RowReader(row, "/data/" + table + "/" + std::to_string(count), problems));
    ++count;
  }
  if (count == 0) problems.push_back({"data-missing", "/data/" + table, "", {{"member", table}}});
}

constexpr double kilograms_a_tonne = 1000.0;

}  // namespace

Range operator-(const Range& a, const Range& b) { return {a.low - b.high, a.high - b.low}; }
Range operator+(const Range& a, const Range& b) { return {a.low + b.low, a.high + b.high}; }

Nutrients operator-(const Nutrients& a, const Nutrients& b) {
  return {difference(a.n, b.n), difference(a.p2o5, b.p2o5), difference(a.k2o, b.k2o)};
}

Nutrients operator+(const Nutrients& a, const Nutrients& b) {
  return {sum(a.n, b.n), sum(a.p2o5, b.p2o5), sum(a.k2o, b.k2o)};
}

Nutrients Removal::taken_by(Mass harvest) const {
  const double tonnes = quantity::in_kilograms(harvest) / kilograms_a_tonne;
  const double air_low = from_air ? from_air->low : 0.0;
  const double air_high = from_air ? from_air->high : 0.0;
  Nutrients taken{std::nullopt, times(p2o5, tonnes), times(k2o, tonnes)};
  if (n) taken.n = Range{n->low * tonnes * (1.0 - air_high), n->high * tonnes * (1.0 - air_low)};
  return taken;
}

std::optional<double> Removal::likely_nitrogen(Mass harvest) const {
  if (!n) return std::nullopt;
  return n->value * quantity::in_kilograms(harvest) / kilograms_a_tonne *
         (1.0 - (from_air ? from_air->value : 0.0));
}

Nutrients taken_by_all(const std::vector<const Removal*>& rows, Mass harvest) {
  Nutrients all = rows.front()->taken_by(harvest);
  for (const Removal* row : rows) {
    const Nutrients taken = row->taken_by(harvest);
    all = {widest(all.n, taken.n), widest(all.p2o5, taken.p2o5), widest(all.k2o, taken.k2o)};
  }
  return all;
}

Nutrients contained(const Content& content, Mass mass, const Oxides& oxides) {
  const double kilograms = quantity::in_kilograms(mass);
  const Range dry{kilograms * (1.0 - content.moisture.high / 100.0),
                  kilograms * (1.0 - content.moisture.low / 100.0)};
  const auto of = [&](const Sourced& share, double per_element) {
    return Range{dry.low * share.low / 100.0 * per_element,
                 dry.high * share.high / 100.0 * per_element};
  };
  return {of(content.n, 1.0), of(content.p, oxides.phosphate), of(content.k, oxides.potash)};
}

std::optional<Range> first_year(const Content& content, const Nutrients& contained) {
  if (!content.release || !contained.n) return std::nullopt;
  return Range{contained.n->low * content.release->low, contained.n->high * content.release->high};
}

Nutrients contained(const SerumContent& content, Volume serum, const Oxides& oxides) {
  const double litres = quantity::in_litres(serum);
  const auto of = [&](const Sourced& grams, double per_element) {
    return times(grams, litres / 1000.0 * per_element);
  };
  return {of(content.n, 1.0), of(content.p, oxides.phosphate), of(content.k, oxides.potash)};
}

Match to_match(const Content& content, double nitrogen) {
  const double share = (1.0 - content.moisture.value / 100.0) * content.n.value / 100.0;
  Match match{quantity::kilograms(nitrogen / share), std::nullopt};
  if (content.release) match.frees = quantity::kilograms(nitrogen / share / content.release->value);
  return match;
}

outcome::Result<NutrientTables> NutrientTables::parse(const reference_data::ReferenceData& data) {
  NutrientTables tables;
  tables.oxides_ = {data.constant("phosphate-per-phosphorus").value,
                    data.constant("potash-per-potassium").value};
  const Oxides& oxides = tables.oxides_;
  Problems problems;
  each_row(data, "removal", problems, [&](const RowReader& row) {
    tables.removals_.push_back({row.text("crop"), row.text("part"), row.number_if_there("n"),
                                row.oxide("p2o5", "p", oxides.phosphate),
                                row.oxide("k2o", "k", oxides.potash),
                                row.number_if_there("from_air")});
  });
  const auto ingredients = compost::IngredientTable::parse(data);
  if (!ingredients) return outcome::failure(ingredients.error());
  each_row(data, "manures", problems, [&](const RowReader& row) {
    const std::string id = row.text("id");
    const compost::Ingredient* heaped = ingredients->find(id);
    tables.contents_.push_back({id, heaped ? heaped->moisture : row.number("moisture"),
                                heaped ? heaped->nitrogen : row.number("n"), row.number("p"),
                                row.number("k"), row.number_if_there("release")});
  });
  if (!problems.empty()) return outcome::failure(problems);
  return tables;
}

std::vector<const Removal*> NutrientTables::removals(const std::string& crop) const {
  std::vector<const Removal*> rows;
  for (const Removal& row : removals_)
    if (row.crop == crop) rows.push_back(&row);
  return rows;
}

const Content* NutrientTables::content(const std::string& id) const {
  const auto found = std::find_if(contents_.begin(), contents_.end(),
                                  [&](const Content& content) { return content.id == id; });
  return found == contents_.end() ? nullptr : &*found;
}

std::vector<std::string> NutrientTables::crops() const {
  std::vector<std::string> ids;
  for (const Removal& row : removals_)
    if (std::find(ids.begin(), ids.end(), row.crop) == ids.end()) ids.push_back(row.crop);
  return ids;
}

std::vector<std::string> NutrientTables::contents() const {
  std::vector<std::string> ids;
  for (const Content& content : contents_) ids.push_back(content.id);
  return ids;
}

}  // namespace wheyfield::nutrients
