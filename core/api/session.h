// What `open` handed in, parsed: the whole world of an action.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "calendar/date.h"
#include "crop/crop_table.h"
#include "journal/event_set.h"
#include "journal/fold.h"
#include "lot_sizing/mip.h"
#include "outcome/result.h"
#include "recipe/recipe.h"
#include "reference_data/reference_data.h"
#include "words/catalogue.h"

namespace wheyfield::api {

using Json = nlohmann::ordered_json;

struct Fields;

struct Session {
  reference_data::ReferenceData data;
  crop::CropTable crops;
  std::vector<recipe::Recipe> recipes;
  words::Catalogue words;
  calendar::Date today;
  int offset_min = 0;  // of the device's zone, east of UTC
  // What was appended, and what it says.
  journal::EventSet events = {};
  journal::Facts facts = {};
  const lot_sizing::MipSolver* solver = nullptr;  // of the host, where it has one
  // Notes that the host's store holds but cannot read any more: their numbers are used.
  std::set<journal::EventId> damaged = {};

  const recipe::Recipe* recipe(const std::string& id) const;
};

// What an action gives back before it is dressed as an answer.
struct Answer {
  Json fields = Json::object();
  // Lists as long as the group's fields, written row by row: as JSON values they would take many
  // times the memory of their text. They stand last.
  struct List {
    std::string name;
    std::string text;
  };
  std::vector<List> lists;
  // A list that stands at this place among the fields.
  void put_list(const std::string& name, std::string text) {
    fields[name] = nullptr;
    lists.push_back({name, std::move(text)});
  }
  outcome::Problems problems;
  reference_data::UsedSources used;
};

// One thing that can be asked. `run` gets the body; errors come back as problems of the answer.
struct Action {
  std::string_view name;
  outcome::Result<Answer> (*run)(const Session& session, const nlohmann::json& body);
  const Fields* fields = nullptr;  // of the body, where they are declared as one table
};

// In alphabetical order. One file per family (crop_actions, onset_actions, plan_actions,
// recipe_actions, schema_actions), for the doses one per request (dose_actions: mix,
// sprayer_action, bucket_action ...).
const std::vector<Action>& actions();

outcome::Result<Answer> batch_forecast(const Session&, const nlohmann::json& body);
outcome::Result<Answer> batch_keep(const Session&, const nlohmann::json& body);
outcome::Result<Answer> batch_read(const Session&, const nlohmann::json& body);
outcome::Result<Answer> batch_show(const Session&, const nlohmann::json& body);
outcome::Result<Answer> compost_list(const Session&, const nlohmann::json& body);
outcome::Result<Answer> compost_log(const Session&, const nlohmann::json& body);
outcome::Result<Answer> compost_mix(const Session&, const nlohmann::json& body);
outcome::Result<Answer> compost_turns(const Session&, const nlohmann::json& body);
outcome::Result<Answer> crop_list(const Session&, const nlohmann::json& body);
outcome::Result<Answer> crop_onset(const Session&, const nlohmann::json& body);
outcome::Result<Answer> crop_windows(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_plan(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_change(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_risk(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_explain(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_check(const Session&, const nlohmann::json& body);
outcome::Result<Answer> season_questions(const Session&, const nlohmann::json& body);
outcome::Result<Answer> recipe_list(const Session&, const nlohmann::json& body);
outcome::Result<Answer> recipe_show(const Session&, const nlohmann::json& body);
outcome::Result<Answer> recipe_scale(const Session&, const nlohmann::json& body);
outcome::Result<Answer> recipe_check(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_area(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_bucket(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_harvest(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_mix(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_plot(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_soak(const Session&, const nlohmann::json& body);
outcome::Result<Answer> nutrients_balance(const Session&, const nlohmann::json& body);
outcome::Result<Answer> dose_sprayer(const Session&, const nlohmann::json& body);
outcome::Result<Answer> group_meeting(const Session&, const nlohmann::json& body);
outcome::Result<Answer> group_members(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_add(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_answer(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_compose(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_forget(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_import(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_list(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_lost(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_pack(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_preview(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_questions(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_rows(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_season(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_split(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_strike(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_table(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_unpack(const Session&, const nlohmann::json& body);
outcome::Result<Answer> journal_verify(const Session&, const nlohmann::json& body);
outcome::Result<Answer> programme_assign(const Session&, const nlohmann::json& body);
outcome::Result<Answer> programme_check(const Session&, const nlohmann::json& body);
outcome::Result<Answer> programme_group(const Session&, const nlohmann::json& body);
outcome::Result<Answer> schema(const Session&, const nlohmann::json& body);

// The text of `json`: one line, bytes that are no UTF-8 replaced.
std::string written(const Json& json);

// {early, likely, late}, ISO days.
Json window_json(const calendar::Window& window);

// True when the body asks for `pages` as well.
bool wants_pages(const nlohmann::json& body);

// A problem in the reader's words: {code, severity, field, value, expected, cure, text}. Without
// words (null) the last three are empty.
Json problem_json(const outcome::Problem& problem, const words::Catalogue* words);

// {id, title, author, year, page, kind, used_for: [..]}, one for each source, page and kind.
Json sources_json(const Session& session, const reference_data::UsedSources& used);

}  // namespace wheyfield::api
