#include "api/plan_answer.h"
#include "crop/use_windows.h"
#include "season/harvest_wait.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using quantity::in_millilitres;
using quantity::rounded;

template <class List, class Write>
Json list_json(const List& list, Write write) {
  Json out = Json::array();
  for (const auto& item : list) out.push_back(write(item));
  return out;
}

Json window_json(const calendar::Window& w) {
  return {{"early", w.early.iso()}, {"likely", w.likely.iso()}, {"late", w.late.iso()}};
}

double litres(quantity::Volume v) { return rounded(in_litres(v), 6); }
double money(quantity::Money m) { return m.amount(); }

std::string lot_name(const WorkedPlan& w, std::size_t lot) {
  const std::size_t opening = w.plan.opening.size();
  return lot < opening ? "in-hand" : season::batch_name(lot - opening);
}

const char* hand_out_word(season::HandOut hand_out) {
  if (hand_out == season::HandOut::none) return "none";
  return hand_out == season::HandOut::by_seed ? "by-seed" : "volume";
}

Json use_json(const WorkedPlan& w, const season::PlannedUse& use) {
  const season::Farm& farm = w.farm(use.due.farm);
  const season::Field& field = farm.fields[use.due.field];
  Json from = Json::array();
  for (const season::Draw& draw : use.draws)
    from.push_back({{"lot", lot_name(w, draw.lot)}, {"ml", draw.ml}});
  const auto wait = season::harvest_wait(w.season, use.due, w.harvest);
  const double acres = quantity::in_acres(field.area);
  return {
      {"farm", farm.code},
      {"field", use.due.field + 1},
      {"crop", field.planting.crop->id},
      {"use", use.due.use.id},
      {"event", use.due.use.event},
      {"window", window_json(use.due.use.window)},
      {"road", crop::road_word(use.due.road)},
      {"collect_on", use.planned && use.due.collect_on ? Json(use.due.collect_on->iso()) : Json()},
      {"method", use.due.method},
      {"measured", use.due.measured},
      {"area_m2", rounded(quantity::in_square_metres(field.area), 3)},
      {"mix_l", litres(use.due.mix)},
      {"mix_l_per_acre", rounded(in_litres(use.due.mix) / acres, 3)},
      {"plants", use.due.plants},
      {"serum_ml", use.due.serum_ml},
      {"usual_ml", use.due.usual_ml},
      {"hand_out", hand_out_word(use.due.hand_out)},
      {"ml_per_kg", use.due.hand_out == season::HandOut::by_seed
                        ? Json(rounded(in_millilitres(use.due.per_kg), 6))
                        : Json()},
      {"pick_from", wait ? Json(wait->pick_from.iso()) : Json()},
      {"planned", use.planned},
      {"short_ml", use.short_ml},
      {"from", std::move(from)}};
}

Json inputs_json(const WorkedPlan& w, const season::Batch& batch) {
  Json list = Json::array();
  const recipe::Scaled scaled =
      recipe::scale(w.recipe, static_cast<double>(batch.stored_ml) / 1000.0);
  for (const recipe::Material& m : w.recipe.materials)
    if (m.role == recipe::Role::input)
      list.push_back(
          {{"material", m.id}, {"amount", rounded(scaled.taken(m.id), 6)}, {"unit", m.unit}});
  return list;
}

Json batch_json(const WorkedPlan& w, std::size_t i) {
  const season::Batch& batch = w.plan.batches.batches[i];
  const season::Vessel& vessel = w.season.vessels[batch.vessel];
  Json steps = Json::array();
  calendar::Window ready{batch.start(), batch.start(), batch.start()};
  for (const season::BatchStep& step : batch.steps) {
    const recipe::Step& of = w.recipe.steps[step.step];
    const recipe::Dwell& dwell = step.cool ? of.cool : of.warm;
    ready = ready + calendar::DayRange{dwell.early, dwell.likely, dwell.late};
    steps.push_back({{"step", of.id},
                     {"from", step.from.iso()},
                     {"to", step.to.iso()},
                     {"ready", window_json(step.ready)},
                     {"stands_until", step.stands_until.iso()},
                     {"place", step.cool ? "cool" : "warm"},
                     {"text", w.words().text("step." + of.id)}});
  }
  const season::BatchYield& yield = w.yields[i];
  return {{"id", season::batch_name(i)},
          {"recipe", w.recipe.id},
          {"vessel", vessel.name},
          {"farm", vessel.farm},
          {"place", w.season.places[vessel.place].name},
          {"milk", vessel.milk == season::Milk::raw ? "raw" : "heated"},
          {"spare", batch.spare},
          {"stored_ml", batch.stored_ml},
          {"start", batch.start().iso()},
          {"ready", batch.ready.iso()},
          {"ready_window", window_json(ready)},
          {"use_by", batch.use_by.iso()},
          {"drawn_ml", yield.drawn_ml},
          {"yield_ml",
           {{"low", yield.low_ml}, {"high", yield.high_ml}, {"missing", yield.missing_ml()}}},
          {"inputs", inputs_json(w, batch)},
          {"steps", std::move(steps)}};
}

Json task_json(const WorkedPlan& w, const season::Task& task) {
  return {{"date", task.date.iso()},
          {"task", task.id},
          {"who", who_text(w, task.who)},
          {"batch", task.batch ? Json(season::batch_name(*task.batch)) : Json()},
          {"text", task_text(w, task)},
          {"cautions", task.cautions}};
}

