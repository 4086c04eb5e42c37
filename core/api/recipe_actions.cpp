#include <cmath>

#include "api/field_reader.h"
#include "api/fields.h"
#include "api/recipe_use.h"
#include "api/session.h"
#include "recipe/check.h"
#include "recipe/check_use.h"
#include "recipe/scale.h"
#include "sheet/page.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Result;
using quantity::rounded;
using words::Decimal;

const Fields show_fields{"RecipeShow",
                         {{"recipe", Holds::text, true},
                          {"last_used", Holds::date, false},
                          {"local_days", Holds::days, false},
                          {"pages", Holds::flag, false}}};
const Fields scale_fields{"RecipeScale",
                          {{"recipe", Holds::text, true},
                           {"make", Holds::volume, false},
                           {"vessel", Holds::volume, false},
                           {"pages", Holds::flag, false}}};

std::vector<std::string> recipe_ids(const Session& session) {
  std::vector<std::string> ids;
  for (const recipe::Recipe& recipe : session.recipes) ids.push_back(recipe.id);
  return ids;
}

Result<const recipe::Recipe*> named(const Session& session, const json& body) {
  const json name = body.value("recipe", json());
  const std::string id = name.is_string() ? name.get<std::string>() : "";
  const recipe::Recipe* recipe = session.recipe(id);
  if (!recipe)
    return failure(
        {"recipe-unknown", "/recipe", id, {{"suggestion", nearest(id, recipe_ids(session))}}});
  return recipe;
}

Json dwell_json(const recipe::Dwell& d) {
  return {{"early", d.early}, {"likely", d.likely}, {"late", d.late}, {"keeps", d.keeps}};
}

Json forecast_json(const recipe::Step& step) {
  if (!step.forecast) return nullptr;
  return {{"ready_ph", step.forecast->ready_ph.value},
          {"published_least", step.forecast->published_least.value},
          {"least_until_batches", step.forecast->least_until_batches.value}};
}

Json step_json(const recipe::Step& step) {
  return {{"step", step.id},
          {"warm", dwell_json(step.warm)},
          {"cool", dwell_json(step.cool)},
          {"forecast", forecast_json(step)},
          {"fill_fraction", step.fill_fraction ? Json(step.fill_fraction->value) : Json(nullptr)},
          {"labour_hours", step.labour_hours.value},
          {"cautions", step.cautions}};
}

double least_fill(const recipe::Step& step) {
  return step.least_fill ? step.least_fill->value : 0.0;
}

// What a recipe is shown for: what it says itself, or the smallest batch that works.
double smallest_shown(const recipe::Recipe& recipe) {
  const int stands = recipe.vessel_step();
  const double least =
      stands < 0 ? 0.0 : least_fill(recipe.steps[static_cast<std::size_t>(stands)]);
  return least > 0.0 ? recipe::product_filling(recipe, quantity::litres(least)) : recipe.shown_for;
}

std::string amount(const Session& session, const recipe::Recipe& recipe,
                   const recipe::ScaledFlow& flow) {
  const recipe::Material* m = recipe.material(flow.material);
  const words::Catalogue& w = session.words;
  words::Values values{{"material", w.text("material." + flow.material)},
                       {"amount", Decimal{flow.amount, recipe::amount_places}},
                       {"unit", m ? m->unit : ""},
                       {"low", Decimal{flow.low, 2}},
                       {"high", Decimal{flow.high, 2}}};
  if (!flow.measured) return w.text("recipe.flow", values);
  const bool last = flow.material == recipe.product;
  return w.text(last ? "recipe.flow-measured-last" : "recipe.flow-measured", values);
}

std::string dwell_text(const Session& session, const recipe::Dwell& d) {
  if (d.late == 0) return session.words.text("recipe.same-day");
  return session.words.text(
      d.early == d.late ? "recipe.dwell-fixed" : "recipe.dwell",
      {{"early", d.early}, {"likely", d.likely}, {"n", d.late}, {"keeps", d.keeps}});
}

// The tasks with hours of their own, by their days from the start of the step; "" without any.
std::string worked_text(const Session& session, const recipe::Step& step) {
  std::string days;
  double hours = 0.0;
  for (const recipe::TaskTemplate& task : step.tasks) {
    if (!task.hours || task.at_end) continue;
    days += (days.empty() ? "" : ", ") + std::to_string(task.day);
    hours += task.hours->value;
  }
  if (days.empty()) return "";
  return session.words.text("recipe.worked", {{"days", days}, {"hours", Decimal{hours, 1}}});
}

