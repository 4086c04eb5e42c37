#include "api/crop_answer.h"
#include "api/farm_reader.h"
#include "api/field_reader.h"
#include "api/fields.h"
#include "weather/onset.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::Problems;
using outcome::Result;
using weather::Onset;
using weather::OnsetRule;
using State = weather::Onset::State;

const Fields rain_fields{"DayRain", {{"date", Holds::date, true}, {"mm", Holds::number, true}}};
const Fields onset_fields{"CropOnset",
                          {{"rain", Holds::list, true, "", &rain_fields},
                           {"rule", Holds::text, true},
                           {"earliest", Holds::date, true},
                           {"pages", Holds::flag, false}}};

std::string state_word(State state) {
  static constexpr const char* words[] = {"onset", "provisional", "false-start", "none"};
  return words[static_cast<std::size_t>(state)];
}

// The days as the core's rain list, or every problem in them. The first row of a day to come is
// asked about in `questions`.
Result<weather::RainSeries> read_rain(const Session& session, const json& list,
                                      Problems& questions) {
  Problems problems;
  std::vector<weather::RainDay> days;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const FieldReader r(list[i], "/rain/" + std::to_string(i), session.data.units(), problems);
    const auto day = r.date("date");
    const auto mm = r.number("mm");
    if (day && mm) days.push_back({*day, *mm});
    const FieldReader asking(list[i], "/rain/" + std::to_string(i), session.data.units(),
                             questions);
    if (questions.empty()) ask_about_day_to_come(asking, "date", day, session.today);
  }
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  auto series = weather::rain_from_days(days);
  if (series) return series;
  for (auto& problem : series.error())
    if (const auto at = problem.field.rfind("/day"); at != std::string::npos)
      problem.field.replace(at, 4, "/date");
  return series;
}

// A rule of dekads knows the ten days, not the day.
std::string state_text(const Session& session, const OnsetRule& rule, const Onset& onset) {
  const bool dekad = rule.shape == OnsetRule::Shape::dekad && onset.state != State::none;
  return session.words.text(
      (dekad ? "onset.dekad-state." : "onset.state.") + state_word(onset.state),
      {{"day", onset.day}, {"watch_to", onset.watch_to}});
}

Json onset_json(const Session& session, const OnsetRule& rule, const Onset& onset) {
  const bool begun = onset.state != State::none;
  const bool watches = begun && rule.shape == OnsetRule::Shape::spell;
  Json false_starts = Json::array();
  for (const calendar::Date& day : onset.false_starts) false_starts.push_back(day.iso());
  return {{"rule", rule.id},
          {"wants", session.words.text("onset." + rule.id)},
          {"state", state_word(onset.state)},
          {"day", begun ? Json(onset.day.iso()) : Json()},
          {"watch_to", begun ? Json(onset.watch_to.iso()) : Json()},
          {"longest_dry_run", watches ? Json(onset.longest_dry_run) : Json()},
          {"false_starts", std::move(false_starts)},
          {"text", state_text(session, rule, onset)}};
}

struct WorkedOnset {
  const Session& session;
  weather::RainSeries rain;
  calendar::Date earliest;
  const OnsetRule& rule;
  Onset onset;
};

void add_details(sheet::Page& page, const WorkedOnset& o) {
  const words::Catalogue& w = o.session.words;
  if (o.rule.shape == OnsetRule::Shape::spell && o.onset.state != State::none)
    page.text(w.text("onset.dry-run", {{"n", o.onset.longest_dry_run}, {"day", o.onset.day}}));
  if (o.onset.false_starts.empty()) return;
  std::vector<std::string> days;
  for (const calendar::Date& day : o.onset.false_starts) days.push_back(w.date(day));
  page.text(w.text("onset.false-starts"));
  page.list(std::move(days));
}

sheet::Page onset_page(const WorkedOnset& o, const Json& beside,
                       const reference_data::UsedSources& used) {
  const words::Catalogue& w = o.session.words;
  double mm = 0.0;
  for (const double day : o.rain.mm) mm += day;
  sheet::Page page("onset", w.text("onset.title"));
  page.text(state_text(o.session, o.rule, o.onset));
  page.text(w.text("onset.by", {{"rule", w.text("onset." + o.rule.id)}, {"day", o.earliest}}));
  page.text(w.text(
      "onset.rain",
      {{"first", o.rain.first_day}, {"last", o.rain.last_day()}, {"mm", words::Decimal{mm, 1}}}));
  add_details(page, o);
  page.heading(w.text("onset.beside"));
  std::vector<std::vector<std::string>> rows;
  for (const Json& one : beside) rows.push_back({one["rule"], one["wants"], one["text"]});
  page.table({{w.text("col.rule")}, {w.text("col.what-it-wants")}, {w.text("col.says")}},
             std::move(rows));
  page.caution(w.text("onset.feel-the-soil"));
  add_sources(page, o.session, used);
  return page;
}

Problems rule_unknown(const std::vector<OnsetRule>& rules, const std::string& id) {
  std::vector<std::string> ids;
  std::string known;
  for (const OnsetRule& rule : rules) {
    ids.push_back(rule.id);
    known += (known.empty() ? "" : ", ") + rule.id;
  }
  return {
      {"onset-rule-unknown", "/rule", id, {{"known", known}, {"suggestion", nearest(id, ids)}}}};
}

}  // namespace

Result<Answer> crop_onset(const Session& session, const json& body) {
  Problems problems = check_shape(body, onset_fields, "");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto rules = weather::read_onset_rules(session.data);
  if (!rules) return outcome::failure(rules.error());
  const FieldReader r(body, "", session.data.units(), problems);
  const std::string id = *r.text("rule");
  const OnsetRule* rule = weather::find_onset_rule(*rules, id);
  if (!rule) outcome::append(problems, rule_unknown(*rules, id));
  const auto earliest = r.date("earliest");
  Problems questions;
  auto rain = read_rain(session, body["rain"], questions);
  if (!rain) outcome::append(problems, rain.error());
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto onset = weather::onset_of_rains(*rain, *rule, *earliest);
  if (!onset) return outcome::failure(onset.error());

  Answer answer;
  answer.problems = std::move(questions);
  answer.used.note(rule->origin, "onset." + rule->id);
  answer.fields = onset_json(session, *rule, *onset);
  answer.fields["earliest"] = earliest->iso();
  answer.fields["rain"] = {{"first", rain->first_day.iso()}, {"last", rain->last_day().iso()}};
  Json beside = Json::array();
  for (const OnsetRule& other : *rules) {
    if (other.id == rule->id) continue;
    beside.push_back(onset_json(session, other, *weather::onset_of_rains(*rain, other, *earliest)));
    answer.used.note(other.origin, "onset." + other.id);
  }
  answer.fields["beside"] = std::move(beside);
  if (!wants_pages(body)) return answer;
  const Json& others = answer.fields["beside"];
  const WorkedOnset worked{session, *rain, *earliest, *rule, *onset};
  answer.fields["pages"] = Json::array({sheet::to_json(onset_page(worked, others, answer.used))});
  return answer;
}

}  // namespace wheyfield::api
