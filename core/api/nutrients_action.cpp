// What a harvest takes off one field, and what compost, manure and serum bring to it.
#include <algorithm>
#include <array>
#include <cmath>

#include "api/dose_answer.h"
#include "api/field_reader.h"
#include "api/nutrients_fields.h"
#include "nutrients/nutrients.h"
#include "recipe/recipe.h"

namespace wheyfield::api {
namespace {

using nutrients::Content;
using nutrients::Nutrients;
using nutrients::NutrientTables;
using nutrients::Range;
using outcome::Problems;
using outcome::Result;
using quantity::in_kilograms;
using quantity::rounded;
using words::Decimal;

const Fields balance_fields{
    "NutrientBalance",
    {{"crop", Holds::text, true},
     {"area", Holds::area, true},
     {"harvest", Holds::mass, true},
     {"compost", Holds::mass, false},
     {"manure", Holds::mass, false},
     {"manure_is", Holds::choice, false, "cattle-manure|goat-manure|hen-manure|broiler-litter"},
     {"serum", Holds::volume, false},
     {"farm", Holds::text, false},
     {"nth", Holds::text, false},
     {"pages", Holds::flag, false}}};

constexpr std::array<const char*, 3> kinds{"n", "p2o5", "k2o"};

std::array<std::optional<Range>, 3> columns(const Nutrients& amounts) {
  return {amounts.n, amounts.p2o5, amounts.k2o};
}

// What is put on the field.
struct Load {
  std::string what;  // compost, a manure's id, serum
  double amount = 0.0;
  const char* unit = "kg";
  Nutrients brings;
  std::optional<Range> first_year = std::nullopt;
};

struct Balance {
  const crop::Crop* crop = nullptr;
  quantity::Area area;
  quantity::Mass harvest;
  std::vector<const nutrients::Removal*> rows;
  Nutrients taken;
  std::vector<Load> loads;  // the serum last
  bool usual_serum = false;
  Nutrients left;
  std::optional<nutrients::Match> match;  // compost for the nitrogen taken, by the likely figures

