#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <set>

#include "api/fields.h"
#include "api/plan_answer.h"
#include "api/season_facts.h"
#include "api/season_reader.h"
#include "api/session.h"
#include "dosing/dilution.h"
#include "dosing/harvest.h"
#include "group/spoiled.h"
#include "recipe/check.h"
#include "season/back_scheduler.h"
#include "season/harvest_wait.h"
#include "season/lot_planner.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;
using words::Decimal;

void note_past_uses(const WorkedPlan& worked, Problems& problems) {
  if (worked.plan.past_uses > 0)
    problems.push_back({"uses-before-season",
                        "/season/from",
                        worked.season.from.iso(),
                        {{"n", std::to_string(worked.plan.past_uses)}},
                        Severity::notice});
}

std::string field_pointer(std::size_t farm, std::size_t field) {
  return "/farms/" + std::to_string(farm) + "/fields/" + std::to_string(field);
}

// Fields that fall out of the plan because nothing of theirs is due within the season.
void note_fields_without_use(const WorkedPlan& worked, Problems& problems) {
  std::set<std::pair<std::size_t, std::size_t>> used;
  for (const season::PlannedUse& use : worked.plan.uses) used.insert({use.due.farm, use.due.field});
  for (std::size_t f = 0; f < worked.season.farms.size(); ++f)
    for (std::size_t i = 0; i < worked.farm(f).fields.size(); ++i)
      if (used.count({f, i}) == 0)
        problems.push_back({"field-without-use",
                            field_pointer(f, i) + "/sown_on",
                            worked.farm(f).fields[i].planting.set_out.iso(),
                            {{"farm", worked.farm(f).code}},
                            Severity::notice});
}

// Cans must hold the stock at its highest, a third of each left empty. Without cans entered nothing
// can be said.
void note_storage(const WorkedPlan& worked, Problems& problems) {
  if (worked.season.containers.empty() || worked.stock.empty()) return;
  const double filled = 1.0 - worked.session.data.constant("storage-headspace").value;
  double room = 0.0;
  for (const season::Containers& cans : worked.season.containers)
    room += quantity::in_millilitres(cans.size) * cans.count * filled;
  const season::StockPeak peak =
      season::stock_peak(worked.season, worked.recipe, worked.plan, worked.stock);
  if (static_cast<double>(peak.ml) <= room + 0.5) return;
  const auto litres = [&](double ml) { return worked.words().number({ml / 1000.0, 1}); };
  problems.push_back({"storage-short",
                      "/containers",
                      litres(room),
                      {{"peak", litres(static_cast<double>(peak.ml))},
                       {"day", worked.words().date(peak.date)},
                       {"room", litres(room)}},
                      Severity::notice});
}

// What there is to decide about a shortage, true with or without a start that cures it.
std::string decision(const WorkedPlan& worked) {
  if (worked.plan.cure_start)
    return worked.words().text(
        "decide.start", {{"day", *worked.plan.cure_start}, {"first", worked.season.first_start}});
  if (worked.plan.under_way) return worked.words().text("decide.under-way");
  const double days = worked.session.data.constant("cure-search").value;
  return worked.words().text("decide.no-start", {{"n", static_cast<int>(days)}});
}

void note_shortages(const WorkedPlan& worked, Problems& problems) {
  for (const season::Shortage& s : worked.plan.shortages)
    problems.push_back({"season-short",
                        "/season/first_start",
                        worked.season.first_start.iso(),
                        {{"sentence", shortage_text(worked, s)}, {"decide", decision(worked)}},
                        Severity::question});
}

// What is wanted beside and is not in the plan.
void note_preparations(const WorkedPlan& worked, Problems& problems) {
  for (std::size_t i = 0; i < worked.plan.others.size(); ++i) {
    const season::PreparationPlan& plan = worked.plan.others[i];
    for (std::size_t d = 0; d < plan.due.size(); ++d)
      if (plan.batches.short_ml[d] > 0)
        problems.push_back({"preparation-short",
                            "/preparations",
                            recipe_name(worked.words(), *worked.season.preparations[i].recipe),
                            {{"sentence", wanted_text(worked, i, d)}},
                            Severity::question});
  }
}

