#include "api/compost_reader.h"

#include <algorithm>
#include <set>

#include <nlohmann/json.hpp>

#include "api/field_reader.h"
#include "quantity/number_text.h"

namespace wheyfield::api {
namespace {

using compost::Ingredient;
using nlohmann::json;
using outcome::Problems;

const Fields ingredient_fields{"HeapIngredient",
                               {{"name", Holds::text, true},
                                {"amount", Holds::pack},
                                {"at_least", Holds::pack},
                                {"at_most", Holds::pack},
                                {"price", Holds::money},
                                {"nitrogen", Holds::number},
                                {"ratio", Holds::number},
                                {"moisture", Holds::text},
                                {"density", Holds::number}}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "Cattle manure" -> "cattle-manure"
std::string plain_name(std::string_view text) {
  std::string name(quantity::trimmed(text));
  for (char& c : name) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '_') c = '-';
  }
  return name;
}

std::string_view first_word(std::string_view text) { return text.substr(0, text.find(' ')); }

// "100 kg cattle-manure at 65 %" -> {"name", "<amount>", "moisture"}: what stands there of them.
json parts_of_text(std::string_view text, const char* amount) {
  json parts = json::object();
  text = quantity::trimmed(text);
  if (const std::size_t at = text.rfind(" at "); at != std::string_view::npos) {
    parts["moisture"] = quantity::trimmed(text.substr(at + 4));
    text = quantity::trimmed(text.substr(0, at));
  }
  if (!text.empty() && is_digit(text.front())) {
    std::size_t length = first_word(text).size();
    const bool bare_number = is_digit(text[length - 1]);
    if (bare_number && length < text.size())
      length += 1 + first_word(text.substr(length + 1)).size();
    parts[amount] = text.substr(0, length);
    text = quantity::trimmed(text.substr(length));
  }
  parts["name"] = text;
  return parts;
}

class PartReader {
 public:
  PartReader(const Session& session, const compost::IngredientTable& table, const json& object,
             std::string pointer, Problems& problems)
      : session_(session),
        table_(table),
        r_(object, pointer, session.data.units(), problems),
        problems_(problems) {
    part_.pointer = std::move(pointer);
  }

  std::optional<HeapPart> read() {
    const std::size_t before = problems_.size();
    part_.id = plain_name(r_.text("name").value_or(""));
    part_.row = table_.find(part_.id);
    read_contents();
    read_amounts();
    return problems_.size() == before ? std::optional(part_) : std::nullopt;
  }

 private:
  double limit(const char* id) const { return session_.data.constant(id).value; }

  // "65", "65 %", or a sample: "10 g dried to 2.3 g".
  std::optional<double> read_moisture() const {
    const auto text = r_.text("moisture");
    if (!text) return std::nullopt;
    const std::string_view between = " dried to ";
    std::optional<double> moisture;
    if (const std::size_t at = text->find(between); at != std::string::npos) {
      const auto wet = session_.data.units().mass(text->substr(0, at));
      const auto dry = session_.data.units().mass(text->substr(at + between.size()));
      if (wet && dry && wet->si() > 0.0)
        moisture = compost::moisture_of_sample(wet->si(), dry->si());
    } else {
      std::string_view number = *text;
      if (number.back() == '%') number.remove_suffix(1);
      if (const auto read = quantity::parse_number(quantity::trimmed(number))) moisture = *read;
    }
    if (!moisture || *moisture < 0.0 || *moisture >= 100.0)
      r_.add("compost-moisture-impossible", "moisture", *text);
    return moisture;
  }

  void refuse_outside(const char* limits, const char* code, const char* name,
                      std::optional<double> value) const {
    if (value) r_.refuse_outside(session_.data.constant(limits), code, name, *value);
  }

  void refuse_unknown() const {
    std::vector<std::string> known;
    for (const Ingredient& row : table_.rows()) known.push_back(row.id);
    r_.add("ingredient-unknown", "name", part_.id,
           {{"known", joined(known)}, {"suggestion", nearest(part_.id, known)}});
  }

  void read_contents() {
    const auto nitrogen = r_.number("nitrogen"), ratio = r_.number("ratio"),
               density = r_.number("density"), moisture = read_moisture();
    if (ratio && !(*ratio > 0.0)) r_.add("not-above-zero", "ratio", *r_.text("ratio"));
    refuse_outside("compost-nitrogen-limits", "compost-nitrogen-out-of-range", "nitrogen",
                   nitrogen);
    refuse_outside("compost-density-limits", "compost-density-out-of-range", "density", density);
    if (part_.row == nullptr) {
      if (!nitrogen && !ratio) return refuse_unknown();
      for (const char* name : {"nitrogen", "ratio", "moisture"}) r_.want(name);
    }
    const double most = limit("compost-carbon-most");
    if (part_.row != nullptr) {
      part_.what = part_.row->contents(most);
      part_.at_low = part_.row->contents(most, Ingredient::End::low);
      part_.at_high = part_.row->contents(most, Ingredient::End::high);
      part_.cut = part_.row->is_cut(most);
    }
    if (nitrogen || ratio) put_own(nitrogen, ratio, most);
    for (compost::Contents* contents : {&part_.what, &part_.at_low, &part_.at_high}) {
      if (moisture) contents->moisture = *moisture;
      if (density) contents->density = *density;
    }
  }

