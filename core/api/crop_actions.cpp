#include <algorithm>

#include "api/crop_answer.h"
#include "api/fields.h"
#include "crop/degree_days.h"
#include "crop/roads.h"
#include "dosing/soak.h"
#include "quantity/quantity.h"
#include "weather/onset.h"
#include "weather/station.h"

namespace wheyfield::api {
namespace {

using crop::Forecast;
using quantity::rounded;
using reference_data::UsedSources;

const Fields list_fields{"CropList", {{"pages", Holds::flag, false}}};

Json forecast_json(const Forecast& forecast) {
  Json uses = Json::array();
  for (const crop::Use& use : forecast.uses)
    uses.push_back({{"use", use.id}, {"event", use.event}, {"window", window_json(use.window)}});
  return {{"road", crop::road_word(forecast.road)},
          {"uses", std::move(uses)},
          {"harvest", forecast.harvest ? window_json(*forecast.harvest) : Json()}};
}

Json temperatures_json(const Session& session, const CropQuestion& question) {
  if (!question.temperatures) return nullptr;
  const weather::DailySeries& series = question.temperatures->series;
  const auto read_to = question.temperatures->read_to;
  const std::string origin(weather::origin_word(series.origin));
  return {{"origin", origin},
          {"spread", rounded(series.spread, 6)},
          {"read_to", read_to ? Json(read_to->iso()) : Json()},
          {"text", session.words.text("temperatures." + origin)}};
}

// The roads that hers left aside: without her own count, and by the calendar alone.
std::vector<Forecast> other_roads(const Session& session, const CropQuestion& question,
                                  const Forecast& taken, UsedSources& used) {
  std::vector<Forecast> others;
  crop::FieldAsk ask = question.ask;
  ask.own_days_to_fourth.reset();
  const weather::DailySeries* series = question.series();
  for (const weather::DailySeries* known : {series, static_cast<decltype(series)>(nullptr)}) {
    UsedSources rows;
    auto other = crop::Forecaster(session.crops, session.data, known).forecast(ask, rows);
    if (!other || other->road == taken.road) continue;
    if (!others.empty() && others.back().road == other->road) continue;
    for (const auto& [source, kind, page, used_for] : rows.rows())
      used.note({kind, source, page}, used_for);
    others.push_back(std::move(*other));
  }
  return others;
}

// Days from planting to harvest before or after the months entered are a guess; all of them: is it
// the right year?
void note_days_outside(const CropQuestion& question, const Forecast& forecast,
                       outcome::Problems& problems) {
  const weather::DailySeries* air = question.series();
  if (forecast.road != crop::Road::degree_days || !air->entered_from) return;
  const calendar::Date from = *air->entered_from, to = *air->entered_to;
  const calendar::Date first = question.started();
  const calendar::Date last =
      forecast.harvest ? forecast.harvest->late : forecast.uses.back().window.late;
  if (from <= first && last <= to) return;
  const bool all = last < from || to < first;
  problems.push_back(
      {"days-outside-months",
       "/months",
       (first < from || all ? first : to + 1).iso(),
       {{"from", from.iso()}, {"to", to.iso()}, {"first", first.iso()}, {"last", last.iso()}},
       all ? outcome::Severity::question : outcome::Severity::notice});
}

// The rule degree-days were counted by; for a crop without a row of warmth the base temperature to
// count them by hand. Null when there is nothing to count.
Json counting_json(const Session& session, const crop::Crop& crop, const Forecast& forecast,
                   UsedSources& used) {
  const std::string rule(crop::degree_day_word(crop::DegreeDayRule::average));
  Json counting = {
      {"rule", rule}, {"text", session.words.text("degree-days." + rule)}, {"base", nullptr}};
  if (forecast.road == crop::Road::degree_days) return counting;
  const auto& rows = session.crops.thermal();
  const bool has_row =
      std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.crop == crop.id; });
  if (has_row || !crop.base) return nullptr;
  used.note(crop.base->origin, "base." + crop.id);
  counting["base"] = {
      {"celsius", crop.base->value}, {"low", crop.base->low}, {"high", crop.base->high}};
  return counting;
}

