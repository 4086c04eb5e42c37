#include <map>

#include "api/plan_answer.h"
#include "api/plan_rows.h"

namespace wheyfield::api {
namespace {

using quantity::rounded;

template <class List, class Write>
Json list_json(const List& list, Write write) {
  Json out = Json::array();
  for (const auto& item : list) out.push_back(write(item));
  return out;
}

double money(quantity::Money m) { return m.amount(); }

Json inputs_json(const recipe::Recipe& recipe, const season::Batch& batch) {
  Json list = Json::array();
  const recipe::Scaled scaled =
      recipe::scale(recipe, static_cast<double>(batch.stored_ml) / 1000.0);
  for (const recipe::Material& m : recipe.materials)
    if (m.role == recipe::Role::input)
      list.push_back(
          {{"material", m.id}, {"amount", rounded(scaled.taken(m.id), 6)}, {"unit", m.unit}});
  return list;
}

Json batch_json(const WorkedPlan& w, const recipe::Recipe& recipe, const season::Batch& batch,
                const season::BatchYield& yield) {
  const season::Vessel& vessel = w.season.vessels[batch.vessel];
  Json steps = Json::array();
  calendar::Window ready{batch.start(), batch.start(), batch.start()};
  for (const season::BatchStep& step : batch.steps) {
    const recipe::Step& of = recipe.steps[step.step];
    ready = ready + calendar::DayRange{step.ready.early - step.from, step.ready.likely - step.from,
                                       step.ready.late - step.from};
    steps.push_back({{"step", of.id},
                     {"from", step.from.iso()},
                     {"to", step.to.iso()},
                     {"ready", window_json(step.ready)},
                     {"stands_until", step.stands_until.iso()},
                     {"place", step.cool ? "cool" : "warm"},
                     {"forecast_celsius", step.bucket ? Json(rounded(*step.bucket, 1)) : Json()},
                     {"text", w.words().text("step." + of.id)}});
  }
  return {{"id", batch.name},
          {"recipe", recipe.id},
          {"vessel", vessel.name},
          {"farm", vessel.farm},
          {"place", w.season.places[vessel.place].name},
          {"milk", !recipe.material("milk")           ? Json()
                   : vessel.milk == season::Milk::raw ? Json("raw")
                                                      : Json("heated")},
          {"spare", batch.spare},
          {"stored_ml", batch.stored_ml},
          {"start", batch.start().iso()},
          {"ready", batch.ready.iso()},
          {"ready_window", window_json(ready)},
          {"use_by", batch.use_by.iso()},
          {"drawn_ml", yield.drawn_ml},
          {"yield_ml",
           {{"low", yield.low_ml}, {"high", yield.high_ml}, {"missing", yield.missing_ml()}}},
          {"inputs", inputs_json(recipe, batch)},
          {"steps", std::move(steps)}};
}

Json batches_json(const WorkedPlan& w, const recipe::Recipe& recipe,
                  const std::vector<season::Batch>& batches,
                  const std::vector<season::BatchYield>& yields) {
  Json list = Json::array();
  for (std::size_t i = 0; i < batches.size(); ++i)
    list.push_back(batch_json(w, recipe, batches[i], yields[i]));
  return list;
}

Json preparation_json(const WorkedPlan& w, std::size_t i) {
  const recipe::Recipe& recipe = *w.season.preparations[i].recipe;
  const season::PreparationPlan& plan = w.plan.others[i];
  Json wanted = Json::array();
  for (std::size_t d = 0; d < plan.due.size(); ++d)
    wanted.push_back({{"by", plan.due[d].collect.iso()},
                      {"until", plan.due[d].last_use.iso()},
                      {"ml", plan.due[d].ml},
                      {"short_ml", plan.batches.short_ml[d]}});
  return {{"recipe", recipe.id},
          {"name", recipe_name(w.words(), recipe)},
          {"wanted", std::move(wanted)},
          {"earliest_ready", plan.earliest_ready ? Json(plan.earliest_ready->iso()) : Json()},
          {"on_time", w.plan.risk ? Json(rounded(plan.on_time, 6)) : Json()},
          {"batches",
           batches_json(w, recipe, plan.batches.batches, season::batch_yields(recipe, plan))}};
}

Json task_json(const WorkedPlan& w, const season::Task& task) {
  return {{"date", task.date.iso()},
          {"task", task.id},
          {"who", who_text(w, task.who)},
          {"batch", task.batch ? Json(w.batch(*task.batch, task.preparation).name) : Json()},
          {"text", task_text(w, task)},
          {"cautions", task.cautions}};
}

Json shopping_json(const WorkedPlan& w) {
  Json lines = Json::array();
  for (const season::ShoppingLine& line : w.shopping.lines) {
    Json packs = Json::array();
    for (const season::PackChoice& choice : line.packs)
      packs.push_back({{"size", rounded(choice.pack.pack, 6)},
                       {"count", choice.count},
                       {"price", money(choice.pack.price)}});
    lines.push_back({{"item", line.item},
                     {"need", rounded(line.need, 6)},
                     {"unit", line.unit},
                     {"in_hand", rounded(line.in_hand, 6)},
                     {"packs", std::move(packs)},
                     {"cost", money(line.cost)},
                     {"buy_on", line.buy_on.iso()}});
  }
  return {{"lines", std::move(lines)}, {"total", money(w.shopping.total)}};
}

Json stock_json(const WorkedPlan& w) {
  Json list = Json::array();
  for (const season::StockChange& change : w.stock)
    list.push_back({{"date", change.date.iso()},
                    {"what", change.what},
                    {"batch", change.lot},
                    {"change_ml", change.change_ml},
                    {"balance_ml", change.balance_ml}});
  return list;
}

Json cost_json(const WorkedPlan& w) {
  const economics::SeasonCost& c = w.cost;
  return {{"currency", w.season.currency},
          {"bought", money(c.bought)},
          {"milk", money(c.milk)},
          {"labour", money(c.labour)},
          {"labour_hours", rounded(c.labour_hours, 6)},
          {"water", money(c.water)},
          {"cans", c.cans},
          {"total", money(c.total())},
          {"litres_handed_out", rounded(c.litres_handed_out, 6)},
          {"litres_kept", rounded(c.litres_kept, 6)},
          {"per_litre_handed_out", money(c.per_litre_handed_out())},
          {"litres_made", rounded(c.litres_made, 6)},
          {"per_litre_made", money(c.per_litre_made())},
          {"acres", rounded(quantity::in_acres(w.season.area()), 6)},
          {"per_acre_season", money(c.per_acre(w.season.area()))},
          {"beside",
           {{"bought", money(w.bought_beside)},
            {"milk", money(w.beside.milk)},
            {"labour", money(w.beside.labour)},
            {"labour_hours", rounded(w.beside.labour_hours, 6)}}}};
}

Json shortage_json(const WorkedPlan& w, const season::Shortage& s) {
  return {{"collect_on", s.collect.iso()},
          {"use", s.use},
          {"events", shortage_events(w, s)},
          {"short_ml", s.short_ml},
          {"due_ml", s.due_ml},
          {"fields", s.fields},
          {"binds", s.binds},
          {"text", shortage_text(w, s)}};
}

const char* method_word(season::PlanMethod method) {
  switch (method) {
    case season::PlanMethod::dynamic_programme:
      return "dynamic-programme";
    case season::PlanMethod::price_steps:
      return "price-steps";
    case season::PlanMethod::mixed_integer:
      return "mixed-integer";
    case season::PlanMethod::baseline:
      break;
  }
  return "baseline";
}

Json plan_json(const WorkedPlan& w) {
  const season::BatchPlan& plan = w.plan.batches;
  Json fields{{"method", method_word(plan.method)}};
  fields["cost"] = plan.certificate ? Json(money(plan.certificate->cost)) : Json();
  fields["bound"] = plan.certificate ? Json(money(plan.certificate->bound)) : Json();
  fields["gap"] = plan.certificate ? Json(rounded(plan.certificate->gap, 9)) : Json();
  fields["least_short"] = plan.certificate ? Json(plan.certificate->least_short) : Json();
  fields["baseline_cost"] = plan.baseline_cost ? Json(money(*plan.baseline_cost)) : Json();
  fields["on_time"] = w.plan.risk ? on_time_json(w) : Json();
  return fields;
}

// Each per litre of what it is measured against.
Json learned_json(const WorkedPlan& w) {
  Json yields = Json::array();
  for (const auto& own : w.own)
    for (const recipe::LearnedYield& one : own->yields)
      yields.push_back({{"recipe", own->taught->id},
                        {"material", recipe::flow_of(*own->taught, one.yield).material},
                        {"of", one.yield.of},
                        {"value", rounded(one.value * one.yield.per_of, 6)},
                        {"low", rounded(one.low * one.yield.per_of, 6)},
                        {"high", rounded(one.high * one.yield.per_of, 6)},
                        {"batches", one.batches}});
  Json places = Json::array();
  for (const OwnPace& pace : w.paces)
    places.push_back({{"place", pace.place}, {"batches", pace.batches}});
  return {{"yields", std::move(yields)},
          {"souring", std::move(places)},
          {"failure", failure_json(w.rules.failure)}};
}

}  // namespace

// The mean over the fields of each use.
Json on_time_json(const WorkedPlan& w) {
  std::map<std::string, std::pair<double, int>> by_use;
  for (const season::PlannedUse& use : w.plan.uses) {
    if (!use.planned) continue;
    auto& [sum, fields] = by_use[use.due.use.id];
    sum += use.on_time;
    ++fields;
  }
  Json each = Json::object();
  for (const auto& [id, of] : by_use) each[id] = rounded(of.first / of.second, 6);
  const season::SeasonRisk& risk = *w.plan.risk;
  return {{"each_use", std::move(each)},
          {"all_uses", rounded(risk.all_on_time, 6)},
          {"litres", rounded(risk.litres_on_time, 6)},
          {"worst_twentieth", rounded(risk.worst_twentieth, 6)},
          {"seasons", risk.seasons}};
}

void add_plan_fields(const WorkedPlan& w, Answer& answer) {
  Json& fields = answer.fields;
  fields["season"] = {{"name", w.season.name},
                      {"from", w.season.from.iso()},
                      {"to", w.season.to.iso()},
                      {"first_start", w.season.first_start.iso()},
                      {"farms", w.season.farms.size()},
                      {"fields", w.season.fields()},
                      {"acres", rounded(quantity::in_acres(w.season.area()), 6)},
                      {"strength", {{"parts", w.season.strength_parts}}},
                      {"feasible", w.plan.shortages.empty()}};
  fields["shortages"] =
      list_json(w.plan.shortages, [&](const auto& s) { return shortage_json(w, s); });
  fields["cure_start"] = w.plan.cure_start ? Json(w.plan.cure_start->iso()) : Json();
  fields["plan"] = plan_json(w);
  fields["learned"] = learned_json(w);
  fields["batches"] = batches_json(w, w.recipe, w.plan.batches.batches, w.yields);
  Json others = Json::array();
  for (std::size_t i = 0; i < w.plan.others.size(); ++i) others.push_back(preparation_json(w, i));
  fields["preparations"] = std::move(others);
  fields["tasks"] = list_json(w.plan.tasks, [&](const auto& task) { return task_json(w, task); });
  answer.put_list("meetings", meetings_text(w));
  fields["shopping"] = shopping_json(w);
  fields["stock"] = stock_json(w);
  answer.put_list("soaks", soaks_text(w));
  fields["cost"] = cost_json(w);
  fields["cautions"] = list_json(plan_cautions(w), [&](const std::string& id) {
    return Json{{"id", id}, {"text", w.words().text("caution." + id)}};
  });
  answer.lists.push_back({"uses", uses_text(w)});
  answer.lists.push_back({"doses", doses_text(w)});
}

}  // namespace wheyfield::api
