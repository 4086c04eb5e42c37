#include "api/batch_records.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "api/field_reader.h"
#include "api/fields.h"
#include "api/temperature_reader.h"
#include "group/spoiled.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using fermentation::Look;
using fermentation::Scale;
using journal::Event;
using journal::Item;
using journal::text_in;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;

// Fewer than for the batch that is asked about: only the speed is taken from them.
constexpr std::uint32_t members_of_others = 500;

// Notes of a kind that name the batch, by order.
std::vector<const Event*> notes_of(const Session& session, const char* kind,
                                   const std::string& label) {
  std::vector<const Event*> notes;
  for (const Item& item : session.facts.of(kind))
    for (const Event* event : item.said)
      if (text_in(event->body, "batch") == label) notes.push_back(event);
  std::stable_sort(notes.begin(), notes.end(),
                   [](const Event* a, const Event* b) { return journal::comes_before(*a, *b); });
  return notes;
}

Problems unknown_batch(const Session& session, const std::string& label) {
  const std::vector<std::string> labels = batch_labels(session);
  return {{"batch-unknown",
           "/batch",
           label,
           {{"known", joined(labels)}, {"suggestion", nearest(label, labels)}}}};
}

// As the note says, else as the season does.
std::string recipe_of(const Session& session, const nlohmann::json& batch) {
  std::string id = text_in(batch, "recipe");
  const auto& seasons = session.facts.of("season");
  if (id.empty() && !seasons.empty()) id = text_in(seasons.front().body, "recipe");
  return id;
}

// The step that was noted last and turns sour, with its day; else the one in a season vessel.
struct Under {
  const recipe::Step* step = nullptr;
  const Event* noted = nullptr;
};
Under under_way(const recipe::Recipe& recipe, const std::vector<const Event*>& steps) {
  Under under;
  for (const recipe::Step& step : recipe.steps) {
    if (step.sours.empty()) continue;
    for (const Event* event : steps)
      if (text_in(event->body, "step") == step.id &&
          (under.noted == nullptr || under.noted->on <= event->on))
        under = {&step, event};
  }
  const int vessel_step = recipe.vessel_step();
  if (under.step == nullptr && vessel_step >= 0)
    if (const auto& step = recipe.steps[static_cast<std::size_t>(vessel_step)]; !step.sours.empty())
      under.step = &step;
  return under;
}

std::optional<bool> yes_in(const nlohmann::json& body, const char* member, const char* yes) {
  const std::string said = text_in(body, member);
  if (said.empty()) return std::nullopt;
  return said == yes;
}

Look look_in(const Session& session, const nlohmann::json& body) {
  Problems unread;  // what is noted was read when it was noted
  const FieldReader r(body, "", session.data.units(), unread);
  Look look;
  look.ph = r.number("ph");
  look.celsius = r.number("temperature");
  look.scale = scale_of(text_in(body, "scale"));
  look.set = yes_in(body, "set", "yes");
  look.clear_liquid = yes_in(body, "liquid", "clear");
  look.smell = text_in(body, "smell");
  look.surface = text_in(body, "surface");
  return look;
}

void leave_out(const char* code, const Event& event, Problems& problems) {
  problems.push_back({code,
                      "/notes/" + event.id.text(),
                      event.on.iso(),
                      {{"note", event.id.text()}},
                      Severity::notice});
}

std::optional<quantity::Volume> volume_in(const Session& session, const nlohmann::json& body,
                                          const char* member) {
  const auto volume = session.data.units().volume(text_in(body, member));
  return volume ? std::optional(*volume) : std::nullopt;
}

// What stands in the vessel: as noted, else up to its fill line.
void set_litres(const Session& session, const nlohmann::json& noted, NotedBatch& batch) {
  auto amount = volume_in(session, noted, "amount");
  batch.litres_noted = amount.has_value();
  const Item* vessel = session.facts.find("vessel", batch.vessel);
  if (!amount && vessel != nullptr) amount = volume_in(session, vessel->body, "fill_line");
  batch.litres =
      amount ? quantity::in_litres(*amount) : session.data.constant("batch-usual-litres").value;
}

