// A season that can be planned: what was entered, checked against recipes, data and vessels.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>

#include "api/batch_records.h"
#include "api/fields.h"
#include "api/plan_answer.h"
#include "api/season_facts.h"
#include "api/season_reader.h"
#include "api/session.h"
#include "dosing/dilution.h"
#include "group/own_yields.h"
#include "recipe/check.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;

bool is_made(const season::Season& season, const std::string& item) {
  return std::any_of(season.preparations.begin(), season.preparations.end(),
                     [&](const auto& made) { return made.recipe->product == item; });
}

// Stock must be something the plan knows, in the unit in which it is counted.
Problems stock_problems(const Session& session, const season::Season& season,
                        const recipe::Recipe& own) {
  std::map<std::string, std::string> unit{{"serum", "L"}};
  const auto add_bought = [&](const recipe::Recipe& recipe) {
    for (const recipe::Material& m : recipe.materials)
      if (m.bought) unit.emplace(m.id, m.unit);
  };
  add_bought(own);
  for (const season::Preparation& made : season.preparations) {
    add_bought(*made.recipe);
    unit.emplace(made.recipe->product, "L");
  }
  for (const reference_data::Equipment& e : session.data.equipment()) unit.emplace(e.item, e.unit);
  std::vector<std::string> names;
  std::string known;
  for (const auto& [name, of] : unit) {
    names.push_back(name);
    known += (known.empty() ? "" : ", ") + name;
  }
  Problems problems;
  for (std::size_t i = 0; i < season.stock.size(); ++i) {
    const season::StockItem& item = season.stock[i];
    const std::string field = "/stock/" + std::to_string(i);
    const auto found = unit.find(item.item);
    if (found == unit.end())
      problems.push_back({"stock-item-unknown",
                          field + "/item",
                          item.item,
                          {{"known", known}, {"suggestion", nearest(item.item, names)}}});
    else if (item.amount > 0.0 && !item.made_on && is_made(season, item.item))
      problems.push_back({"stock-date-missing", field + "/made_on", "", {}});
    else if (item.unit != found->second)
      problems.push_back({"stock-unit",
                          field + "/amount",
                          item.unit,
                          {{"item", item.item}, {"unit", found->second}}});
  }
  return problems;
}

std::string pointer(std::size_t entry, const char* member) {
  return "/preparations/" + std::to_string(entry) + "/" + member;
}

// The entries of each recipe together, in the order in which the recipes are first named.
Problems add_preparations(const Session& session, const recipe::Recipe& own,
                          const std::vector<EnteredPreparation>& entered, season::Season& season) {
  Problems problems;
  std::map<std::string, std::string> by_letter{{own.letter, own.id}};
  for (std::size_t i = 0; i < entered.size(); ++i) {
    const EnteredPreparation& entry = entered[i];
    const recipe::Recipe* recipe = session.recipe(entry.recipe);
    if (recipe == nullptr) {
      problems.push_back({"recipe-unknown", pointer(i, "recipe"), entry.recipe, {}});
      continue;
    }
    if (recipe == &own) {
      problems.push_back({"preparation-own", pointer(i, "recipe"), entry.recipe, {}});
      continue;
    }
    const auto [letter, fresh] = by_letter.emplace(recipe->letter, recipe->id);
    if (!fresh && letter->second != recipe->id)
      problems.push_back({"preparation-letter",
                          pointer(i, "recipe"),
                          entry.recipe,
                          {{"letter", recipe->letter}, {"other", letter->second}}});
    auto known = std::find_if(season.preparations.begin(), season.preparations.end(),
                              [&](const auto& made) { return made.recipe == recipe; });
    if (known == season.preparations.end()) {
      outcome::append(problems, recipe::check(*recipe));
      season.preparations.push_back({recipe, entry.keeps_days, {}});
      known = std::prev(season.preparations.end());
    }
    if (known->keeps_days != entry.keeps_days)
      problems.push_back({"preparation-keeps-differ",
                          pointer(i, "keeps"),
                          std::to_string(entry.keeps_days),
                          {{"days", std::to_string(known->keeps_days)}}});
    // The journal keeps one amount for a recipe and day.
    if (std::any_of(known->wanted.begin(), known->wanted.end(),
                    [&](const auto& wanted) { return wanted.by == entry.wanted.by; }))
      problems.push_back({"preparation-twice", pointer(i, "by"), entry.wanted.by.iso(), {}});
    known->wanted.push_back(entry.wanted);
  }
  return problems;
}