Json seed_share_json(const WorkedPlan& w, std::size_t farm, const season::SeedShare& seed) {
  return {{"field", seed.field + 1},
          {"crop", w.farm(farm).fields[seed.field].planting.crop->id},
          {"ml_per_kg", rounded(in_millilitres(seed.per_kg), 6)},
          {"kept_ml", seed.kept_ml}};
}

Json pick_from_json(const WorkedPlan& w, std::size_t farm, const season::PickFrom& pick) {
  return {{"field", pick.field + 1},
          {"crop", w.farm(farm).fields[pick.field].planting.crop->id},
          {"day", pick.day.iso()}};
}

Json meeting_json(const WorkedPlan& w, const season::Meeting& meeting) {
  Json shares = Json::array();
  for (const season::Share& share : meeting.shares)
    shares.push_back({{"farm", w.farm(share.farm).code},
                      {"serum_ml", share.serum_ml},
                      {"short_ml", share.short_ml},
                      {"uses", share.uses},
                      {"by_seed", list_json(share.by_seed,
                                            [&](const season::SeedShare& seed) {
                                              return seed_share_json(w, share.farm, seed);
                                            })},
                      {"pick_from", list_json(share.picking,
                                              [&](const season::PickFrom& pick) {
                                                return pick_from_json(w, share.farm, pick);
                                              })},
                      {"absent", share.absent},
                      {"send_by", share.send_by ? Json(share.send_by->iso()) : Json()}});
  Json bring = Json::array();
  for (const season::Bring& b : meeting.bring)
    bring.push_back({{"item", b.item},
                     {"amount", rounded(b.amount, 6)},
                     {"unit", b.unit},
                     {"price", money(b.price)},
                     {"cost", money(b.cost)},
                     {"batch", season::batch_name(b.batch)},
                     {"on", b.on.iso()}});
  return {{"date", meeting.date.iso()},
          {"shares", std::move(shares)},
          {"bring", std::move(bring)},
          {"absent", meeting.absent},
          {"milk_money", money(meeting.milk_money)}};
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

Json caps_json(const std::optional<dosing::CapCount>& caps) {
  if (!caps) return nullptr;
  return {{"count", caps->caps},
          {"given_ml", rounded(in_millilitres(caps->given), 6)},
          {"off", rounded(caps->off, 6)},
          {"fits", caps->fits}};
}

Json dose_json(const WorkedPlan& w, const season::DoseLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  return {{"farm", farm.code},
          {"field", line.field + 1},
          {"crop", farm.fields[line.field].planting.crop->id},
          {"method", line.method},
          {"uses", line.uses},
          {"container", line.container},
          {"container_l", litres(line.container_size)},
          {"mix_l", litres(line.mix)},
          {"serum_ml", line.serum_ml},
          {"usual_ml", line.usual_ml},
          {"measured", line.measured},
          {"plants", line.plants},
          {"cap_ml", farm.cap ? Json(rounded(in_millilitres(*farm.cap), 6)) : Json()},
          {"loads", rounded(line.loads.loads, 6)},
          {"full_loads", line.loads.full},
          {"serum_full_ml", rounded(in_millilitres(line.loads.serum_full), 6)},
          {"caps", caps_json(line.caps)},
          {"last_l", litres(line.loads.last)},
          {"serum_last_ml", rounded(in_millilitres(line.loads.serum_last), 6)},
          {"caps_last", caps_json(line.caps_last)},
          {"given_ml", rounded(in_millilitres(line.given), 6)},
          {"pick_from", line.pick_from ? Json(line.pick_from->iso()) : Json()},
          {"text", dose_text(w, line)}};
}

Json soak_json(const WorkedPlan& w, const season::SoakLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  return {{"farm", farm.code},
          {"field", line.field + 1},
          {"crop", farm.fields[line.field].planting.crop->id},
          {"weighed", line.weighed},
          {"hours", rounded(line.soak.hours, 3)},
          {"water_l", litres(line.soak.water)},
          {"serum_ml", rounded(in_millilitres(line.soak.serum), 6)},
          {"text", soak_text(w, line)}};
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
          {"per_acre_season", money(c.per_acre(w.season.area()))}};
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

template <class List, class Write>
std::string list_text(const List& list, Write write) {
  std::string text = "[";
  for (const auto& item : list) {
    if (text.size() > 1) text += ',';
    text += written(write(item));
  }
  text += ']';
  return text;
}

}  // namespace

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
  Json batches = Json::array();
  for (std::size_t i = 0; i < w.plan.batches.batches.size(); ++i)
    batches.push_back(batch_json(w, i));
  fields["batches"] = std::move(batches);
  fields["tasks"] = list_json(w.plan.tasks, [&](const auto& task) { return task_json(w, task); });
  answer.put_list("meetings",
                  list_text(w.meetings, [&](const auto& m) { return meeting_json(w, m); }));
  fields["shopping"] = shopping_json(w);
  fields["stock"] = stock_json(w);
  answer.put_list("soaks",
                  list_text(w.soaks, [&](const auto& line) { return soak_json(w, line); }));
  fields["cost"] = cost_json(w);
  fields["cautions"] = list_json(plan_cautions(w), [&](const std::string& id) {
    return Json{{"id", id}, {"text", w.words().text("caution." + id)}};
  });
  answer.lists.push_back(
      {"uses", list_text(w.plan.uses, [&](const auto& use) { return use_json(w, use); })});
  answer.lists.push_back(
      {"doses", list_text(w.doses, [&](const auto& line) { return dose_json(w, line); })});
}

}  // namespace wheyfield::api