std::string place_of(const Session& session, const nlohmann::json& noted) {
  std::string farm = text_in(noted, "farm");
  const Item* vessel = session.facts.find("vessel", text_in(noted, "vessel"));
  if (farm.empty() && vessel != nullptr) farm = text_in(vessel->body, "at");
  const Item* at = session.facts.find("farm", farm);
  return at == nullptr ? "" : text_in(at->body, "place");
}

// Milk and starter as they were noted, the milk else as the vessel's farm does it.
fermentation::Brew brew_of(const Session& session, const nlohmann::json& noted,
                           const NotedBatch& batch) {
  fermentation::Brew brew = usual_brew(*batch.step);
  std::string milk = text_in(noted, "milk");
  const Item* vessel = session.facts.find("vessel", batch.vessel);
  if (milk.empty() && vessel != nullptr) milk = text_in(vessel->body, "milk");
  if (milk == "heated") brew.milk = fermentation::Milk::heated;
  const std::string starter = text_in(noted, "starter");
  if (starter == "serum") brew.starter = fermentation::Starter::serum;
  if (starter == "none") brew = {brew.liquid, brew.milk, fermentation::Starter::none, 0.0};
  return brew;
}

}  // namespace

std::vector<Look> NotedBatch::only_looks() const {
  std::vector<Look> all;
  for (const NotedLook& one : looks) all.push_back(one.look);
  return all;
}

Scale scale_of(const std::string& word) {
  if (word == "third-strip") return Scale::third_strip;
  if (word == "meter") return Scale::meter;
  return Scale::half_strip;
}

const char* scale_word(Scale scale) {
  switch (scale) {
    case Scale::third_strip:
      return "third-strip";
    case Scale::meter:
      return "meter";
    case Scale::half_strip:
      break;
  }
  return "half-strip";
}

double hour_of_half(const Session& session, const std::string& half) {
  return session.data.constant(half == "afternoon" ? "afternoon-hour" : "morning-hour").value;
}

std::vector<std::string> batch_labels(const Session& session) {
  std::vector<std::string> labels;
  for (const Item& item : session.facts.of("batch")) labels.push_back(item.identity);
  return labels;
}

void add_look(const Session& session, const nlohmann::json& body, calendar::Date on,
              const Event* note, NotedBatch& batch) {
  const std::string half = text_in(body, "half");
  NotedLook look{on, half, {}, look_in(session, body)};
  look.look.hours = std::max(0.0, batch.hours_at(on, hour_of_half(session, half)));
  const auto later = std::upper_bound(
      batch.looks.begin(), batch.looks.end(), look,
      [](const NotedLook& a, const NotedLook& b) { return a.look.hours < b.look.hours; });
  const bool same_visit =
      later != batch.looks.begin() && !((later - 1)->look.hours < look.look.hours);
  if (note != nullptr) look.notes.push_back(note);
  if (!same_visit) {
    batch.looks.insert(later, std::move(look));
    return;
  }
  NotedLook& visit = *(later - 1);
  visit.look = fermentation::one_for_each_visit({visit.look, look.look}).front();
  visit.notes.insert(visit.notes.end(), look.notes.begin(), look.notes.end());
}