// A recipe on paper: each step with what goes in, what comes out, how long, and its cautions.
sheet::Page recipe_page(const Session& session, const recipe::Recipe& recipe,
                        const recipe::Scaled& scaled, const AskedHarvest& asked) {
  const words::Catalogue& w = session.words;
  const recipe::Material* product = recipe.material(recipe.product);
  sheet::Page page("recipe", w.text("recipe.title", {{"recipe", w.text("recipe." + recipe.id)},
                                                     {"amount", Decimal{scaled.product, 2}},
                                                     {"unit", product ? product->unit : ""}}));
  for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
    const recipe::Step& step = recipe.steps[i];
    page.heading(w.text(
        "recipe.step", {{"number", static_cast<int>(i + 1)}, {"step", w.text("step." + step.id)}}));
    std::vector<std::string> lines;
    for (const recipe::ScaledFlow& flow : scaled.steps[i].takes)
      lines.push_back(w.text("recipe.takes", {{"flow", amount(session, recipe, flow)}}));
    for (const recipe::ScaledFlow& flow : scaled.steps[i].gives)
      lines.push_back(w.text("recipe.gives", {{"flow", amount(session, recipe, flow)}}));
    lines.push_back(w.text("recipe.warm", {{"days", dwell_text(session, step.warm)}}));
    if (step.cool.late != step.warm.late || step.cool.early != step.warm.early)
      lines.push_back(w.text("recipe.cool", {{"days", dwell_text(session, step.cool)}}));
    if (step.forecast)
      lines.push_back(
          w.text("recipe.forecast",
                 {{"ph", Decimal{step.forecast->ready_ph.value, 1}},
                  {"n", static_cast<int>(step.forecast->published_least.value)},
                  {"batches", static_cast<int>(step.forecast->least_until_batches.value)}}));
    if (std::string worked = worked_text(session, step); !worked.empty())
      lines.push_back(std::move(worked));
    if (step.kind == recipe::VesselKind::apart) lines.push_back(w.text("recipe.apart"));
    if (step.fill_fraction && step.fill_fraction->value < 1.0)
      lines.push_back(
          w.text("recipe.fill", {{"percent", Decimal{100.0 * step.fill_fraction->value, 0}}}));
    if (least_fill(step) > 0.0)
      lines.push_back(w.text("recipe.least-fill", {{"litres", Decimal{least_fill(step), 0}}}));
    if (step.most_fill)
      lines.push_back(w.text("recipe.most-fill", {{"litres", Decimal{step.most_fill->value, 0}}}));
    page.list(std::move(lines));
    if (rounded(scaled.steps[i].fill, recipe::amount_places) < least_fill(step))
      page.caution(w.text("recipe.too-small", {{"fill", Decimal{scaled.steps[i].fill, 0}},
                                               {"litres", Decimal{least_fill(step), 0}}}));
    if (step.most_fill &&
        rounded(scaled.steps[i].fill, recipe::amount_places) > step.most_fill->value)
      page.caution(w.text("recipe.too-large", {{"fill", Decimal{scaled.steps[i].fill, 0}},
                                               {"litres", Decimal{step.most_fill->value, 0}}}));
    for (const std::string& id : step.cautions) page.caution(w.text("caution." + id));
  }
  page.text(w.text("recipe.labour", {{"hours", Decimal{recipe::labour_hours(recipe), 1}}}));
  add_use(page, session, recipe, asked);
  if (!recipe.cautions.empty()) page.heading(w.text("recipe.candid"));
  for (const std::string& id : recipe.cautions) page.caution(w.text("caution." + id));
  return page;
}

Json flows_json(const recipe::Recipe& recipe, const std::vector<recipe::ScaledFlow>& flows) {
  Json list = Json::array();
  for (const recipe::ScaledFlow& flow : flows) {
    const recipe::Material* m = recipe.material(flow.material);
    list.push_back({{"material", flow.material},
                    {"amount", rounded(flow.amount, 6)},
                    {"low", rounded(flow.low, 6)},
                    {"high", rounded(flow.high, 6)},
                    {"unit", m ? m->unit : ""},
                    {"measured", flow.measured}});
  }
  return list;
}

Json scaled_json(const recipe::Recipe& recipe, const recipe::Scaled& scaled) {
  Json steps = Json::array();
  for (const recipe::ScaledStep& step : scaled.steps)
    steps.push_back({{"step", step.step},
                     {"fill_l", rounded(step.fill, 6)},
                     {"takes", flows_json(recipe, step.takes)},
                     {"gives", flows_json(recipe, step.gives)}});
  return steps;
}

