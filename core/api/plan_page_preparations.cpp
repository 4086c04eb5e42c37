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
            w.say("batch.input", {{"amount", Decimal{amount, amount < 10.0 ? 2 : 1}},
                                  {"unit", w.unit(m.unit, amount)},
                                  {"item", w.words.text("material." + m.id)}});
  }
  return w.say("batch.takes", {{"list", list}});
}

// A heap is not measured to the millilitre.
std::string about(const PageWords& w, std::int64_t ml) {
  return ml < 10000 ? w.litres(ml) : w.number(static_cast<double>(ml) / 1000.0, 1);
}

}  // namespace

std::string batch_line(const PageWords& w, const season::Batch& b) {
  const season::Vessel& vessel = w.worked.season.vessels[b.vessel];
  return w.say(b.spare ? "batch.line-spare" : "batch.line", {{"batch", b.name},
                                                             {"day", b.start()},
                                                             {"ready", b.ready},
                                                             {"litres", w.litres(b.stored_ml)},
                                                             {"vessel", vessel.name},
                                                             {"farm", vessel.farm}});
}

std::vector<std::string> preparation_lines(const PageWords& w, std::size_t preparation) {
  const season::PreparationPlan& plan = w.worked.plan.others[preparation];
  std::vector<std::string> lines;
  for (std::size_t d = 0; d < plan.due.size(); ++d) {
    const season::Demand& due = plan.due[d];
    const std::int64_t missing = plan.batches.short_ml[d];
    const bool too_early = missing > 0 && plan.earliest_ready && due.collect < *plan.earliest_ready;
    lines.push_back(
        w.say(missing > 0 ? "preparation.short" : "preparation.met",
              {{"litres", about(w, due.ml)},
               {"by", due.collect},
               {"until", due.last_use},
               {"missing", about(w, missing)}}) +
        (too_early ? " " + w.say("preparation.earliest", {{"day", *plan.earliest_ready}}) : ""));
  }
  if (w.worked.plan.risk)
    lines.push_back(
        w.say("preparation.on-time", {{"share", Decimal{std::floor(plan.on_time * 100.0), 0}}}));
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
      page.text(w.say("preparation.yield", {{"low", about(w, yields[b].low_ml)},
                                            {"high", about(w, yields[b].high_ml)}}));
    }
  }
  return page;
}

}  // namespace wheyfield::api
