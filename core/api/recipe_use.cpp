#include "api/recipe_use.h"

#include <algorithm>
#include <map>

#include "fermentation/quality.h"

namespace wheyfield::api {
namespace {

using quantity::rounded;
using words::Decimal;

constexpr double can_ml = 20000.0;     // the usual can of 20 L
constexpr double said_per_can = 20.0;  // weaker than this a dose is told in mL a can

// The signs of the recipe, and of the liquids that sour in it.
std::vector<recipe::Sign> all_signs(const Session& session, const recipe::Recipe& recipe) {
  std::vector<recipe::Sign> signs;
  const std::map<fermentation::Verdict, recipe::Advice> advice{
      {fermentation::Verdict::use, recipe::Advice::use},
      {fermentation::Verdict::extend, recipe::Advice::extend},
      {fermentation::Verdict::discard, recipe::Advice::discard}};
  const auto table = fermentation::QualityTable::parse(session.data);
  for (const recipe::Step& step : recipe.steps) {
    if (step.sours != "milk" || !table) continue;
    for (const fermentation::QualityRow& row : table->rows())
      if (row.stage == step.sours)
        signs.push_back({row.sign, row.causes, row.action, advice.at(row.verdict), row.origin});
  }
  signs.insert(signs.end(), recipe.use.signs.begin(), recipe.use.signs.end());
  return signs;
}

const reference_data::Source* source_of(const Session& session,
                                        const reference_data::Origin& origin) {
  const auto found = session.data.sources().find(origin.source);
  return found == session.data.sources().end() ? nullptr : &found->second;
}

Json origin_json(const Session& session, const reference_data::Origin& origin) {
  const reference_data::Source* source = source_of(session, origin);
  return {{"source", origin.source},
          {"grade", source ? source->grade : "-"},
          {"kind", origin.kind},
          {"page", origin.page}};
}

Json with_origin(Json row, const Session& session, const reference_data::Origin& origin) {
  row.update(origin_json(session, origin));
  return row;
}

Json number_json(const recipe::Sourced& number) {
  return {{"value", number.value}, {"low", number.low}, {"high", number.high}};
}

// "Fruit juice hand-out (grade C, common practice)"; what is no publication has no title.
std::string source_text(const Session& session, const reference_data::Origin& origin) {
  const words::Catalogue& w = session.words;
  std::string kind = w.text("sources.kind." + origin.kind);
  const reference_data::Source* source = source_of(session, origin);
  if (!source || source->grade == "-") return kind;
  return w.text("use.source", {{"title", source->title}, {"grade", source->grade}, {"kind", kind}});
}

std::string with_note(const Session& session, std::string line, const std::string& table,
                      const std::string& note) {
  if (note.empty()) return line;
  return session.words.text("use.with-note",
                            {{"line", line}, {"note", session.words.text(table + "." + note)}});
}

std::string parts_text(const Session& session, double parts) {
  return session.words.text("use.parts", {{"parts", Decimal{parts, 0}}});
}

std::string dilution_text(const Session& session, const recipe::Dilution& one) {
  const words::Catalogue& w = session.words;
  const double weak = one.parts.high, strong = one.parts.low;
  std::string parts = parts_text(session, weak);
  if (weak != strong)
    parts = w.text("use.span", {{"weak", parts}, {"strong", parts_text(session, strong)}});
  if (strong >= said_per_can)
    parts = w.text(weak == strong ? "use.per-can" : "use.per-can-span",
                   {{"parts", parts},
                    {"low", Decimal{can_ml / weak, 0}},
                    {"high", Decimal{can_ml / strong, 0}}});
  const std::string line = w.text(
      "use.dilution", {{"parts", parts},
                       {"place", w.text(std::string("use.on.") + recipe::place_word(one.on))},
                       {"source", source_text(session, one.parts.origin)}});
  return with_note(session, line, "dilution", one.note);
}

std::string days_text(const Session& session, const recipe::Sourced& days) {
  const words::Catalogue& w = session.words;
  if (days.high <= 0.0) return w.text("use.days-none");
  const words::Values values{{"low", Decimal{days.low, 0}}, {"n", static_cast<int>(days.high)}};
  return w.text(days.low == days.high ? "use.days" : "use.days-span", values);
}

std::string keeping_text(const Session& session, const recipe::Keeping& one) {
  const words::Catalogue& w = session.words;
  const std::string line = w.text(
      "use.kept", {{"days", days_text(session, one.days)},
                   {"store", w.text(std::string("use.store.") + recipe::store_word(one.store))},
                   {"source", source_text(session, one.days.origin)}});
  return with_note(session, line, "keeping", one.note);
}

std::string sign_text(const Session& session, const recipe::Sign& sign) {
  const words::Catalogue& w = session.words;
  std::string causes;
  for (const std::string& cause : sign.causes)
    causes += (causes.empty() ? "" : ", ") + w.text("quality.cause." + cause);
  return w.text(
      "use.sign",
      {{"verdict", w.text(std::string("use.verdict.") + recipe::advice_word(sign.verdict))},
       {"sign", w.text("quality.sign." + sign.sign)},
       {"causes", causes},
       {"action", w.text("quality.action." + sign.action)}});
}

std::string content_text(const Session& session, const recipe::Content& one) {
  const words::Catalogue& w = session.words;
  const std::string line =
      w.text("use.content", {{"nutrient", w.text("use.nutrient." + one.nutrient)},
                             {"low", Decimal{one.percent.low, 3}},
                             {"high", Decimal{one.percent.high, 3}},
                             {"source", source_text(session, one.percent.origin)}});
  return with_note(session, line, "content", one.note);
}

void add_strengths(sheet::Page& page, const Session& session, const recipe::Use& use) {
  const words::Catalogue& w = session.words;
  if (use.dilutions.empty()) return;
  page.heading(w.text("use.dilutions"));
  std::vector<std::string> lines;
  for (const recipe::Dilution& one : use.dilutions) lines.push_back(dilution_text(session, one));
  page.list(std::move(lines));
  if (use.spread() > 1.0) page.text(w.text("use.spread", {{"times", Decimal{use.spread(), 0}}}));
  if (use.strength)
    page.text(w.text("use.strength", {{"parts", parts_text(session, use.strength->parts)},
                                      {"place", w.text(std::string("use.on.") +
                                                       recipe::place_word(use.strength->on))}}));
  const double limit = session.data.constant("leaf-strength-limit-parts").value;
  page.caution(w.text("use.leaf-limit", {{"limit", parts_text(session, limit)}}));
  page.text(w.text("use.grades"));
}

void add_keeping(sheet::Page& page, const Session& session, const recipe::Use& use) {
  const words::Catalogue& w = session.words;
  page.heading(w.text("use.keeping"));
  std::vector<std::string> lines;
  for (const recipe::Keeping& one : use.keeping) lines.push_back(keeping_text(session, one));
  if (lines.empty()) lines.push_back(w.text("use.keeping-unknown"));
  page.list(std::move(lines));
  page.text(w.text("use.keeping-candid"));
}

void add_contents(sheet::Page& page, const Session& session, const recipe::Use& use) {
  const words::Catalogue& w = session.words;
  if (use.contents.empty() && !use.ph) return;
  page.heading(w.text("use.contents"));
  std::vector<std::string> lines;
  for (const recipe::Content& one : use.contents) lines.push_back(content_text(session, one));
  if (use.ph)
    lines.push_back(w.text(use.ph->low == use.ph->high ? "use.ph" : "use.ph-span",
                           {{"ph", Decimal{use.ph->value, 1}},
                            {"low", Decimal{use.ph->low, 1}},
                            {"high", Decimal{use.ph->high, 1}},
                            {"source", source_text(session, use.ph->origin)}}));
  page.list(std::move(lines));
}

void add_harvest(sheet::Page& page, const Session& session, const recipe::Use& use,
                 const AskedHarvest& asked) {
  const words::Catalogue& w = session.words;
  page.heading(w.text("use.harvest"));
  std::vector<std::string> lines;
  for (const recipe::HarvestGap& gap : use.harvest)
    lines.push_back(w.text("use.gap", {{"n", gap.days},
                                       {"where", w.text("harvest.where." + gap.where)},
                                       {"rule", w.text("harvest.rule." + gap.rule)},
                                       {"source", source_text(session, gap.origin)}}));
  if (asked.local_days) lines.push_back(w.text("use.gap-local", {{"n", *asked.local_days}}));
  if (lines.empty()) lines.push_back(w.text("use.gap-unknown"));
  page.list(std::move(lines));
  page.text(w.text("use.gap-local-first"));
  if (!asked.last_used) return;
  const auto earliest = recipe::earliest_harvest(use, *asked.last_used, asked.local_days);
  page.caution(earliest ? w.text("use.earliest", {{"last", *asked.last_used}, {"day", *earliest}})
                        : w.text("use.earliest-unknown", {{"last", *asked.last_used}}));
}

Json gaps_json(const Session& session, const recipe::Use& use, const AskedHarvest& asked) {
  Json rows = Json::array();
  for (const recipe::HarvestGap& gap : use.harvest) {
    Json row{{"days", gap.days}, {"where", gap.where}, {"rule", gap.rule}};
    row["earliest"] = asked.last_used ? Json((*asked.last_used + gap.days).iso()) : Json(nullptr);
    rows.push_back(with_origin(std::move(row), session, gap.origin));
  }
  return rows;
}

}  // namespace

void put_use(Json& fields, const Session& session, const recipe::Recipe& recipe,
             const AskedHarvest& asked) {
  const recipe::Use& use = recipe.use;
  fields["strength"] = nullptr;
  if (use.strength)
    fields["strength"] = {{"parts", use.strength->parts},
                          {"on", recipe::place_word(use.strength->on)}};
  Json dilutions = Json::array(), keeping = Json::array(), signs = Json::array();
  Json contents = Json::array();
  for (const recipe::Dilution& one : use.dilutions)
    dilutions.push_back(with_origin({{"low", one.parts.low},
                                     {"high", one.parts.high},
                                     {"on", recipe::place_word(one.on)},
                                     {"says", one.note}},
                                    session, one.parts.origin));
  for (const recipe::Keeping& one : use.keeping)
    keeping.push_back(with_origin({{"days", number_json(one.days)},
                                   {"store", recipe::store_word(one.store)},
                                   {"says", one.note}},
                                  session, one.days.origin));
  for (const recipe::Sign& one : all_signs(session, recipe))
    signs.push_back(with_origin({{"sign", one.sign},
                                 {"verdict", recipe::advice_word(one.verdict)},
                                 {"causes", one.causes},
                                 {"action", one.action},
                                 {"text", sign_text(session, one)}},
                                session, one.origin));
  for (const recipe::Content& one : use.contents)
    contents.push_back(with_origin(
        {{"nutrient", one.nutrient}, {"percent", number_json(one.percent)}, {"says", one.note}},
        session, one.percent.origin));
  fields["dilutions"] = std::move(dilutions);
  fields["dilution_spread"] = rounded(use.spread(), 1);
  fields["keeping"] = std::move(keeping);
  fields["signs"] = std::move(signs);
  fields["contents"] = std::move(contents);
  fields["ph"] =
      use.ph ? with_origin(number_json(*use.ph), session, use.ph->origin) : Json(nullptr);
  fields["harvest"] = gaps_json(session, use, asked);
  fields["earliest_harvest"] = nullptr;
  if (asked.last_used)
    if (const auto day = recipe::earliest_harvest(use, *asked.last_used, asked.local_days))
      fields["earliest_harvest"] = day->iso();
}

void add_use(sheet::Page& page, const Session& session, const recipe::Recipe& recipe,
             const AskedHarvest& asked) {
  add_strengths(page, session, recipe.use);
  add_keeping(page, session, recipe.use);
  add_contents(page, session, recipe.use);
  if (const auto signs = all_signs(session, recipe); !signs.empty()) {
    page.heading(session.words.text("use.signs"));
    std::vector<std::string> lines;
    for (const recipe::Sign& sign : signs) lines.push_back(sign_text(session, sign));
    page.list(std::move(lines));
  }
  add_harvest(page, session, recipe.use, asked);
}

}  // namespace wheyfield::api
