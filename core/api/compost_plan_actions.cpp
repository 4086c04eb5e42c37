// What the ingredients are, and when the heap is turned.
#include "api/compost_fields.h"
#include "api/compost_turning.h"
#include "api/dose_answer.h"
#include "api/field_reader.h"
#include "compost/ingredient.h"

namespace wheyfield::api {
namespace {

using outcome::Problems;
using outcome::Result;
using quantity::rounded;
using words::Decimal;

const Fields turns_fields{"CompostTurns", {{"built", Holds::date, true}, {"pages", Holds::flag}}};
const Fields ingredient_list_fields{"CompostList", {{"pages", Holds::flag}}};

sheet::Page turns_page(const Session& session, calendar::Date built,
                       const compost::TurningPlan& plan) {
  const words::Catalogue& w = session.words;
  const auto& rule = session.data.constant("compost-turn-count");
  sheet::Page page("compost-turns", w.text("compost.turns-title"));
  page.text(w.text("compost.turns-built", {{"on", built}, {"first", plan.first}}));
  std::vector<std::vector<std::string>> rows;
  int number = 0;
  for (const int day : compost::turning_days(plan))
    rows.push_back({w.text("compost.turning", {{"n", ++number}}),
                    w.number({static_cast<double>(day), 0}), w.date(built + day)});
  rows.push_back({w.text("compost.ready"), w.number({static_cast<double>(plan.ready), 0}),
                  w.date(built + plan.ready)});
  page.table({{w.text("compost.col-what")},
              {w.text("compost.col-day"), true},
              {w.text("compost.col-date")}},
             std::move(rows));
  page.text(w.text("compost.turns-how"));
  page.text(
      w.text("compost.turns-late", {{"late", session.data.constant("compost-ready-day").high}}));
  page.caution(w.text("compost.turns-rule", {{"n", static_cast<int>(rule.value)}}));
  return page;
}

Json ingredient_json(const Session& session, const compost::Ingredient& row, double carbon_most) {
  const auto number = [](const std::optional<reference_data::Sourced>& value) {
    return value ? Json{{"low", rounded(value->low, 6)},
                        {"likely", rounded(value->value, 6)},
                        {"high", rounded(value->high, 6)},
                        {"kind", value->origin.kind}}
                 : Json();
  };
  return {{"id", row.id},
          {"name", session.words.text("ingredient." + row.id)},
          {"nitrogen", number(row.nitrogen)},
          {"c_to_n", number(row.ratio)},
          {"moisture", number(row.moisture)},
          {"density_kg_m3", number(row.density)},
          {"carbon", rounded(row.contents(carbon_most).carbon, 6)},
          {"carbon_cut", row.is_cut(carbon_most)}};
}

sheet::Page ingredient_list_page(const Session& session, const Json& ingredients) {
  const words::Catalogue& w = session.words;
  sheet::Page page("compost-list", w.text("compost.list-title"));
  page.text(w.text("compost.list-about"));
  std::vector<std::vector<std::string>> rows;
  const auto span = [&](const Json& value) -> std::string {
    if (value.is_null()) return w.text("compost.none");
    const double low = value["low"], high = value["high"];
    if (low == high) return w.number({value["likely"].get<double>(), 2});
    return w.text("compost.span", {{"likely", Decimal{value["likely"].get<double>(), 2}},
                                   {"low", Decimal{low, 2}},
                                   {"high", Decimal{high, 2}}});
  };
  const auto likely = [&](const Json& value) {
    return value.is_null() ? w.text("compost.none") : w.number({value["likely"].get<double>(), 2});
  };
  for (const Json& one : ingredients)
    rows.push_back({one["id"], span(one["nitrogen"]), span(one["c_to_n"]), likely(one["moisture"]),
                    likely(one["density_kg_m3"]),
                    w.text("compost.kind." + one["nitrogen"]["kind"].get<std::string>())});
  page.table({{w.text("compost.col-ingredient")},
              {w.text("compost.col-nitrogen"), true},
              {w.text("compost.col-ratio"), true},
              {w.text("compost.col-moisture"), true},
              {w.text("compost.col-density"), true},
              {w.text("compost.col-sure")}},
             std::move(rows));
  page.text(w.text("compost.list-own"));
  return page;
}

}  // namespace

const Fields& compost_turns_fields() { return turns_fields; }
const Fields& compost_list_fields() { return ingredient_list_fields; }

compost::TurningPlan turning_plan(const Session& session, Answer& answer) {
  const auto day = [&](const char* id) {
    return static_cast<int>(noted(session, id, "turning calendar", answer).value);
  };
  return {day("compost-first-turn"), day("compost-turn-every"), day("compost-turn-count"),
          day("compost-ready-day")};
}

Result<Answer> compost_turns(const Session& session, const nlohmann::json& body) {
  Problems problems = check_shape(body, turns_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto built = r.date("built");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  Answer answer;
  const compost::TurningPlan plan = turning_plan(session, answer);
  Json turns = Json::array();
  for (const int day : compost::turning_days(plan))
    turns.push_back({{"day", day}, {"on", (*built + day).iso()}});
  answer.fields = {{"built", built->iso()},
                   {"turns", std::move(turns)},
                   {"ready_day", plan.ready},
                   {"ready_on", (*built + plan.ready).iso()}};
  add_cautions(session, {"heap-heat", "heap-dust", "compost-log"}, answer);
  if (r.flag("pages")) add_page(session, turns_page(session, *built, plan), answer);
  return answer;
}

Result<Answer> compost_list(const Session& session, const nlohmann::json& body) {
  Problems problems = check_shape(body, ingredient_list_fields, "");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto table = compost::IngredientTable::parse(session.data);
  if (!table) return outcome::failure(table.error());
  Answer answer;
  const double most = noted(session, "compost-carbon-most", "carbon", answer).value;
  Json rows = Json::array();
  for (const compost::Ingredient& row : table->rows()) {
    rows.push_back(ingredient_json(session, row, most));
    answer.used.note(row.nitrogen.origin, "contents of the ingredients");
  }
  answer.fields["ingredients"] = std::move(rows);
  add_cautions(session, {}, answer);
  if (wants_pages(body))
    add_page(session, ingredient_list_page(session, answer.fields["ingredients"]), answer);
  return answer;
}

}  // namespace wheyfield::api
