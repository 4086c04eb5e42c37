// One batch of the journal: what its looks say, and a further look noted and judged at once.
#include <algorithm>
#include <cmath>

#include "api/append.h"
#include "api/batch_answer.h"
#include "api/batch_fields.h"
#include "api/batch_records.h"
#include "api/dose_answer.h"
#include "api/event_fields.h"
#include "api/journal_answer.h"
#include "api/note_doubts.h"
#include "api/recorder.h"
#include "api/value_check.h"
#include "journal/standing.h"

namespace wheyfield::api {
namespace {

using fermentation::Standing;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using words::Decimal;
using words::Values;

const Fields show_fields{
    "BatchShow", {{"batch", Holds::text, true}, {"pages", Holds::flag}, {"svg", Holds::flag}}};

const Fields read_fields{"BatchRead",
                         {{"batch", Holds::text, true},
                          {"on", Holds::date},
                          {"half", Holds::choice, false, "morning|afternoon"},
                          {"ph", Holds::number},
                          {"scale", Holds::choice, false, "half-strip|third-strip|meter"},
                          {"set", Holds::choice, false, "yes|no"},
                          {"liquid", Holds::choice, false, "clear|milky"},
                          {"smell", Holds::choice, false, "clean-sour|sweet|putrid|other"},
                          {"surface", Holds::choice, false, "clear|white-film|coloured-mould|gas"},
                          {"temperature", Holds::number},
                          {"device", Holds::text, true},
                          {"clock", Holds::number, true},
                          {"pages", Holds::flag}}};

const char* standing_word(Standing standing) {
  switch (standing) {
    case Standing::young:
      return "young";
    case Standing::due:
      return "due";
    case Standing::set:
      return "set";
    case Standing::usable:
      return "usable";
    case Standing::soil_only:
      return "soil-only";
    case Standing::late:
      return "late";
    case Standing::probably_lost:
      return "probably-lost";
    case Standing::lost:
      break;
  }
  return "lost";
}

// All that is told of a batch on a day.
struct View {
  NotedBatch batch;
  ToldBatch told;
  Standing standing = Standing::young;
  std::vector<fermentation::QualityRow> signs = {};  // of its looks, and of its lateness
  std::optional<OnDay> look = std::nullopt;
  std::optional<calendar::Date> strain_from = std::nullopt;  // no earlier
  int recorded = 0;                // batches of the recipe that came to an end
  bool held_to_published = false;  // too few of them
  int neighbours = 0;              // other batches of the place that the hours rest on
};

const words::Catalogue& words_of(const View& view) { return view.told.session.words; }

// The hour to which the batch has come: this morning's, or that of its last look where that is
// later.
double hours_now(const Session& session, const NotedBatch& batch) {
  const double morning = session.data.constant("morning-hour").value;
  double now = std::max(0.0, batch.hours_at(session.today, morning));
  if (!batch.looks.empty()) now = std::max(now, batch.looks.back().look.hours);
  return now;
}

void find_signs(const fermentation::QualityTable& quality, View& view,
                const fermentation::UseRule& rule) {
  for (const std::string& sign : fermentation::signs_of(view.batch.only_looks(), rule))
    if (const auto* row = quality.find(view.batch.step->sours, sign)) view.signs.push_back(*row);
}

bool thrown_away(const View& view) {
  return !view.batch.lost.empty() || std::any_of(view.signs.begin(), view.signs.end(),
                                                 [](const auto& row) { return row.overrides; });
}

// The published least holds until a group has recorded batches of its own.
void find_strain_day(View& view, const Session& session) {
  const auto& forecast = view.batch.step->forecast;
  const auto& ready = view.told.outlook.ready.likely;
  view.recorded = recorded_batches(session, *view.batch.recipe);
  if (!forecast || !ready) return;
  view.held_to_published = view.recorded < forecast->least_until_batches.value;
  calendar::Date day = on_day(*view.told.began, *ready).on;
  if (view.held_to_published)
    day = std::max(day, view.batch.began + static_cast<int>(forecast->published_least.value));
  view.strain_from = day;
}

Result<View> view_of(const Session& session, NotedBatch batch, Answer& answer) {
  const auto table = fermentation::ParameterTable::parse(session.data);
  if (!table) return failure(table.error());
  const auto quality = fermentation::QualityTable::parse(session.data);
  if (!quality) return failure(quality.error());
  const double now = hours_now(session, batch);
  const double usual = noted(session, "forecast-hours", "hours reckoned ahead", answer).value;
  const double horizon = std::max(usual, day_hours * std::ceil((now + 72.0) / day_hours));
  const auto setting = setting_of(session, batch, *table, horizon, answer);
  if (!setting) return failure(setting.error());
  const auto speed = place_speed(session, batch.place, batch.label, *table, answer);
  fermentation::Ensemble ensemble(*table, *setting, forecast_seed);
  ToldBatch told{session,
                 setting->brew,
                 batch.litres,
                 Began{batch.began, batch.began_hour},
                 horizon,
                 fermentation::outlook(ensemble, *table,
                                       fermentation::readings_of(batch.only_looks()), &speed),
                 now};
  View view{std::move(batch), std::move(told)};
  view.neighbours = speed.batches();
  const fermentation::UseRule rule(*table);
  find_signs(*quality, view, rule);
  view.standing =
      fermentation::judge(view.batch.only_looks(), view.told.outlook, now, rule, thrown_away(view));
  view.told.has_set = view.standing == Standing::set;
  if (const auto* row = quality->find(view.batch.step->sours, fermentation::sign_of(view.standing)))
    view.signs.push_back(*row);
  if (const auto next = fermentation::next_look(view.standing, view.told.outlook, now))
    view.look = looking_hour(session, on_day(*view.told.began, *next));
  find_strain_day(view, session);
  note_model(session, *table, answer);
  return view;
}

std::string look_text(const Session& session, const NotedLook& noted) {
  const words::Catalogue& w = session.words;
  const fermentation::Look& look = noted.look;
  std::vector<std::string> said;
  if (look.ph)
    said.push_back(w.text(std::string("look.ph-") + scale_word(look.scale),
                          {{"ph", Decimal{*look.ph, 1, false}}}));
  if (look.set) said.push_back(w.text(*look.set ? "look.set" : "look.not-set"));
  if (look.clear_liquid) said.push_back(w.text(*look.clear_liquid ? "look.clear" : "look.milky"));
  if (!look.smell.empty()) said.push_back(w.text("look.smell-" + look.smell));
  if (!look.surface.empty()) said.push_back(w.text("look.surface-" + look.surface));
  if (look.celsius)
    said.push_back(w.text("look.celsius", {{"celsius", Decimal{*look.celsius, 1}}}));
  if (noted.notes.size() > 1) said.push_back(w.text("look.notes", {{"n", noted.notes.size()}}));
  return joined(said);
}

// What the row says of the sign, its causes and what to do.
std::string sign_text(const words::Catalogue& w, const fermentation::QualityRow& row) {
  std::vector<std::string> causes;
  for (const std::string& cause : row.causes) causes.push_back(w.text("quality.cause." + cause));
  return w.text("batch.sign", {{"sign", w.text("quality.sign." + row.sign)},
                               {"causes", joined(causes)},
                               {"action", w.text("quality.action." + row.action)}});
}

std::string standing_text(const View& view) {
  const words::Catalogue& w = words_of(view);
  Values values{{"batch", view.batch.label}};
  if (const auto& late = view.told.outlook.set_at_first.late)
    values.insert_or_assign("late", moment_text(w, on_day(*view.told.began, *late)));
  return w.text(std::string("batch.standing.") + standing_word(view.standing), values);
}

std::string failing_text(const View& view) {
  const int n = static_cast<int>(std::lround(100.0 * view.told.outlook.failing));
  const bool read = !fermentation::readings_of(view.batch.only_looks()).empty();
  if (!read) return words_of(view).text("batch.failing", {{"n", n}});
  return words_of(view).text(n == 0 ? "batch.failing-hardly" : "batch.failing-read", {{"n", n}});
}

void looks_table(const View& view, sheet::Page& page) {
  const words::Catalogue& w = words_of(view);
  std::vector<std::vector<std::string>> rows;
  for (const NotedLook& look : view.batch.looks)
    rows.push_back(
        {w.date(look.on), w.text("look." + look.half), look_text(view.told.session, look)});
  page.table({{w.text("col.day")}, {w.text("batch.col-half")}, {w.text("batch.col-seen")}},
             std::move(rows));
}

bool in_hand(Standing standing) {
  return standing == Standing::young || standing == Standing::due || standing == Standing::set ||
         standing == Standing::late;
}

// Of a batch that is given up only what gives it up; of a late one not what is well.
bool is_worth_saying(const fermentation::QualityRow& row, Standing standing) {
  using fermentation::Verdict;
  if (standing == Standing::lost || standing == Standing::probably_lost)
    return row.verdict == Verdict::discard;
  return standing != Standing::late || row.verdict != Verdict::use;
}

sheet::Page page_of(const View& view) {
  const words::Catalogue& w = words_of(view);
  const NotedBatch& batch = view.batch;
  sheet::Page page(
      "batch", w.text("batch.title",
                      {{"batch", batch.label}, {"vessel", batch.vessel}, {"place", batch.place}}));
  page.text(standing_text(view));
  if (in_hand(view.standing)) {
    for (std::string& text : outlook_texts(view.told)) page.text(std::move(text));
    if (view.look)
      page.text(
          w.text("batch.look", {{"day", view.look->on}, {"hour", Decimal{view.look->hour, 0}}}));
    if (view.strain_from)
      page.text(w.text(view.held_to_published ? "batch.strain-published" : "batch.strain",
                       {{"day", *view.strain_from},
                        {"n", view.recorded},
                        {"days", Decimal{batch.step->forecast->published_least.value, 0}}}));
    page.text(failing_text(view));
  }
  for (const fermentation::QualityRow& row : view.signs)
    if (is_worth_saying(row, view.standing)) page.text(sign_text(w, row));
  if (!batch.looks.empty()) page.heading(w.text("batch.looks"));
  looks_table(view, page);
  page.text(basis_text(view.told));
  if (!batch.litres_noted) page.text(w.text("batch.litres-assumed"));
  if (view.neighbours > 0) page.text(w.text("batch.neighbours", {{"n", view.neighbours}}));
  page.text(w.text(batch.hour_noted ? "batch.began" : "batch.began-hour-assumed",
                   {{"day", batch.began}, {"hour", Decimal{batch.began_hour, 0}}}));
  page.caution(w.text("batch.untested"));
  return page;
}

Json looks_json(const View& view) {
  Json looks = Json::array();
  for (const NotedLook& look : view.batch.looks) {
    Json notes = Json::array();
    for (const journal::Event* note : look.notes) notes.push_back(note->id.text());
    looks.push_back({{"on", look.on.iso()},
                     {"half", look.half},
                     {"hours", look.look.hours},
                     {"ph", look.look.ph ? Json(*look.look.ph) : Json()},
                     {"text", look_text(view.told.session, look)},
                     {"notes", std::move(notes)}});
  }
  return looks;
}

Json signs_json(const View& view) {
  Json signs = Json::array();
  for (const fermentation::QualityRow& row : view.signs)
    signs.push_back({{"sign", row.sign},
                     {"verdict", fermentation::verdict_word(row.verdict)},
                     {"causes", row.causes},
                     {"text", sign_text(words_of(view), row)}});
  return signs;
}

Json band_json(const View& view) {
  Json band = Json::array();
  for (const fermentation::PhBand& at : view.told.outlook.band)
    band.push_back({{"hours", at.hours},
                    {"low", quantity::rounded(at.low, 6)},
                    {"likely", quantity::rounded(at.likely, 6)},
                    {"high", quantity::rounded(at.high, 6)}});
  return band;
}

Json day_and_hour(const std::optional<OnDay>& moment) {
  if (!moment) return nullptr;
  return {{"on", moment->on.iso()}, {"hour", moment->hour}};
}

std::string picture_of(const View& view) {
  const words::Catalogue& w = words_of(view);
  ChartMarks marks{
      w.text("batch.picture-title",
             {{"batch", view.batch.label},
              {"standing", w.text(std::string("batch.word.") + standing_word(view.standing))}}),
      view.batch.only_looks(), view.told.now};
  if (view.look) marks.look = view.batch.hours_at(view.look->on, view.look->hour);
  return chart_of(view.told, marks);
}

void put_view(const View& view, const json& body, Answer& answer) {
  const NotedBatch& batch = view.batch;
  answer.fields["batch"] = batch.label;
  answer.fields["recipe"] = batch.recipe->id;
  answer.fields["stage"] = batch.step->id;
  answer.fields["vessel"] = batch.vessel;
  answer.fields["place"] = batch.place;
  answer.fields["began"] = {
      {"on", batch.began.iso()}, {"hour", batch.began_hour}, {"hour_noted", batch.hour_noted}};
  answer.fields["litres"] = batch.litres;
  answer.fields["litres_noted"] = batch.litres_noted;
  answer.fields["standing"] = standing_word(view.standing);
  answer.fields["text"] = standing_text(view);
  put_outlook(view.told, answer);
  answer.fields["next_look"] = day_and_hour(view.look);
  answer.fields["strain_from"] = view.strain_from ? Json(view.strain_from->iso()) : Json();
  answer.fields["batches_recorded"] = view.recorded;
  answer.fields["learned_from"] = view.neighbours;
  answer.fields["signs"] = signs_json(view);
  answer.fields["looks"] = looks_json(view);
  answer.fields["band"] = band_json(view);
  for (const fermentation::QualityRow& row : view.signs) answer.used.note(row.origin, "signs");
  const auto svg = body.find("svg");
  if (svg != body.end() && svg->is_boolean() && svg->get<bool>())
    answer.fields["svg"] = picture_of(view);
  add_cautions(view.told.session, {"no-tasting", "failed-batch-fate", "test-before-molasses"},
               answer);
  if (wants_pages(body)) add_page(view.told.session, page_of(view), answer);
}

// The half of the day that the device's clock shows, when it is that day.
std::optional<std::string> half_now(const Session& session, const Desk& desk, calendar::Date on) {
  constexpr std::int64_t a_minute = 60, a_day = 86400;
  if (on != session.today) return std::nullopt;
  const std::int64_t local = desk.clock + a_minute * session.offset_min;
  const std::int64_t second = ((local % a_day) + a_day) % a_day;
  return second < a_day / 2 ? "morning" : "afternoon";
}

// The body of the note: what was said of the look.
json note_body(const json& body, const std::string& half) {
  json note = {{"half", half}};
  const Fields& parts = *event_fields("reading");
  for (const Field& part : parts.fields) {
    const auto said = body.find(part.name);
    if (said != body.end()) note[std::string(part.name)] = *said;
  }
  return as_said(note);
}

}  // namespace

const Fields& batch_show_fields() { return show_fields; }
const Fields& batch_read_fields() { return read_fields; }

Result<Answer> batch_show(const Session& session, const json& body) {
  Answer answer;
  Problems problems = check_shape(body, show_fields, "");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  auto batch = noted_batch(session, journal::text_in(body, "batch"), answer.problems);
  if (!batch) return failure(std::move(batch.error()));
  const auto view = view_of(session, std::move(*batch), answer);
  if (!view) return failure(view.error());
  put_view(*view, body, answer);
  return answer;
}

Result<Answer> batch_read(const Session& session, const json& body) {
  Answer answer;
  Problems problems = check_shape(body, read_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const auto desk = read_desk(r);
  const calendar::Date on = r.date("on").value_or(session.today);
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  auto half = r.text("half");
  if (!half) half = half_now(session, *desk, on);
  if (!half) r.add("missing-half", "half", "");
  if (!half) return failure(std::move(problems));
  const json note = note_body(body, *half);
  outcome::append(problems, check_note("reading", note, *event_fields("reading"), "", session));
  auto batch = noted_batch(session, *r.text("batch"), answer.problems);
  if (!batch) outcome::append(problems, std::move(batch.error()));
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  if (on < batch->began || on > session.today)
    return failure({on < batch->began ? "look-before-batch" : "look-to-come",
                    "/on",
                    on.iso(),
                    {{"began", session.words.date(batch->began)}, {"note", ""}}});
  Recorder recorder(session, *desk);
  recorder.note("reading", note, on);
  answer.fields["events"] = recorder.events();
  answer.fields["noted"] = Json::array();
  for (const journal::Event& event : recorder.noted())
    answer.fields["noted"].push_back(event_row(session, event));
  add_look(session, note, on, nullptr, *batch);
  outcome::append(answer.problems, note_doubts(session, "reading", note, on));
  const auto view = view_of(session, std::move(*batch), answer);
  if (!view) return failure(view.error());
  put_view(*view, body, answer);
  return answer;
}

}  // namespace wheyfield::api