// A use on leaves that are eaten raw so late that the first picking would have to wait.
void ask_about_picking(const WorkedPlan& worked, Answer& answer) {
  const words::Catalogue& words = worked.words();
  for (const season::PlannedUse& use : worked.plan.uses) {
    const auto wait = season::harvest_wait(worked.season, use.due, worked.harvest);
    if (!wait) continue;
    answer.used.note(worked.session.data.constant("raw-eaten-gap-days").origin, "harvest");
    if (!wait->passes_picking()) continue;
    const season::Farm& farm = worked.farm(use.due.farm);
    const crop::Use& of = use.due.use;
    answer.problems.push_back(
        {wait->use_by < of.window.early ? "picking-before-wait-always" : "picking-before-wait",
         field_pointer(use.due.farm, use.due.field) + "/harvest_after",
         wait->first_picking.iso(),
         {{"farm", farm.code},
          {"crop", words.text("crop." + farm.fields[use.due.field].planting.crop->id)},
          {"use", words.text("use." + of.event)},
          {"span", words.span(of.window.early, of.window.late)},
          {"days", std::to_string(wait->pick_from - of.window.late)},
          {"from", words.date(wait->pick_from)},
          {"first", words.date(wait->first_picking)},
          {"by", words.date(wait->use_by)}},
         Severity::question});
  }
}

// Soil that what is eaten raw touches: what a rule for raw manure would say.
void note_raw_on_the_ground(const WorkedPlan& worked, Answer& answer) {
  const words::Catalogue& words = worked.words();
  const reference_data::Sourced& manure = worked.session.data.constant("raw-manure-soil-days");
  const int days = static_cast<int>(manure.value);
  for (const season::RawGround& g : season::raw_grounds(worked.season, worked.plan.uses, days)) {
    const season::Farm& farm = worked.farm(g.farm);
    const std::string& crop = farm.fields[g.field].planting.crop->id;
    answer.used.note(manure.origin, "rule for raw manure");
    answer.problems.push_back({"ground-eaten-raw-planned",
                               field_pointer(g.farm, g.field) + "/crop",
                               crop,
                               {{"farm", farm.code},
                                {"crop", words.text("crop." + crop)},
                                {"until", words.date(g.until)},
                                {"days", std::to_string(days)},
                                {"first", words.date(g.first_picking)}},
                               Severity::notice});
  }
}

// Batches, or the start that would cure a shortage, on days before or after the months entered.
void note_days_without_months(const WorkedPlan& worked, Problems& problems) {
  for (std::size_t p = 0; p < worked.season.places.size(); ++p) {
    const weather::DailySeries& air = worked.season.places[p].temperature;
    if (!air.entered_from) continue;
    std::optional<calendar::Date> outside;
    const auto look_at = [&](calendar::Date day) {
      if (!outside && (day < *air.entered_from || day > *air.entered_to)) outside = day;
    };
    for (const season::Making& making : worked.makings())
      for (const season::Batch& b : making.batches->batches)
        if (worked.season.vessels[b.vessel].place == p) {
          look_at(b.start());
          look_at(b.ready);
        }
    const auto& vessels = worked.season.vessels;
    if (worked.plan.cure_start &&
        std::any_of(vessels.begin(), vessels.end(), [&](const auto& v) { return v.place == p; }))
      look_at(*worked.plan.cure_start);
    if (outside)
      problems.push_back({"days-without-months",
                          "/places/" + std::to_string(p) + "/months",
                          outside->iso(),
                          {{"place", worked.season.places[p].name},
                           {"from", air.entered_from->iso()},
                           {"to", air.entered_to->iso()}},
                          Severity::notice});
  }
}