  void put_own(std::optional<double> nitrogen, std::optional<double> ratio, double most) {
    const Ingredient* row = part_.row;
    if (!nitrogen && row != nullptr) nitrogen = row->nitrogen.value;
    if (!ratio && row != nullptr && row->ratio) ratio = row->ratio->value;
    if (!nitrogen || !ratio) return r_.want("ratio");
    const double carbon = *nitrogen * *ratio;
    if (carbon > limit("compost-carbon-refused"))
      r_.add("compost-carbon-impossible", r_.given("ratio") ? "ratio" : "nitrogen",
             r_.text(r_.given("ratio") ? "ratio" : "nitrogen").value_or(""),
             {{"carbon", session_.words.number({carbon, 0})},
              {"limit", session_.words.number({limit("compost-carbon-refused"), 0})}});
    part_.what.nitrogen = *nitrogen;
    part_.what.carbon = std::min(carbon, most);
    part_.cut = carbon > most;
    part_.at_low = part_.at_high = part_.what;
  }

  // Litres are loose ones: by the loose weight.
  std::optional<double> kilograms(const char* name) const {
    const auto pack = r_.pack(name);
    if (!pack) return std::nullopt;
    const std::string text = *r_.text(name);
    double kg = pack->amount;
    if (pack->unit == "L") {
      if (!part_.what.density) {
        r_.add("compost-density-missing", name, text, {{"ingredient", part_.id}});
        return std::nullopt;
      }
      kg *= *part_.what.density / 1000.0;
    } else if (pack->unit != "kg") {
      r_.add("unit-other-kind", name, text, {{"unit", pack->unit}, {"known", "kg, g, L"}});
      return std::nullopt;
    }
    const bool none = kg == 0.0 && name != std::string_view("amount");  // a bound may be 0
    if (!none)
      r_.refuse_outside(session_.data.constant("compost-kg-limits"), "compost-kg-out-of-range",
                        name, kg);
    return kg;
  }

  void read_amounts() {
    part_.kg = kilograms("amount");
    part_.at_least = kilograms("at_least").value_or(0.0);
    part_.at_most = kilograms("at_most");
    if (const auto price = r_.money("price")) part_.price = price->amount();
    if (part_.at_most && *part_.at_most < part_.at_least)
      r_.add("compost-bounds-crossed", "at_most", *r_.text("at_most"),
             {{"limit", *r_.text("at_least")}});
    if (part_.kg && (part_.at_most || part_.at_least > 0.0))
      r_.add("compost-amount-and-bounds", "amount", *r_.text("amount"));
  }

  const Session& session_;
  const compost::IngredientTable& table_;
  FieldReader r_;
  Problems& problems_;
  HeapPart part_;
};

void refuse_twice(const std::vector<HeapPart>& parts, Problems& problems) {
  std::set<std::string> seen;
  for (const HeapPart& part : parts)
    if (!seen.insert(part.id).second)
      problems.push_back({"ingredient-twice", part.pointer, part.id, {}});
}

}  // namespace

const Fields& heap_ingredient_fields() { return ingredient_fields; }

std::vector<HeapPart> read_heap_parts(const Session& session, const compost::IngredientTable& table,
                                      const json& body, Problems& problems) {
  std::vector<HeapPart> parts;
  const auto read = [&](const json& object, const std::string& pointer) {
    if (auto part = PartReader(session, table, object, pointer, problems).read())
      parts.push_back(std::move(*part));
  };
  // A blank text stands for a list that was left out.
  const auto list_of = [&](const char* field) {
    const auto found = body.find(field);
    return found != body.end() && found->is_array() ? *found : json::array();
  };
  for (const char* field : {"put", "add"}) {
    const json list = list_of(field);
    const bool put = field == std::string_view("put");
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string pointer = std::string("/") + field + "/" + std::to_string(i);
      const json object = parts_of_text(list[i].get<std::string>(), put ? "amount" : "at_most");
      if ((put && !object.contains("amount")) || object["name"] == "")
        problems.push_back({"compost-part-unreadable", pointer, list[i].get<std::string>(), {}});
      else
        read(object, pointer);
    }
  }
  const json rows = list_of("ingredients");
  for (std::size_t i = 0; i < rows.size(); ++i) read(rows[i], "/ingredients/" + std::to_string(i));
  refuse_twice(parts, problems);
  return parts;
}

}  // namespace wheyfield::api
