// What the season makes beside its serum: what is wanted, and each batch with its steps.
#include <cmath>

#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using words::Decimal;

// What goes in from outside, as the recipe lists it.
std::string takes_text(const PageWords& w, const recipe::Recipe& recipe,
                       const season::Batch& batch) {
  const recipe::Scaled scaled =
      recipe::scale(recipe, static_cast<double>(batch.stored_ml) / 1000.0);
  std::string list;
  for (const recipe::Material& m : recipe.materials) {
    if (m.role != recipe::Role::input) continue;
    const double amount = scaled.taken(m.id);
    list += (list.empty() ? "" : ", ") +
            w.say("batch.input", {{"amount", season::shown_amount(amount)},
                                  {"unit", w.unit(m.unit, amount)},
                                  {"item", w.words.text("material." + m.id)}});
  }
  return w.say("batch.takes", {{"list", list}});
}

Decimal litres_of(std::int64_t ml) {
  return season::shown_amount(static_cast<double>(ml) / 1000.0);
}

}  // namespace

std::string batch_line(const PageWords& w, const season::Batch& b) {
  const season::Vessel& vessel = w.worked.season.vessels[b.vessel];
  return w.say(b.spare ? "batch.line-spare" : "batch.line",
               {{"batch", b.name},
                {"day", b.start()},
                {"ready", b.ready},
                {"litres", b.stored_ml < 20000 ? w.litres(b.stored_ml)
                                               : w.words.number(litres_of(b.stored_ml))},
                {"vessel", vessel.name},
                {"farm", vessel.farm}});
}

std::string wanted_text(const WorkedPlan& worked, std::size_t preparation, std::size_t d) {
  const words::Catalogue& words = worked.words();
  const season::PreparationPlan& plan = worked.plan.others[preparation];
  const season::Demand& due = plan.due[d];
  const std::int64_t missing = plan.batches.short_ml[d];
  std::string text = words.text(missing > 0 ? "preparation.short" : "preparation.met",
                                {{"litres", litres_of(due.ml)},
                                 {"by", due.collect},
                                 {"until", due.last_use},
                                 {"missing", litres_of(missing)}});
  if (missing > 0 && plan.earliest_ready && due.collect < *plan.earliest_ready)
    text += " " + words.text("preparation.earliest", {{"day", *plan.earliest_ready}});
  if (missing > 0 && !plan.hands_would_help.empty() && plan.hands_would_help[d])
    text += " " + words.text("binds.hands");
  return text;
}

std::vector<std::string> preparation_lines(const PageWords& w, std::size_t preparation) {
  const season::PreparationPlan& plan = w.worked.plan.others[preparation];
  std::vector<std::string> lines;
  for (std::size_t d = 0; d < plan.due.size(); ++d)
    lines.push_back(wanted_text(w.worked, preparation, d));
  if (w.worked.plan.risk)
    lines.push_back(
        w.say("preparation.on-time", {{"share", Decimal{std::floor(plan.on_time * 100.0), 0}}}));
  std::int64_t made = 0, drawn = 0, low = 0;
  for (const season::BatchYield& yield :
       season::batch_yields(*w.worked.season.preparations[preparation].recipe, plan)) {
    drawn += yield.drawn_ml;
    low += yield.missing_ml();
  }
  for (const season::Batch& batch : plan.batches.batches) made += batch.stored_ml;
  if (low > 0) lines.push_back(w.say("preparation.low", {{"missing", litres_of(low)}}));
  if (made > drawn + drawn / 10)
    lines.push_back(w.say("preparation.over", {{"litres", litres_of(made - drawn)}}));
  return lines;
}

sheet::Page preparations_page(const PageWords& w) {
  sheet::Page page("preparations", w.say("page.preparations"));
  for (std::size_t i = 0; i < w.worked.plan.others.size(); ++i) {
    const recipe::Recipe& recipe = *w.worked.season.preparations[i].recipe;
    const season::PreparationPlan& plan = w.worked.plan.others[i];
    const std::vector<season::BatchYield> yields = season::batch_yields(recipe, plan);
    page.heading(recipe_name(w.words, recipe));
    page.list(preparation_lines(w, i));
    for (std::size_t b = 0; b < plan.batches.batches.size(); ++b) {
      const season::Batch& batch = plan.batches.batches[b];
      page.text(batch_line(w, batch));
      page.text(takes_text(w, recipe, batch));
      page.table(step_columns(w), step_rows(w, recipe, batch));
      for (std::string& text : forecast_texts(w, recipe, batch)) page.text(std::move(text));
      page.text(w.say("preparation.yield", {{"low", litres_of(yields[b].low_ml)},
                                            {"high", litres_of(yields[b].high_ml)}}));
    }
  }
  return page;
}

}  // namespace wheyfield::api