// The planner that the body asks for.
Result<std::unique_ptr<season::BatchPlanner>> planner_of(const Session& session, const json& body) {
  const auto asked = body.find("method");
  if (asked == body.end() || *asked == "dynamic-programme")
    return std::make_unique<season::LotPlanner>();
  if (*asked == "baseline") return std::make_unique<season::BackScheduler>();
  if (*asked == "exact") {
    if (session.solver == nullptr) return failure({"plan-method-not-here", "/method", "exact", {}});
    return std::make_unique<season::LotPlanner>(lot_sizing::Effort(), session.solver);
  }
  return failure({"plan-method-unknown",
                  "/method",
                  asked->is_string() ? asked->get<std::string>() : asked->dump(),
                  {{"known", "dynamic-programme, baseline, exact"}}});
}

bool rests_on_own_yields(const OwnRecipes& recipes) {
  return std::any_of(recipes.begin(), recipes.end(), [](const auto& own) {
    return std::any_of(own->yields.begin(), own->yields.end(),
                       [](const recipe::LearnedYield& each) { return each.batches > 0; });
  });
}

Result<WorkedPlan> worked_plan(const Session& session, SoundSeason sound,
                               const season::BatchPlanner& planner, season::Simulation simulation,
                               const std::vector<season::Announced>& announced,
                               reference_data::UsedSources& used) {
  const recipe::Recipe& recipe = *sound.recipe;
  const season::Season& season = sound.read.season;
  const season::PlanRules rules = plan_rules(session, recipe);
  auto made = season::make_plan(season, recipe, session.crops, session.data, rules, planner,
                                season::BackScheduler(), simulation, used, announced);
  if (!made) return failure(made.error());
  season::SeasonPlan plan = std::move(*made);
  if (!plan.broken.empty()) return failure(plan.broken);
  const std::vector<season::Making> made_of = season::makings(season, recipe, plan);
  auto shopping = season::shopping(season, made_of, session.data);
  if (!shopping) return failure(shopping.error());
  const auto own_shopping = season::shopping(season, {made_of.front()}, session.data);
  if (!own_shopping) return failure(own_shopping.error());
  if (rests_on_own_yields(sound.own))
    used.note(session.data.constant("yield-place-share").origin, "yield-place-share");
  if (!sound.paces.empty())
    used.note(session.data.constant("speed-to-pace").origin, "speed-to-pace");
  for (const reference_data::Equipment& e : session.data.equipment())
    used.note(e.origin, "item." + e.item);
  for (const char* id : {"cup-volume", "heated-milk-slower", "cap-half-step", "dose-tolerance"})
    used.note(session.data.constant(id).origin, id);
  if (std::any_of(season.places.begin(), season.places.end(),
                  [](const season::Place& place) { return place.chlorinated(); }))
    used.note(session.data.constant("water-stand-hours").origin, "water-stand-hours");
  auto stock = season::stock_changes(season, plan);
  auto doses = season::dose_lines(season, plan, session.data);
  auto soaks = season::soak_lines(season, plan, session.data, used);
  const dosing::HarvestRule harvest = dosing::harvest_rule(session.data);
  auto meetings = season::meetings(season, recipe, plan, harvest);
  auto yields = season::batch_yields(recipe, plan);
  auto cost = economics::season_cost(season, recipe, plan, *own_shopping,
                                     session.data.constant("negligible-load").value);
  const auto beside = economics::making_cost(season, {made_of.begin() + 1, made_of.end()});
  const quantity::Money bought_beside = shopping->total - own_shopping->total;
  return WorkedPlan{session,
                    recipe,
                    std::move(sound.read.season),
                    std::move(plan),
                    std::move(*shopping),
                    std::move(stock),
                    std::move(doses),
                    std::move(soaks),
                    std::move(meetings),
                    std::move(yields),
                    cost,
                    harvest,
                    rules,
                    beside,
                    bought_beside,
                    std::move(sound.own),
                    std::move(sound.paces)};
}

// What only the plan shows.
void note_worked(const WorkedPlan& worked, Answer& answer) {
  Problems& problems = answer.problems;
  outcome::append(problems, worked.plan.notes);
  note_shortages(worked, problems);
  note_preparations(worked, problems);
  ask_about_picking(worked, answer);
  note_raw_on_the_ground(worked, answer);
  note_past_uses(worked, problems);
  note_fields_without_use(worked, problems);
  note_storage(worked, problems);
  note_days_without_months(worked, problems);
}