  const Load& serum() const { return loads.back(); }
  std::optional<double> serum_part;  // of the nitrogen taken, by the likely figures
};

Json range_json(const std::optional<Range>& range) {
  if (!range) return nullptr;
  return {{"low", rounded(range->low, 6)}, {"high", rounded(range->high, 6)}};
}

Json amounts_json(const Nutrients& amounts) {
  Json json = Json::object();
  const auto all = columns(amounts);
  for (std::size_t i = 0; i < kinds.size(); ++i) json[kinds[i]] = range_json(all[i]);
  return json;
}

Json load_json(const Load& load) {
  Json json{{"what", load.what}, {"amount", rounded(load.amount, 6)}, {"unit", load.unit}};
  json.update(amounts_json(load.brings));
  json["first_year_n"] = range_json(load.first_year);
  return json;
}

Json match_json(const std::optional<nutrients::Match>& match) {
  if (!match) return nullptr;
  return {{"holds_kg", rounded(in_kilograms(match->holds), 3)},
          {"frees_kg", match->frees ? Json(rounded(in_kilograms(*match->frees), 3)) : Json()}};
}

// Below ten kilograms two places are told, and what rounds to nothing is "about 0".
std::string told(const words::Catalogue& w, const std::optional<Range>& range) {
  if (!range) return w.text("nutrients.not-known");
  const double most = std::max(std::fabs(range->low), std::fabs(range->high));
  if (most < 0.005) return w.text("nutrients.about-none");
  const int places = most < 10.0 ? 2 : most < 100.0 ? 1 : 0;
  return w.text("nutrients.range", {{"low", Decimal{range->low, places, false}},
                                    {"high", Decimal{range->high, places, false}}});
}

// Whether more nitrogen comes than goes, as far as the tables can tell.
const char* verdict_of(const Range& left) {
  if (left.high < 0.0) return "nutrients.less-comes";
  return left.low > 0.0 ? "nutrients.more-comes" : "nutrients.cannot-tell";
}

std::vector<std::string> row_of(const words::Catalogue& w, const std::string& name,
                                const Nutrients& amounts) {
  std::vector<std::string> row{name};
  for (const auto& column : columns(amounts)) row.push_back(told(w, column));
  return row;
}

std::string load_name(const words::Catalogue& w, const Load& load) {
  const words::Values amount{{"amount", Decimal{load.amount, 2}}};
  if (w.has("nutrients." + load.what)) return w.text("nutrients." + load.what, amount);
  return w.text("nutrients.manure",
                {{"amount", Decimal{load.amount, 2}}, {"what", w.text("ingredient." + load.what)}});
}

sheet::Page page_of(const Session& session, const Balance& b) {
  const words::Catalogue& w = session.words;
  sheet::Page page("nutrients", w.text("nutrients.title"));
  const double tonnes_a_hectare = in_kilograms(b.harvest) / 1000.0 / quantity::in_hectares(b.area);
  page.text(w.text("nutrients.harvest", {{"crop", w.text("crop." + b.crop->id)},
                                         {"kg", Decimal{in_kilograms(b.harvest), 1}},
                                         {"area", Decimal{quantity::in_square_metres(b.area), 0}},
                                         {"t", Decimal{tonnes_a_hectare, 2}}}));
  std::vector<std::vector<std::string>> rows{row_of(w, w.text("nutrients.taken"), b.taken)};
  for (const Load& load : b.loads) {
    rows.push_back(row_of(w, load_name(w, load), load.brings));
    if (load.first_year)
      rows.push_back({w.text("nutrients.first-year"), told(w, load.first_year), "", ""});
  }
  rows.push_back(row_of(w, w.text("nutrients.left"), b.left));
  page.table({{w.text("nutrients.kilograms")}, {"N", true}, {"P2O5", true}, {"K2O", true}}, rows);
  if (b.left.n) page.text(w.text(verdict_of(*b.left.n)));
  page.text(w.text("nutrients.reading"));
  page.text(w.text(b.usual_serum ? "nutrients.serum-usual" : "nutrients.serum-given",
                   {{"litres", Decimal{b.serum().amount, 2}},
                    {"grams", Decimal{1000.0 * b.serum().brings.n->high, 1}}}));
  if (b.serum_part)
    page.text(w.text("nutrients.serum-part", {{"percent", Decimal{100.0 * *b.serum_part, 3}}}));
  if (b.match)
    page.text(w.text("nutrients.match", {{"holds", Decimal{in_kilograms(b.match->holds), 0}},
                                         {"frees", Decimal{in_kilograms(*b.match->frees), 0}}}));
  if (b.rows.front()->from_air)
    page.text(w.text("nutrients.legume",
                     {{"percent", Decimal{100.0 * b.rows.front()->from_air->value, 0}}}));
  page.text(w.text("nutrients.not-counted"));
  page.caution(w.text("nutrients.no-advice"));
  return page;
}

void note_row(const nutrients::Removal& row, Answer& answer) {
  if (row.n) answer.used.note(row.n->origin, "what the harvest takes");
  answer.used.note(row.p2o5.origin, "what the harvest takes");
  answer.used.note(row.k2o.origin, "what the harvest takes");
  if (row.from_air) answer.used.note(row.from_air->origin, "nitrogen of legumes");
}

void note_content(const Content& content, Answer& answer) {
  for (const auto* number : {&content.moisture, &content.n, &content.p, &content.k})
    answer.used.note(number->origin, content.id.c_str());
  if (content.release) answer.used.note(content.release->origin, "nitrogen of the first year");
}

// The usual litres of an acre-season, of the recipe that says them.
const reference_data::Sourced* usual_dose(const Session& session) {
  for (const recipe::Recipe& recipe : session.recipes)
    if (recipe.season_litres_per_acre) return &*recipe.season_litres_per_acre;
  return nullptr;
}

class Weighing {
 public:
  Weighing(const Session& session, const NutrientTables& tables, const FieldReader& r,
           Answer& answer)
      : session_(session), tables_(tables), r_(r), answer_(answer) {}