// A recipe for which no vessel is large enough, or of its kind, could never be made.
Problems vessel_problems(const season::Season& season, const recipe::Recipe& own,
                         const words::Catalogue& words) {
  std::vector<const recipe::Recipe*> recipes{&own};
  for (const season::Preparation& made : season.preparations) recipes.push_back(made.recipe);
  Problems problems;
  for (const recipe::Recipe* recipe : recipes) {
    const int step = recipe->vessel_step();
    if (step < 0) continue;
    const std::int64_t least = std::max<std::int64_t>(1, season::least_working_ml(*recipe));
    if (std::any_of(season.vessels.begin(), season.vessels.end(), [&](const season::Vessel& v) {
          return season::vessel_capacity_ml(*recipe, v) >= least;
        }))
      continue;
    const recipe::Step& stands = recipe->steps[static_cast<std::size_t>(step)];
    const double litres = stands.least_fill ? stands.least_fill->value : 0.0;
    const std::map<recipe::VesselKind, const char*> codes{
        {recipe::VesselKind::bucket, "no-vessel-fits"},
        {recipe::VesselKind::heap, "no-heap-fits"},
        {recipe::VesselKind::apart, "no-apart-fits"}};
    problems.push_back(
        {codes.at(stands.kind),
         "/vessels",
         std::to_string(season.vessels.size()),
         {{"recipe", recipe_name(words, *recipe)}, {"litres", words.number({litres, 0})}}});
  }
  return problems;
}

void ask_about_yields(const Session& session, const group::OwnYields& yields, Problems& problems) {
  const words::Catalogue& words = session.words;
  const auto shown = [&](double litres) { return words.number({litres, 2}); };
  for (const group::ImpossibleYield& one : yields.impossible)
    problems.push_back({"yield-impossible",
                        "/notes/" + one.note->id.text() + "/amount",
                        shown(one.litres) + " L",
                        {{"batch", one.batch},
                         {"material", words.text("material." + one.material)},
                         {"of", words.text("material." + one.of)},
                         {"litres", shown(one.of_litres)}},
                        Severity::question});
}

// The taught recipe as the group's own batches correct it.
const recipe::Recipe* own_recipe(const Session& session, const recipe::Recipe& taught,
                                 SoundSeason& sound) {
  const double place_share = session.data.constant("yield-place-share").value;
  const group::OwnYields yields = group::own_yields(session.facts, taught, session.data.units());
  ask_about_yields(session, yields, sound.read.remarks);
  auto own = std::make_unique<OwnRecipe>(OwnRecipe{&taught, {}, {}});
  for (const group::OwnYield& one : yields.yields)
    own->yields.push_back(recipe::learned_yield(taught, one.yield, one.ratios, place_share));
  own->recipe = recipe::with_yields(taught, own->yields);
  sound.own.push_back(std::move(own));
  return &sound.own.back()->recipe;
}

// How fast milk sours at each place, by the looks at its batches.
outcome::Problems learn_paces(const Session& session, SoundSeason& sound) {
  if (session.facts.of("reading").empty()) return {};
  const auto table = fermentation::ParameterTable::parse(session.data);
  if (!table) return table.error();
  const double power = session.data.constant("speed-to-pace").value;
  for (season::Place& place : sound.read.season.places) {
    Answer aside;
    const auto speed = place_speed(session, place.name, "", *table, aside);
    if (speed.batches() == 0) continue;
    place.pace = quantity::rounded(std::pow(speed.factor_at(0.5), power), 3);
    sound.paces.push_back({place.name, speed.batches()});
  }
  return {};
}

void learn_yields(const Session& session, SoundSeason& sound) {
  sound.recipe = own_recipe(session, *sound.recipe, sound);
  for (season::Preparation& made : sound.read.season.preparations)
    made.recipe = own_recipe(session, *made.recipe, sound);
}

Result<SoundSeason> checked_season(const Session& session, const json& season) {
  auto read = read_season(season, session.crops, session.data, session.today);
  if (!read) return failure(read.error());
  const recipe::Recipe* recipe = session.recipe(read->season.recipe);
  if (!recipe) return failure({"recipe-unknown", "/season/recipe", read->season.recipe, {}});
  Problems problems = recipe::check(*recipe);
  if (problems.empty())
    problems = add_preparations(session, *recipe, read->preparations, read->season);
  if (problems.empty()) problems = stock_problems(session, read->season, *recipe);
  if (problems.empty()) problems = vessel_problems(read->season, *recipe, session.words);
  if (!problems.empty()) return failure(std::move(problems));
  SoundSeason sound{std::move(*read), recipe};
  learn_yields(session, sound);
  problems = learn_paces(session, sound);
  if (!problems.empty()) return failure(std::move(problems));
  return sound;
}

