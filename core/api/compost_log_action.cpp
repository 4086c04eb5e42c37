// The log of a heap: days that were hot, turnings, what rules on paper say of them, what to do now.
// Never that it is free of anything, and no temperature to come.
#include <algorithm>
#include <cmath>

#include "api/compost_fields.h"
#include "api/compost_turning.h"
#include "api/dose_answer.h"
#include "api/farm_reader.h"
#include "api/field_reader.h"
#include "compost/heap_log.h"

namespace wheyfield::api {
namespace {

using calendar::Date;
using compost::HeapDay;
using compost::HeapLog;
using compost::HeatRule;
using compost::RuleVerdict;
using compost::Verdict;
using nlohmann::json;
using outcome::Problems;
using outcome::Result;
using quantity::rounded;
using words::Decimal;
using words::Values;

const Fields reading_fields_of_heap{"HeapReading",
                                    {{"date", Holds::date, true},
                                     {"celsius", Holds::number},
                                     {"turned", Holds::choice, false, "yes|no"},
                                     {"height", Holds::length}}};
const Fields log_fields{"CompostLog",
                        {{"built", Holds::date, true},
                         {"readings", Holds::list, true, "", &reading_fields_of_heap},
                         {"ratio", Holds::number},
                         {"ash_first", Holds::number},
                         {"ash_last", Holds::number},
                         {"pages", Holds::flag}}};

struct AskedLog {
  HeapLog log;
  std::optional<double> ratio;
  std::optional<double> lost;  // part of the dry matter
  Problems questions;
};

HeapDay read_day(const Session& session, const FieldReader& r, Date date) {
  HeapDay day;
  day.date = date;
  day.celsius = r.number("celsius");
  if (day.celsius)
    r.refuse_outside(session.data.constant("heap-celsius-written"), "heap-celsius-out-of-range",
                     "celsius", *day.celsius);
  day.turned = r.text("turned").value_or("no") == "yes";
  if (const auto height = r.length("height")) {
    day.height = quantity::in_metres(*height);
    r.refuse_outside(session.data.constant("heap-height-limits"), "heap-height-out-of-range",
                     "height", *day.height);
  }
  if (!r.given("celsius") && !day.turned && !r.given("height"))
    r.add("heap-row-empty", "celsius", "");
  return day;
}

// Rows in order, none before the heap stood or long after.
void check_order(const Session& session, const HeapLog& log, const FieldReader& r, Date date) {
  const int longest = static_cast<int>(session.data.constant("heap-log-days").high);
  if (date < log.built)
    r.add("heap-before-built", "date", date.iso(), {{"built", log.built.iso()}});
  else if (log.day_of(date) > longest)
    r.add("heap-row-far", "date", date.iso(),
          {{"limit", std::to_string(longest)}, {"built", log.built.iso()}});
  else if (!log.days.empty() && date <= log.days.back().date)
    r.add("heap-rows-out-of-order", "date", date.iso(), {{"before", log.days.back().date.iso()}});
}

void read_ash(const FieldReader& r, AskedLog& asked) {
  const auto first = r.number("ash_first"), last = r.number("ash_last");
  if (!r.given("ash_first") && !r.given("ash_last")) return;
  r.want("ash_first");
  r.want("ash_last");
  if (!first || !last) return;
  if (!(*first > 0.0) || *last < *first || *last >= 100.0)
    return r.add("heap-ash-impossible", "ash_last", *r.text("ash_last"),
                 {{"first", *r.text("ash_first")}});
  asked.lost = compost::dry_matter_lost(*first, *last);
}

// The rows, as far as their dates can be read; the first one to come is asked about.
void read_rows(const Session& session, const json& rows, AskedLog& asked, Problems& problems) {
  bool said = false;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const FieldReader r(rows[i], "/readings/" + std::to_string(i), session.data.units(), problems);
    const auto date = r.date("date");
    const HeapDay day = read_day(session, r, date.value_or(asked.log.built));
    if (!date) continue;
    check_order(session, asked.log, r, *date);
    if (!said) ask_about_day_to_come(r, "date", *date, session.today);
    said |= *date > session.today;
    asked.log.days.push_back(day);
  }
}

Result<AskedLog> read_log(const Session& session, const json& body) {
  Problems problems = check_shape(body, log_fields, "");
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const FieldReader r(body, "", session.data.units(), problems);
  AskedLog asked;
  const auto built = r.date("built");
  if (!built) return outcome::failure(problems);
  asked.log.built = *built;
  asked.ratio = r.number("ratio");
  if (asked.ratio && !(*asked.ratio > 0.0)) r.add("not-above-zero", "ratio", *r.text("ratio"));
  read_ash(r, asked);
  if (body["readings"].empty()) r.add("heap-no-rows", "readings", "");
  read_rows(session, body["readings"], asked, problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  asked.questions = std::move(problems);
  return asked;
}

const char* verdict_word(Verdict verdict) {
  static constexpr const char* words[] = {"met", "not-met", "cannot-say"};
  return words[static_cast<std::size_t>(verdict)];
}

std::string days_text(const words::Catalogue& w, const std::vector<Date>& days) {
  std::string all;
  for (const Date& day : days) all += (all.empty() ? "" : ", ") + w.date(day);
  return all;
}

// "15 days at 55 C and five turnings: met", and what it rests on.
std::string verdict_text(const Session& session, const HeatRule& rule, const RuleVerdict& verdict) {
  const words::Catalogue& w = session.words;
  const Values values{{"rule", w.text("heat-rule." + rule.id)},
                      {"days", verdict.days},
                      {"n", rule.days},
                      {"turnings", verdict.turnings},
                      {"wanted", rule.turnings},
                      {"run", verdict.longest_run},
                      {"open", days_text(w, verdict.open)}};
  std::string text = w.text(std::string("compost.") + verdict_word(verdict.verdict), values) + " " +
                     w.text(rule.turnings > 0 ? "compost.counted" : "compost.counted-days", values);
  if (!verdict.open.empty()) text += " " + w.text("compost.open-days", values);
  if (verdict.ratio_unknown) text += " " + w.text("compost.ratio-unknown");
  if (verdict.ratio_outside) text += " " + w.text("compost.ratio-outside");
  if (verdict.verdict == Verdict::met && verdict.longest_run < rule.days)
    text += " " + w.text("compost.not-in-a-row", values);
  return text;
}

Json dates_json(const std::vector<Date>& dates) {
  Json list = Json::array();
  for (const Date& date : dates) list.push_back(date.iso());
  return list;
}

Json verdict_json(const Session& session, const HeatRule& rule, const RuleVerdict& verdict) {
  return {{"rule", rule.id},
          {"kind", rule.origin.kind},
          {"verdict", verdict_word(verdict.verdict)},
          {"days", verdict.days},
          {"days_wanted", rule.days},
          {"longest_run", verdict.longest_run},
          {"turnings", verdict.turnings},
          {"turnings_wanted", rule.turnings},
          {"days_open", dates_json(verdict.open)},
          {"text", verdict_text(session, rule, verdict)}};
}

const HeapDay* last_read(const HeapLog& log) {
  const auto found = std::find_if(log.days.rbegin(), log.days.rend(),
                                  [](const HeapDay& day) { return day.celsius.has_value(); });
  return found == log.days.rend() ? nullptr : &*found;
}

double hottest(const HeapLog& log, int until_day) {
  double most = -1e9;
  for (const HeapDay& day : log.days)
    if (day.celsius && log.day_of(day.date) <= until_day) most = std::max(most, *day.celsius);
  return most;
}

// Words of what the log asks for now: keys behind "compost.hint.".
class Hints {
 public:
  Hints(const Session& session, const HeapLog& log, const compost::TurningPlan& plan,
        Answer& answer)
      : session_(session), log_(log), plan_(plan), answer_(answer) {}

  std::vector<std::string> told() {
    const HeapDay* read = last_read(log_);
    if (read == nullptr) {
      say("no-reading", {});
      return texts_;
    }
    const Values values{{"celsius", Decimal{*read->celsius, 1}}, {"on", read->date}};
    const bool too_hot = *read->celsius > row("heap-turn-above");
    const int last_day = log_.day_of(log_.last());
    if (too_hot && !read->turned) say("too-hot", values);
    heats(last_day);
    const double warm = session_.data.constant("heap-heats-to").high;
    if (last_day > plan_.first && last_day < plan_.ready && *read->celsius < warm &&
        hottest(log_, last_day) >= warm)
      say("cooled", values);
    if (last_day < plan_.ready) next_turning();
    if (last_day >= plan_.ready) say("ripe", {});
    return texts_;
  }

 private:
  double row(const char* id) { return noted(session_, id, "hints", answer_).value; }

  void say(const char* key, const Values& values) {
    texts_.push_back(session_.words.text(std::string("compost.hint.") + key, values));
  }

  void heats(int last_day) {
    const int by = static_cast<int>(row("heap-heats-by"));
    const double to = row("heap-heats-to");
    if (last_day >= by && hottest(log_, by) > -1e8 && hottest(log_, by) < to)
      say("did-not-heat", {{"n", by}, {"celsius", Decimal{to, 0}}});
  }

  void next_turning() {
    for (const int day : compost::turning_days(plan_)) {
      const Date due = log_.built + day;
      const bool done = std::any_of(log_.days.begin(), log_.days.end(), [&](const HeapDay& one) {
        return one.turned && one.date >= due && one.date < due + plan_.every;
      });
      if (done || due + plan_.every <= log_.last()) continue;
      return say(due <= log_.last() ? "turn-due" : "turn-next", {{"on", due}, {"n", day}});
    }
  }

  const Session& session_;
  const HeapLog& log_;
  compost::TurningPlan plan_;
  Answer& answer_;
  std::vector<std::string> texts_;
};

void add_rows(const Session& session, const HeapLog& log, sheet::Page& page) {
  const words::Catalogue& w = session.words;
  std::vector<std::vector<std::string>> rows;
  for (const HeapDay& day : log.days)
    rows.push_back({w.number({static_cast<double>(log.day_of(day.date)), 0}), w.date(day.date),
                    day.celsius ? w.number({*day.celsius, 1}) : w.text("compost.not-read"),
                    day.turned ? w.text("compost.turned") : "",
                    day.height ? w.number({*day.height, 2}) : ""});
  page.heading(w.text("compost.log-rows"));
  page.table({{w.text("compost.col-day"), true},
              {w.text("compost.col-date")},
              {w.text("compost.col-celsius"), true},
              {w.text("compost.col-turned")},
              {w.text("compost.col-height"), true}},
             std::move(rows));
}

void add_measures(const Session& session, const AskedLog& asked, sheet::Page& page) {
  const words::Catalogue& w = session.words;
  if (const auto shrunk = asked.log.shrinkage())
    page.text(w.text(*shrunk >= 0.0 ? "compost.shrunk" : "compost.grown",
                     {{"percent", Decimal{100.0 * std::fabs(*shrunk), 0}}}));
  else
    page.text(w.text("compost.shrunk-unknown"));
  if (asked.lost) page.text(w.text("compost.lost", {{"percent", Decimal{100.0 * *asked.lost, 1}}}));
}

// How long other rules hold what is read here in the middle, to see what a degree is worth.
void add_time_line(const Session& session, sheet::Page& page) {
  const double factor = session.data.constant("heat-time-days").value;
  const double slope = session.data.constant("heat-time-slope").value;
  const auto days = [&](double celsius) { return compost::days_at(celsius, factor, slope); };
  page.text(session.words.text("compost.time-line", {{"at55", Decimal{days(55.0), 1}},
                                                     {"at60", Decimal{24.0 * days(60.0), 1}},
                                                     {"at65", Decimal{24.0 * days(65.0), 1}}}));
}

sheet::Page log_page(const Session& session, const AskedLog& asked,
                     const std::vector<std::string>& hints, const Json& verdicts) {
  const words::Catalogue& w = session.words;
  const HeapLog& log = asked.log;
  sheet::Page page("compost-log", w.text("compost.log-title"));
  page.text(w.text("compost.log-built",
                   {{"built", log.built}, {"last", log.last()}, {"n", log.day_of(log.last())}}));
  page.list(hints);
  if (const auto unread = log.unread(); !unread.empty())
    page.text(w.text("compost.unread", {{"n", unread.size()}, {"days", days_text(w, unread)}}));
  page.heading(w.text("compost.rules"));
  for (const Json& one : verdicts) page.text(one["text"].get<std::string>());
  page.caution(w.text("compost.no-proof"));
  add_time_line(session, page);
  add_measures(session, asked, page);
  if (log.day_of(log.last()) >= session.data.constant("compost-ready-day").value) {
    page.heading(w.text("compost.ripe-signs"));
    page.list({w.text("compost.ripe.cool"), w.text("compost.ripe.water"),
               w.text("compost.ripe.smell"), w.text("compost.ripe.looks"),
               w.text("compost.ripe.bag"), w.text("compost.ripe.seed")});
  }
  add_rows(session, log, page);
  return page;
}

void put_log(const AskedLog& asked, Answer& answer) {
  const HeapLog& log = asked.log;
  const auto shrunk = log.shrinkage();
  answer.fields = {{"built", log.built.iso()},
                   {"last", log.last().iso()},
                   {"day", log.day_of(log.last())},
                   {"turnings", log.turnings()},
                   {"days_unread", dates_json(log.unread())},
                   {"height_lost", shrunk ? Json(rounded(*shrunk, 6)) : Json()},
                   {"dry_matter_lost", asked.lost ? Json(rounded(*asked.lost, 6)) : Json()}};
}

}  // namespace

const Fields& compost_log_fields() { return log_fields; }

Result<Answer> compost_log(const Session& session, const nlohmann::json& body) {
  const auto rules = compost::read_heat_rules(session.data);
  if (!rules) return outcome::failure(rules.error());
  const auto asked = read_log(session, body);
  if (!asked) return outcome::failure(asked.error());
  Answer answer;
  answer.problems = asked->questions;
  put_log(*asked, answer);
  Json verdicts = Json::array();
  for (const HeatRule& rule : *rules) {
    verdicts.push_back(verdict_json(session, rule, compost::judge(rule, asked->log, asked->ratio)));
    answer.used.note(rule.origin, "days and turnings");
  }
  answer.fields["rules"] = std::move(verdicts);
  const auto hints = Hints(session, asked->log, turning_plan(session, answer), answer).told();
  answer.fields["hints"] = hints;
  noted(session, "heat-time-days", "time at a temperature", answer);
  noted(session, "heat-time-slope", "time at a temperature", answer);
  add_cautions(session, {"heap-heat", "heap-dust", "heap-signs", "compost-raw-crops"}, answer);
  if (wants_pages(body))
    add_page(session, log_page(session, *asked, hints, answer.fields["rules"]), answer);
  return answer;
}

}  // namespace wheyfield::api