// Seed of a crop whose safe soaking time is not known is sown dry: no evening is shown for it.
void leave_out_soak(Forecast& forecast) {
  const auto is_soak = [](const crop::Use& use) { return use.id == "seed-soak"; };
  const auto of_soak = [](const outcome::Problem& p) { return p.code == "nursery-day-assumed"; };
  auto& uses = forecast.uses;
  auto& notes = forecast.notes;
  uses.erase(std::remove_if(uses.begin(), uses.end(), is_soak), uses.end());
  notes.erase(std::remove_if(notes.begin(), notes.end(), of_soak), notes.end());
}

bool shows_soak(const Forecast& forecast) {
  return std::any_of(forecast.uses.begin(), forecast.uses.end(),
                     [](const crop::Use& use) { return use.id == "seed-soak"; });
}

// Two roads whose windows of the fourth use do not meet: neither is sure, the field decides.
void note_roads_apart(const Forecast& taken, const std::vector<Forecast>& others,
                      const std::string& crop, outcome::Problems& problems) {
  const auto fourth = [](const Forecast& forecast) -> const calendar::Window& {
    return std::find_if(forecast.uses.begin(), forecast.uses.end(),
                        [](const crop::Use& use) { return use.id == "flowering"; })
        ->window;
  };
  if (taken.road != crop::Road::degree_days) return;
  for (const Forecast& other : others) {
    const calendar::Window &a = fourth(taken), &b = fourth(other);
    if (a.late < b.early || b.late < a.early)
      problems.push_back({"roads-apart",
                          "/crop",
                          crop,
                          {{"warmth", a.likely.iso()}, {"calendar", b.likely.iso()}},
                          outcome::Severity::notice});
  }
}

// Where the crop can be dated from: its tables, or what is seen.
std::vector<std::string> roads_of(const Session& session, const crop::Crop& crop) {
  std::vector<std::string> roads;
  if (!crop.stages.empty()) roads.emplace_back("calendar");
  for (const crop::ThermalRow& row : session.crops.thermal())
    if (row.crop == crop.id) roads.emplace_back("degree-days");
  if (crop.after_fourth) roads.emplace_back("event");
  if (roads.empty()) roads.emplace_back("own-count");
  return roads;
}

Json crop_json(const Session& session, const crop::Crop& crop) {
  Json lengths = Json::array();
  for (const crop::StageRow& row : crop.stages) lengths.push_back(row.sum());
  return {{"id", crop.id},
          {"name", session.words.text("crop." + crop.id)},
          {"harvested", crop.harvested},
          {"event", crop.fourth},
          {"established", crop.established},
          {"starts", crop.starts},
          {"roads", roads_of(session, crop)},
          {"lengths", std::move(lengths)}};
}

std::string listed(const Json& values, const std::string& between) {
  std::string out;
  for (const Json& value : values)
    out += (out.empty() ? "" : between) +
           (value.is_string() ? value.get<std::string>() : value.dump());
  return out;
}

sheet::Page list_page(const Session& session, const Json& fields) {
  const words::Catalogue& w = session.words;
  const auto column = [&](const char* key) { return sheet::Column{w.text(key), false}; };
  std::vector<std::vector<std::string>> crops, stations, rules;
  for (const Json& crop : fields["crops"]) {
    std::string roads;
    for (const Json& road : crop["roads"])
      roads += (roads.empty() ? "" : ", ") + w.text("crops.road." + road.get<std::string>());
    crops.push_back({crop["id"], w.text("harvested." + crop["harvested"].get<std::string>()),
                     crop["event"], std::move(roads), listed(crop["lengths"], ", ")});
  }
  for (const Json& station : fields["stations"])
    stations.push_back(
        {station["id"], station["name"], w.number({station["altitude_m"].get<double>(), 0})});
  for (const Json& rule : fields["rules"]) rules.push_back({rule["id"], rule["text"]});
  sheet::Page page("crops", w.text("crops.title"));
  page.text(w.text("crops.how", {{"n", crops.size()}}));
  page.table({column("col.crop"), column("col.harvested"), column("col.event"),
              column("col.dated-by"), column("col.days-in-table")},
             std::move(crops));
  page.heading(w.text("crops.stations"));
  page.table({column("col.station"), column("col.name"), column("col.altitude")},
             std::move(stations));
  page.heading(w.text("crops.rules"));
  page.table({column("col.rule"), column("col.what-it-wants")}, std::move(rules));
  return page;
}

}  // namespace