// Things that were never measured: said once for each farm, with the field to fill in.
void note_unmeasured(const season::Season& season, Problems& problems) {
  for (std::size_t i = 0; i < season.farms.size(); ++i) {
    const season::Farm& farm = season.farms[i];
    const std::string field = "/farms/" + std::to_string(i);
    if (!farm.cap)
      problems.push_back(
          {"cap-unmeasured-farm", field + "/cap", "", {{"farm", farm.code}}, Severity::notice});
    if (!farm.method.mix_per_area)
      problems.push_back({"mix-rate-unmeasured",
                          field + "/mix_rate",
                          "",
                          {{"farm", farm.code}},
                          Severity::notice});
  }
}

// Altitude alone is the weakest way to know how warm a place is.
void note_temperatures(const season::Season& season, Problems& problems) {
  for (std::size_t i = 0; i < season.places.size(); ++i)
    if (season.places[i].temperature.origin == weather::Origin::altitude)
      problems.push_back({"temperature-from-altitude",
                          "/places/" + std::to_string(i) + "/months",
                          "",
                          {{"place", season.places[i].name}},
                          Severity::notice});
}

// Five uses at this strength against the recipe's usual season dose: a mistyped 1:50 shows here.
void ask_about_strength(const Session& session, const season::Season& season,
                        const recipe::Recipe& recipe, Problems& problems) {
  if (!recipe.season_litres_per_acre) return;
  std::set<std::string> uses;
  for (const crop::UseRule& rule : session.crops.rules()) uses.insert(rule.id);
  const double litres =
      dosing::season_litres_per_acre(session.data.constant("usual-mix-per-acre").value,
                                     season.strength_parts, static_cast<int>(uses.size()));
  const reference_data::Sourced& usual = *recipe.season_litres_per_acre;
  if (litres >= usual.low && litres <= usual.high) return;
  const auto shown = [&](double value) { return session.words.number({value, 2}); };
  problems.push_back(
      {"season-dose-disagrees",
       "/season/strength",
       "1:" + shown(season.strength_parts),
       {{"litres", shown(litres)}, {"low", shown(usual.low)}, {"high", shown(usual.high)}},
       Severity::question});
}

// A fill line above what the recipe's vessel step is taught to stand at.
void ask_about_fill_lines(const season::Season& season, const recipe::Recipe& recipe,
                          Problems& problems) {
  const int step = recipe.vessel_step();
  if (step < 0 || !recipe.steps[static_cast<std::size_t>(step)].fill_fraction) return;
  const double most = recipe.steps[static_cast<std::size_t>(step)].fill_fraction->high;
  for (std::size_t i = 0; i < season.vessels.size(); ++i) {
    const season::Vessel& v = season.vessels[i];
    if (v.kind != recipe.steps[static_cast<std::size_t>(step)].kind) continue;
    if (v.fill_line <= v.size * (most + 1e-9)) continue;
    problems.push_back({"fill-line-high",
                        "/vessels/" + std::to_string(i) + "/fill_line",
                        v.name,
                        {{"percent", std::to_string(std::lround(most * 100.0))}},
                        Severity::question});
  }
}

}  // namespace

Result<SoundSeason> sound_season(const Session& session, const json& body) {
  const auto tried = body.find("season");
  if (tried != body.end() && !tried->is_object())
    return failure({"wrong-shape", "/season", "", {{"shape", "object"}}});
  if (tried != body.end()) return checked_season(session, *tried);
  SeasonTold told = season_told(session.facts, session.today);
  if (told.body.empty()) return failure({"nothing-recorded", "", "", {}});
  auto sound = checked_season(session, told.body);
  if (!sound) return failure(at_their_notes(told, std::move(sound.error())));
  outcome::append(sound->read.remarks, std::move(told.notices));
  return sound;
}

Problems remarks(const Session& session, const SoundSeason& sound) {
  Problems problems = sound.read.remarks;
  note_unmeasured(sound.read.season, problems);
  note_temperatures(sound.read.season, problems);
  ask_about_strength(session, sound.read.season, *sound.recipe, problems);
  ask_about_fill_lines(sound.read.season, *sound.recipe, problems);
  return problems;
}

}  // namespace wheyfield::api