Result<NotedBatch> noted_batch(const Session& session, const std::string& label,
                               Problems& problems) {
  const Item* item = session.facts.find("batch", label);
  if (item == nullptr) return failure(unknown_batch(session, label));
  if (item->body.is_null()) return failure({"batch-contradicted", "/batch", label, {}});
  NotedBatch batch;
  batch.label = label;
  const std::string recipe = recipe_of(session, item->body);
  batch.recipe = session.recipe(recipe);
  if (batch.recipe == nullptr)
    return failure({"batch-recipe-unknown", "/batch", label, {{"recipe", recipe}}});
  const Under under = under_way(*batch.recipe, notes_of(session, "step", label));
  if (under.step == nullptr)
    return failure({"batch-not-forecast",
                    "/batch",
                    label,
                    {{"recipe", session.words.text("recipe." + batch.recipe->id)}}});
  batch.step = under.step;
  batch.vessel = text_in(item->body, "vessel");
  batch.place = place_of(session, item->body);
  batch.began = under.noted != nullptr ? under.noted->on : item->said.back()->on;
  const std::string half = text_in(item->body, "half");
  batch.hour_noted = !half.empty() && under.noted == nullptr;
  batch.began_hour =
      batch.hour_noted ? hour_of_half(session, half) : session.data.constant("batch-hour").value;
  set_litres(session, item->body, batch);
  batch.brew = brew_of(session, item->body, batch);
  batch.lost = notes_of(session, "lost", label);
  for (const Event* event : notes_of(session, "reading", label)) {
    if (event->on < batch.began)
      leave_out("look-before-batch", *event, problems);
    else if (event->on > session.today)
      leave_out("look-to-come", *event, problems);
    else
      add_look(session, event->body, event->on, event, batch);
  }
  return batch;
}

Result<fermentation::Setting> setting_of(const Session& session, const NotedBatch& batch,
                                         const fermentation::ParameterTable& table, double horizon,
                                         Answer& answer) {
  const Item* place = session.facts.find("place", batch.place);
  if (place == nullptr)
    return failure({"batch-place-unknown", "/batch", batch.label, {{"vessel", batch.vessel}}});
  Problems problems;
  const int days = static_cast<int>(horizon / 24.0) + 2;
  const auto temperatures =
      read_temperatures(place->body, "/notes/" + place->said.back()->id.text(),
                        {batch.began, batch.began + days}, session.data, problems, answer.used);
  if (!temperatures) {
    if (problems.empty())
      problems.push_back(
          {"batch-place-cold-unknown", "/batch", batch.label, {{"place", batch.place}}});
    return failure(std::move(problems));
  }
  return fermentation::Setting{
      fermentation::Air::series(temperatures->series, batch.began, batch.began_hour),
      fermentation::vessel_hours(table.vessels(), batch.litres), std::nullopt, horizon, batch.brew};
}

fermentation::Brew usual_brew(const recipe::Step& step) {
  fermentation::Brew brew;
  if (step.sours == "rinse-water") {
    brew.liquid = fermentation::Liquid::rinse_water;
    brew.starter = fermentation::Starter::none;
    brew.starter_share = 0.0;
    return brew;
  }
  double others = 0.0;
  for (std::size_t i = 1; i < step.takes.size(); ++i) others += step.takes[i].ratio.value;
  brew.starter_share = others / (1.0 + others);
  return brew;
}

fermentation::PlaceSpeed place_speed(const Session& session, const std::string& place,
                                     const std::string& without,
                                     const fermentation::ParameterTable& table, Answer& answer) {
  std::vector<NotedBatch> there;
  for (const std::string& label : batch_labels(session)) {
    Problems told_elsewhere;
    auto batch = noted_batch(session, label, told_elsewhere);
    if (label != without && batch && batch->place == place && !batch->looks.empty() &&
        batch->brew.liquid == fermentation::Liquid::milk)
      there.push_back(std::move(*batch));
  }
  std::stable_sort(there.begin(), there.end(),
                   [](const NotedBatch& a, const NotedBatch& b) { return b.began < a.began; });
  if (there.size() > most_of_a_place) there.erase(there.begin() + most_of_a_place, there.end());
  fermentation::PlaceSpeed speed(table);
  for (const NotedBatch& batch : there) {
    const auto readings = fermentation::readings_of(batch.only_looks());
    if (readings.empty()) continue;
    const auto setting =
        setting_of(session, batch, table, std::ceil(readings.back().hours) + 1.0, answer);
    if (!setting) continue;
    fermentation::Ensemble ensemble(table, *setting, forecast_seed, members_of_others);
    ensemble.learn(readings);
    speed.learn(ensemble.told(readings));
  }
  return speed;
}

int recorded_batches(const Session& session, const recipe::Recipe& recipe) {
  return group::own_batches(session.facts, recipe.id).finished;
}

}  // namespace wheyfield::api
