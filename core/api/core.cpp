#include "api/core.h"

#include <algorithm>
#include <map>

#include "api/append.h"
#include "api/batch_fields.h"
#include "api/compost_fields.h"
#include "api/dose_fields.h"
#include "api/fields.h"
#include "api/group_fields.h"
#include "api/journal_answer.h"
#include "api/nutrients_fields.h"
#include "api/programme_fields.h"
#include "api/recorded_values.h"
#include "api/session.h"
#include "fermentation/readiness.h"
#include "journal/nesting.h"
#include "season/standing.h"

namespace wheyfield::api {
namespace {

// Brackets open at once in a request; no action needs a tenth of it.
constexpr int deepest_request = 100;

using nlohmann::json;
using outcome::failure;
using outcome::Problem;
using outcome::Problems;
using outcome::Result;

constexpr int schema_version = 1;
constexpr std::size_t usual_answer = 1 << 16;  // bytes besides the long lists; it may grow

std::string part(const json& request, const char* name) {
  return request.contains(name) ? request[name].dump() : std::string();
}

// Forecasts of the recipes for which no readiness was worked out.
Problems unforeseen(const Session& session) {
  const auto readiness = fermentation::ReadinessTable::parse(session.data);
  if (!readiness) return readiness.error();
  Problems problems;
  for (const recipe::Recipe& recipe : session.recipes)
    for (const recipe::Step& step : recipe.steps)
      for (const season::Milk milk : {season::Milk::raw, season::Milk::heated_cooled})
        if (step.forecast && readiness->curve(step.sours, season::milk_word(milk),
                                              step.forecast->ready_ph.value) == nullptr)
          problems.push_back({"data-missing",
                              "/data/readiness",
                              step.sours,
                              {{"member", season::milk_word(milk)}}});
  return problems;
}

// All of a session but its words.
Result<Session> open_session(const json& request) {
  auto data = reference_data::ReferenceData::parse(part(request, "data"));
  if (!data) return failure(data.error());
  auto crops = crop::CropTable::parse(*data);
  if (!crops) return failure(crops.error());
  const json date = request.value("date", json());
  auto today = calendar::parse_date(date.is_string() ? date.get<std::string>() : "");
  if (!today) return failure(outcome::under("/date", today.error()));
  const json offset = request.value("offset_min", json(0));
  if (!offset.is_number_integer() || offset < -720 || offset > 840)
    return failure({"event-offset-out-of-range", "/offset_min", offset.dump(), {}});
  Session session{std::move(*data), std::move(*crops), {}, {}, *today, offset.get<int>()};
  std::size_t at = 0;
  for (const json& row : session.data.section("recipes")) {
    auto recipe = recipe::parse(row, "/data/recipes/" + std::to_string(at++));
    if (!recipe) return failure(recipe.error());
    session.recipes.push_back(std::move(*recipe));
  }
  if (auto problems = unforeseen(session); !problems.empty()) return failure(problems);
  return session;
}

std::string* list_named(Answer& answer, const std::string& name) {
  for (Answer::List& list : answer.lists)
    if (list.name == name) return &list.text;
  return nullptr;
}

// The long lists are copied once, into room made for them, and each is let go when it is copied.
std::string dressed(const words::Catalogue* words, Answer answer, Json sources) {
  Json problems = Json::array();
  for (const Problem& problem : answer.problems) problems.push_back(problem_json(problem, words));
  answer.fields["problems"] = std::move(problems);
  answer.fields["sources"] = std::move(sources);
  std::size_t long_lists = 0;
  for (const Answer::List& list : answer.lists) {
    long_lists += list.text.size();
    answer.fields[list.name];  // last, where it has no place yet
  }
  std::string text = "{\"schema\":" + std::to_string(schema_version);
  text.reserve(long_lists + long_lists / 8 + usual_answer);
  for (const auto& [name, value] : answer.fields.items()) {
    std::string* list = list_named(answer, name);
    const std::string member = list ? std::move(*list) : written(value);
    text.append(",\"").append(name).append("\":").append(member);
  }
  text += '}';
  return text;
}

std::string refused(const words::Catalogue* words, const Problems& problems) {
  return dressed(words, {Json::object(), {}, problems, {}}, Json::array());
}

std::string run_action(const Session& session, const json& request) {
  const json name = request.is_object() ? request.value("action", json()) : json();
  const std::string wanted = name.is_string() ? name.get<std::string>() : "";
  std::vector<std::string> known;
  for (const Action& action : actions()) {
    known.emplace_back(action.name);
    if (action.name != wanted) continue;
    const auto found = request.find("body");
    const json none = json::object();
    const json& body = found == request.end() ? none : *found;
    if (!body.is_object())
      return refused(&session.words, {{"wrong-shape", "/body", "", {{"shape", "object"}}}});
    const auto filled = with_recorded(session, action.name, body);
    if (!filled) return refused(&session.words, filled.error());
    auto answer = action.run(session, *filled ? **filled : body);
    if (!answer) return refused(&session.words, answer.error());
    Json sources = sources_json(session, answer->used);
    return dressed(&session.words, std::move(*answer), std::move(sources));
  }
  return refused(&session.words,
                 {{"action-unknown", "/action", wanted, {{"suggestion", nearest(wanted, known)}}}});
}

}  // namespace

const recipe::Recipe* Session::recipe(const std::string& id) const {
  for (const recipe::Recipe& recipe : recipes)
    if (recipe.id == id) return &recipe;
  return nullptr;
}

Core::Core() = default;
Core::Core(Core&&) noexcept = default;
Core& Core::operator=(Core&&) noexcept = default;
Core::~Core() = default;

std::string Core::call(std::string_view name, std::string_view text) {
  const words::Catalogue* words = session_ ? &session_->words : nullptr;
  if (journal::deeper_than(text, deepest_request))
    return refused(words, {{"json-unreadable", "", "", {}}});
  const json request = json::parse(text, nullptr, false);
  if (!request.is_object()) return refused(words, {{"json-unreadable", "", "", {}}});
  if (name == "open") {
    // Words come first: what else is wrong with the request is said in them.
    auto new_words = words::Catalogue::parse(part(request, "words"));
    if (!new_words) return refused(words, new_words.error());
    auto session = open_session(request);
    if (!session) return refused(&*new_words, session.error());
    session->words = std::move(*new_words);
    session_ = std::make_unique<Session>(std::move(*session));
    session_->solver = solver_;
    return refused(&session_->words, {});
  }
  if (name == "append" && session_) {
    auto answer = append_events(*session_, request);
    return answer ? dressed(words, std::move(*answer), Json::array())
                  : refused(words, answer.error());
  }
  if (name != "call" && name != "append")
    return refused(words, {{"name-unknown", "", std::string(name), {}}});
  if (!session_) return refused(nullptr, {{"session-missing", "", "", {}}});
  return run_action(*session_, request);
}

const std::vector<Action>& actions() {
  static const std::vector<Action> all{
      {"batch.forecast", batch_forecast, &batch_forecast_fields()},
      {"batch.keep", batch_keep, &batch_keep_fields()},
      {"batch.read", batch_read, &batch_read_fields()},
      {"batch.show", batch_show, &batch_show_fields()},
      {"compost.list", compost_list, &compost_list_fields()},
      {"compost.log", compost_log, &compost_log_fields()},
      {"compost.mix", compost_mix, &compost_mix_fields()},
      {"compost.turns", compost_turns, &compost_turns_fields()},
      {"crop.list", crop_list},
      {"crop.onset", crop_onset},
      {"crop.windows", crop_windows},
      {"dose.area", dose_area, &dose_area_fields()},
      {"dose.bucket", dose_bucket, &dose_bucket_fields()},
      {"dose.harvest", dose_harvest, &dose_harvest_fields()},
      {"dose.mix", dose_mix, &dose_mix_fields()},
      {"dose.plot", dose_plot, &dose_plot_fields()},
      {"dose.soak", dose_soak, &dose_soak_fields()},
      {"dose.sprayer", dose_sprayer, &dose_sprayer_fields()},
      {"group.meeting", group_meeting, &group_meeting_fields()},
      {"group.members", group_members, &group_members_fields()},
      {"journal.add", journal_add, &journal_add_fields()},
      {"journal.answer", journal_answer, &journal_answer_fields()},
      {"journal.compose", journal_compose, &journal_compose_fields()},
      {"journal.forget", journal_forget, &journal_forget_fields()},
      {"journal.import", journal_import},
      {"journal.list", journal_list, &journal_list_fields()},
      {"journal.lost", journal_lost, &journal_lost_fields()},
      {"journal.pack", journal_pack, &journal_pack_fields()},
      {"journal.preview", journal_preview},
      {"journal.questions", journal_questions},
      {"journal.rows", journal_rows, &journal_rows_fields()},
      {"journal.season", journal_season},
      {"journal.split", journal_split, &journal_split_fields()},
      {"journal.strike", journal_strike, &journal_strike_fields()},
      {"journal.table", journal_table, &journal_table_fields()},
      {"journal.unpack", journal_unpack, &journal_unpack_fields()},
      {"journal.verify", journal_verify},
      {"nutrients.balance", nutrients_balance, &nutrients_balance_fields()},
      {"programme.assign", programme_assign, &programme_assign_fields()},
      {"programme.check", programme_check, &programme_check_fields()},
      {"programme.group", programme_group, &programme_group_fields()},
      {"recipe.check", recipe_check},
      {"recipe.list", recipe_list},
      {"recipe.scale", recipe_scale},
      {"recipe.show", recipe_show},
      {"schema", schema},
      {"season.change", season_change, &season_change_fields()},
      {"season.check", season_check},
      {"season.explain", season_explain},
      {"season.plan", season_plan},
      {"season.questions", season_questions},
      {"season.risk", season_risk}};
  return all;
}

const Fields* fields_of(std::string_view name) {
  for (const Action& action : actions())
    if (action.name == name) return action.fields;
  return nullptr;
}

}  // namespace wheyfield::api
