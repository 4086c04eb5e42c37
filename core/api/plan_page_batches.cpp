// Each batch: what goes in, when its steps are, what it may bring.
#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using words::Decimal;

// What the measured yields may bring, and who goes short when they are low.
std::string yield_text(const PageWords& w, std::size_t i) {
  const season::BatchYield& yield = w.worked.yields[i];
  std::string text =
      w.say("batch.yield", {{"low", w.litres(yield.low_ml)}, {"high", w.litres(yield.high_ml)}});
  if (yield.missing_ml() > 0)
    text += " " + w.say("batch.yield-low", {{"missing", w.litres(yield.missing_ml())},
                                            {"drawn", w.litres(yield.drawn_ml)}});
  return text;
}

}  // namespace

Rows step_rows(const PageWords& w, const recipe::Recipe& recipe, const season::Batch& b) {
  Rows rows;
  for (const season::BatchStep& step : b.steps) {
    const std::string name = w.words.text("step." + recipe.steps[step.step].id);
    const bool same_day = step.from == step.to;
    const bool longer = step.cool && !step.bucket;
    rows.push_back({longer ? w.say("batch.cool", {{"step", name}}) : name, w.words.date(step.from),
                    same_day ? w.say("recipe.same-day") : w.span(step.ready),
                    same_day ? "" : w.words.date(step.ready.likely), w.words.date(step.to)});
  }
  return rows;
}

std::vector<std::string> forecast_texts(const PageWords& w, const recipe::Recipe& recipe,
                                        const season::Batch& b) {
  std::vector<std::string> texts;
  const season::Readiness& readiness = w.worked.rules.readiness;
  for (const season::BatchStep& step : b.steps) {
    if (!step.bucket) continue;
    const recipe::Step& of = recipe.steps[step.step];
    const int least = static_cast<int>(of.forecast->published_least.value);
    const int batches = static_cast<int>(of.forecast->least_until_batches.value);
    std::string text = w.say("batch.forecast", {{"step", w.words.text("step." + of.id)},
                                                {"celsius", Decimal{*step.bucket, 0}},
                                                {"early", step.ready.early},
                                                {"likely", step.ready.likely},
                                                {"late", step.ready.late}});
    if (readiness.batches_recorded < batches)
      text += " " + w.say("batch.forecast-least", {{"n", least}, {"batches", batches}});
    texts.push_back(std::move(text));
  }
  return texts;
}

std::vector<sheet::Column> step_columns(const PageWords& w) {
  return {w.left("col.step"), w.left("col.from"), w.left("col.ready"), w.left("col.likely"),
          w.left("col.until")};
}

sheet::Page batches_page(const PageWords& w) {
  sheet::Page page("batches", w.say("page.batches"));
  for (std::size_t i = 0; i < w.made().size(); ++i) {
    const season::Batch& b = w.made()[i];
    const season::Vessel& vessel = w.worked.season.vessels[b.vessel];
    page.heading(w.say(b.spare ? "batch.head-spare" : "batch.head",
                       {{"batch", b.name},
                        {"litres", w.litres(b.stored_ml)},
                        {"vessel", vessel.name},
                        {"farm", vessel.farm},
                        {"place", w.worked.season.places[vessel.place].name}}));
    page.text(
        w.words.text("batch.inputs", season::batch_values(w.worked.season, w.worked.recipe, b)));
    page.text(w.say(vessel.milk == season::Milk::raw ? "batch.milk-raw" : "batch.milk-heated"));
    page.table(step_columns(w), step_rows(w, w.worked.recipe, b));
    for (std::string& text : forecast_texts(w, w.worked.recipe, b)) page.text(std::move(text));
    page.text(w.say("batch.kept", {{"day", b.use_by}}));
    page.text(yield_text(w, i));
  }
  return page;
}

}  // namespace wheyfield::api