// What was understood of the file, so that a slip is seen before anything is planned.
sheet::Page check_page(const Session& session, const season::Season& season) {
  const words::Catalogue& w = session.words;
  sheet::Page page("check", w.text("check.title", {{"season", season.name}}));
  page.text(w.text("summary.group", {{"farms", season.farms.size()},
                                     {"fields", season.fields()},
                                     {"acres", Decimal{quantity::in_acres(season.area()), 3}}}));
  std::vector<std::vector<std::string>> rows;
  for (const season::Farm& farm : season.farms)
    for (const season::Field& field : farm.fields) {
      const double side = std::sqrt(quantity::in_square_metres(field.area));
      rows.push_back({farm.code, w.text("crop." + field.planting.crop->id),
                      w.number({quantity::in_acres(field.area), 3}),
                      w.text("check.square", {{"side", Decimal{side, 0}}}),
                      w.date(field.planting.set_out)});
    }
  page.table({{w.text("col.farm"), true},
              {w.text("col.crop"), false},
              {w.text("col.acres"), true},
              {w.text("col.about"), false},
              {w.text("col.sown"), false}},
             rows);
  return page;
}

}  // namespace

void put_pages(const std::vector<sheet::Page>& pages, Answer& answer) {
  std::string text = "[";
  for (const sheet::Page& page : pages) {
    if (text.size() > 1) text += ',';
    text += written(sheet::to_json(page));
  }
  text += ']';
  answer.put_list("pages", std::move(text));
}

season::PlanRules plan_rules(const Session& session, const recipe::Recipe& recipe) {
  const group::OwnBatches own = group::own_batches(session.facts, recipe.id);
  season::PlanRules rules = season::PlanRules::of(session.data, own.failed, own.finished);
  rules.readiness.batches_recorded = own.finished;
  return rules;
}

Result<WorkedPlan> planned(const Session& session, const json& body, Answer& answer,
                           season::Simulation simulation, const ReadAnnounced& read_announced) {
  const auto planner = planner_of(session, body);
  if (!planner) return failure(planner.error());
  auto sound = sound_season(session, body);
  if (!sound) return failure(sound.error());
  answer.problems = remarks(session, *sound);
  answer.used = std::move(sound->read.used);
  std::vector<season::Announced> announced;
  if (read_announced) {
    auto read = read_announced(*sound);
    if (!read) return failure(read.error());
    announced = std::move(*read);
  }
  auto worked =
      worked_plan(session, std::move(*sound), **planner, simulation, announced, answer.used);
  if (worked) note_worked(*worked, answer);
  return worked;
}

Result<Answer> season_plan(const Session& session, const json& body) {
  Answer answer;
  auto worked = planned(session, body, answer);
  if (!worked) return failure(worked.error());
  add_plan_fields(*worked, answer);
  if (wants_pages(body)) put_pages(plan_pages(*worked), answer);
  return answer;
}

Result<Answer> season_check(const Session& session, const json& body) {
  Answer answer;
  auto worked = planned(session, body, answer);
  if (!worked) return failure(worked.error());
  const season::Season& season = worked->season;
  answer.fields["farms"] = season.farms.size();
  answer.fields["fields"] = season.fields();
  answer.fields["acres"] = quantity::rounded(quantity::in_acres(season.area()), 6);
  answer.fields["short_ml"] = worked->plan.batches.total_short();
  std::int64_t others_short = 0;
  for (const season::PreparationPlan& other : worked->plan.others)
    others_short += other.batches.total_short();
  answer.fields["preparations_short_ml"] = others_short;
  answer.fields["cure_start"] =
      worked->plan.cure_start ? Json(worked->plan.cure_start->iso()) : Json();
  if (wants_pages(body)) put_pages({check_page(session, season)}, answer);
  return answer;
}

}  // namespace wheyfield::api