outcome::Problems all_problems(const Session& session, const recipe::Recipe& recipe) {
  outcome::Problems problems = recipe::check(recipe);
  outcome::append(problems, recipe::check_use(recipe, recipe::UseLimits::of(session.data)));
  return problems;
}

}  // namespace

Result<Answer> recipe_list(const Session& session, const json& body) {
  Answer answer;
  Json list = Json::array();
  sheet::Page page("recipes", session.words.text("recipe.list-title"));
  std::vector<std::string> lines;
  for (const recipe::Recipe& recipe : session.recipes) {
    int warm = 0, cool = 0;
    for (const recipe::Step& step : recipe.steps) {
      warm += step.warm.likely;
      cool += step.cool.likely;
    }
    const std::string name = session.words.text("recipe." + recipe.id);
    list.push_back({{"id", recipe.id}, {"name", name}, {"days_warm", warm}, {"days_cool", cool}});
    lines.push_back(session.words.text(
        "recipe.list-line", {{"id", recipe.id}, {"name", name}, {"n", warm}, {"cool", cool}}));
  }
  answer.fields["recipes"] = std::move(list);
  page.list(std::move(lines));
  if (wants_pages(body)) answer.fields["pages"] = Json::array({sheet::to_json(page)});
  return answer;
}

Result<Answer> recipe_show(const Session& session, const json& body) {
  outcome::Problems problems = check_shape(body, show_fields, "");
  if (!problems.empty()) return failure(problems);
  const auto recipe = named(session, body);
  if (!recipe) return failure(recipe.error());
  const FieldReader r(body, "", session.data.units(), problems);
  const AskedHarvest asked{r.date("last_used"), r.days("local_days")};
  if (!problems.empty()) return failure(problems);
  Answer answer;
  Json steps = Json::array();
  for (const recipe::Step& step : (*recipe)->steps) steps.push_back(step_json(step));
  answer.fields["recipe"] = (*recipe)->id;
  answer.fields["product"] = (*recipe)->product;
  answer.fields["steps"] = std::move(steps);
  put_use(answer.fields, session, **recipe, asked);
  recipe::note_sources(**recipe, answer.used);
  (*recipe)->use.note(answer.used);
  if (r.flag("pages"))
    answer.fields["pages"] = Json::array({sheet::to_json(
        recipe_page(session, **recipe, recipe::scale(**recipe, smallest_shown(**recipe)), asked))});
  return answer;
}

Result<Answer> recipe_scale(const Session& session, const json& body) {
  outcome::Problems problems = check_shape(body, scale_fields, "");
  if (!problems.empty()) return failure(problems);
  const auto recipe = named(session, body);
  if (!recipe) return failure(recipe.error());
  const FieldReader r(body, "", session.data.units(), problems);
  const auto make = r.volume("make"), vessel = r.volume("vessel");
  if (!problems.empty()) return failure(problems);
  if (make.has_value() == vessel.has_value())
    return failure({"scale-make-or-vessel", "/make", "", {}});
  const double product =
      make ? quantity::in_litres(*make) : recipe::product_filling(**recipe, *vessel);
  const recipe::Scaled scaled = recipe::scale(**recipe, product);
  Answer answer;
  answer.fields["recipe"] = (*recipe)->id;
  answer.fields["product"] = rounded(product, 6);
  answer.fields["steps"] = scaled_json(**recipe, scaled);
  recipe::note_sources(**recipe, answer.used);
  (*recipe)->use.note(answer.used);
  if (r.flag("pages"))
    answer.fields["pages"] =
        Json::array({sheet::to_json(recipe_page(session, **recipe, scaled, {}))});
  return answer;
}

Result<Answer> recipe_check(const Session& session, const json& body) {
  Answer answer;
  outcome::Problems problems;
  std::string id;
  if (body.contains("definition")) {
    const auto read = recipe::parse(body["definition"], "/definition");
    if (!read) return failure(read.error());
    id = read->id;
    problems = outcome::under("/definition", all_problems(session, *read));
  } else {
    const auto recipe = named(session, body);
    if (!recipe) return failure(recipe.error());
    id = (*recipe)->id;
    problems = all_problems(session, **recipe);
  }
  answer.fields["recipe"] = id;
  answer.fields["sound"] = problems.empty();
  answer.problems = std::move(problems);
  if (wants_pages(body)) {
    sheet::Page page("check", session.words.text("recipe.check-title", {{"recipe", id}}));
    page.text(session.words.text(answer.problems.empty() ? "recipe.sound" : "recipe.unsound"));
    answer.fields["pages"] = Json::array({sheet::to_json(page)});
  }
  return answer;
}

}  // namespace wheyfield::api