  Balance balance() {
    Balance b;
    const std::string crop = *r_.text("crop");
    b.crop = session_.crops.find_any(crop);
    b.rows = tables_.removals(crop);
    if (b.rows.empty())
      r_.add("removal-unknown", "crop", crop, {{"known", api::joined(tables_.crops())}});
    b.area = r_.area("area").value_or(quantity::hectares(1));
    b.harvest = per_hectare("harvest", "harvest-limits-t-per-ha", "harvest-out-of-range", b.area)
                    .value_or(quantity::kilograms(1));
    add_spread("compost", "compost", b);
    manure(b);
    if (b.rows.empty() || b.crop == nullptr) return b;
    serum(b);
    b.taken = nutrients::taken_by_all(b.rows, b.harvest);
    for (const auto* row : b.rows) note_row(*row, answer_);
    Nutrients brought = b.loads.front().brings;
    for (std::size_t i = 1; i < b.loads.size(); ++i) brought = brought + b.loads[i].brings;
    b.left = brought - b.taken;
    if (const auto nitrogen = b.rows.front()->likely_nitrogen(b.harvest)) {
      b.match = nutrients::to_match(*tables_.content("compost"), *nitrogen);
      note_content(*tables_.content("compost"), answer_);
      b.serum_part =
          session_.data.constant("serum-nitrogen").value * b.serum().amount / 1000.0 / *nitrogen;
    }
    return b;
  }

 private:
  std::optional<quantity::Mass> per_hectare(const char* field, const char* limits, const char* code,
                                            quantity::Area area) {
    const auto mass = r_.mass(field);
    if (mass)
      r_.refuse_outside(session_.data.constant(limits), code, field,
                        in_kilograms(*mass) / 1000.0 / quantity::in_hectares(area));
    return mass;
  }

  void add_spread(const char* field, const std::string& id, Balance& b) {
    const auto mass = per_hectare(field, "spread-limits-t-per-ha", "spread-out-of-range", b.area);
    if (!mass) return;
    const Content& content = *tables_.content(id);
    Load load{id, in_kilograms(*mass), "kg", contained(content, *mass, tables_.oxides())};
    load.first_year = nutrients::first_year(content, load.brings);
    b.loads.push_back(std::move(load));
    note_content(content, answer_);
  }

  void manure(Balance& b) {
    if (r_.given("manure")) {
      r_.want("manure_is");
      if (r_.given("manure_is")) add_spread("manure", *r_.text("manure_is"), b);
    } else if (r_.given("manure_is")) {
      r_.want("manure");
    }
  }

  void serum(Balance& b) {
    auto litres = r_.volume("serum");
    b.usual_serum = !litres;
    if (const auto* usual = usual_dose(session_); usual != nullptr && !litres) {
      answer_.used.note(usual->origin, "usual serum of a season");
      litres = quantity::litres(usual->value * quantity::in_acres(b.area));
    }
    const nutrients::SerumContent content{noted(session_, "serum-nitrogen", "serum", answer_),
                                          noted(session_, "serum-phosphorus", "serum", answer_),
                                          noted(session_, "serum-potassium", "serum", answer_)};
    const quantity::Volume put = litres.value_or(quantity::litres(0));
    b.loads.push_back(
        {"serum", quantity::in_litres(put), "L", contained(content, put, tables_.oxides())});
  }

  const Session& session_;
  const NutrientTables& tables_;
  const FieldReader& r_;
  Answer& answer_;
};

}  // namespace

const Fields& nutrients_balance_fields() { return balance_fields; }

Result<Answer> nutrients_balance(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, balance_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto tables = NutrientTables::parse(session.data);
  if (!tables) return outcome::failure(tables.error());
  const Balance b = Weighing(session, *tables, r, answer).balance();
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  Json brought = Json::array();
  for (const Load& load : b.loads) brought.push_back(load_json(load));
  answer.fields = {{"crop", b.crop->id},
                   {"area_m2", rounded(quantity::in_square_metres(b.area), 3)},
                   {"harvest_kg", rounded(in_kilograms(b.harvest), 6)},
                   {"taken", amounts_json(b.taken)},
                   {"brought", std::move(brought)},
                   {"left", amounts_json(b.left)},
                   {"usual_serum", b.usual_serum},
                   {"serum_part", b.serum_part ? Json(rounded(*b.serum_part, 9)) : Json(nullptr)},
                   {"compost_to_match", match_json(b.match)},
                   {"from_air", b.rows.front()->from_air ? Json(b.rows.front()->from_air->value)
                                                         : Json(nullptr)}};
  if (r.given("manure"))
    add_cautions(session, {"raw-manure", "not-a-fertiliser", "local-rules"}, answer);
  else
    add_cautions(session, {"not-a-fertiliser", "local-rules"}, answer);
  if (r.flag("pages")) add_page(session, page_of(session, b), answer);
  return answer;
}

}  // namespace wheyfield::api