outcome::Result<Answer> crop_windows(const Session& session, const nlohmann::json& body) {
  Answer answer;
  auto question = read_crop_question(session, body, answer.used);
  if (!question) return outcome::failure(std::move(question.error()));
  auto forecast = crop::Forecaster(session.crops, session.data, question->series())
                      .forecast(question->ask, answer.used);
  if (!forecast) return outcome::failure(question->as_asked(std::move(forecast.error())));
  const auto soaks = dosing::SoakTable::parse(session.data);
  if (!soaks) return outcome::failure(soaks.error());
  answer.problems = question->remarks;
  auto others = other_roads(session, *question, *forecast, answer.used);
  const std::string id = question->ask.planting.crop->id;
  if (shows_soak(*forecast) && !soaks->find(id)) {
    leave_out_soak(*forecast);
    for (Forecast& other : others) leave_out_soak(other);
    answer.problems.push_back({"soak-crop-unknown", "/crop", id, {}, outcome::Severity::notice});
  }
  outcome::append(answer.problems, question->as_asked(forecast->notes));
  note_days_outside(*question, *forecast, answer.problems);
  const crop::Crop& crop = *question->ask.planting.crop;
  answer.fields = {{"crop", crop.id}, {"event", crop.fourth}};
  answer.fields.update(forecast_json(*forecast));
  answer.fields["why"] = {{"code", forecast->why}, {"text", road_text(session, *forecast)}};
  answer.fields["pace"] = rounded(forecast->pace, 6);
  answer.fields["temperatures"] = temperatures_json(session, *question);
  answer.fields["counting"] = counting_json(session, crop, *forecast, answer.used);
  note_roads_apart(*forecast, others, crop.id, answer.problems);
  Json beside = Json::array();
  for (const Forecast& other : others) beside.push_back(forecast_json(other));
  answer.fields["beside"] = std::move(beside);
  if (!wants_pages(body)) return answer;
  const WorkedWindows worked{session, std::move(*question), std::move(*forecast),
                             std::move(others)};
  answer.fields["pages"] = Json::array({sheet::to_json(windows_page(worked, answer))});
  return answer;
}

outcome::Result<Answer> crop_list(const Session& session, const nlohmann::json& body) {
  if (auto problems = check_shape(body, list_fields, ""); !problems.empty())
    return outcome::failure(problems);
  const auto stations = weather::read_stations(session.data);
  if (!stations) return outcome::failure(stations.error());
  const auto rules = weather::read_onset_rules(session.data);
  if (!rules) return outcome::failure(rules.error());
  Answer answer;
  Json crops = Json::array(), places = Json::array(), onsets = Json::array();
  for (const auto* list : {&session.crops.crops(), &session.crops.rowless()})
    for (const crop::Crop& crop : *list) {
      crops.push_back(crop_json(session, crop));
      for (const crop::StageRow& row : crop.stages) answer.used.note(row.origin, "crop");
    }
  for (const weather::Station& station : *stations) {
    places.push_back({{"id", station.id},
                      {"name", session.words.text("station." + station.id)},
                      {"altitude_m", rounded(quantity::in_metres(station.altitude), 6)}});
    answer.used.note(station.origin, "station");
  }
  for (const weather::OnsetRule& rule : *rules) {
    onsets.push_back({{"id", rule.id}, {"text", session.words.text("onset." + rule.id)}});
    answer.used.note(rule.origin, "onset");
  }
  answer.fields = {
      {"crops", std::move(crops)}, {"stations", std::move(places)}, {"rules", std::move(onsets)}};
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(list_page(session, answer.fields))});
  return answer;
}

}  // namespace wheyfield::api
