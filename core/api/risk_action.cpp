// How the season's plan fares when batches fail or come late.
#include <map>
#include <tuple>

#include "api/field_reader.h"
#include "api/plan_answer.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Result;
using words::Decimal;

constexpr std::int64_t usual = 20000;
constexpr std::int64_t most = 1000000;

Decimal of_hundred(double share) { return {share * 100.0, 0}; }

// The fields that get serum for one use on one day.
struct HandedOut {
  calendar::Date collect;
  std::string use;
  int fields = 0;
  double on_time = 0.0;  // mean over the fields
};

std::vector<HandedOut> by_day(const WorkedPlan& worked) {
  std::map<std::pair<int, std::string>, HandedOut> all;
  for (const season::PlannedUse& use : worked.plan.uses) {
    if (!use.planned) continue;
    const calendar::Date collect = season::collecting_day(use.due);
    HandedOut& one = all[{collect.days(), use.due.use.event}];
    one.collect = collect;
    one.use = use.due.use.event;
    one.on_time += use.on_time;
    ++one.fields;
  }
  std::vector<HandedOut> days;
  for (auto& [key, one] : all) {
    one.on_time /= one.fields;
    days.push_back(std::move(one));
  }
  return days;
}

Json days_json(const std::vector<HandedOut>& days) {
  Json list = Json::array();
  for (const HandedOut& one : days)
    list.push_back({{"collect_on", one.collect.iso()},
                    {"use", one.use},
                    {"fields", one.fields},
                    {"on_time", quantity::rounded(one.on_time, 6)}});
  return list;
}

sheet::Page risk_page(const WorkedPlan& worked, const std::vector<HandedOut>& days) {
  const words::Catalogue& w = worked.words();
  const season::SeasonRisk& risk = *worked.plan.risk;
  sheet::Page page("risk", w.text("risk.title", {{"season", worked.season.name}}));
  page.text(w.text("summary.risk", {{"all", of_hundred(risk.all_on_time)},
                                    {"litres", of_hundred(risk.litres_on_time)},
                                    {"worst", of_hundred(risk.worst_twentieth)}}));
  page.text(risk_basis_text(worked));
  std::vector<std::vector<std::string>> rows;
  for (const HandedOut& one : days)
    rows.push_back({w.date(one.collect), w.text("use." + one.use), std::to_string(one.fields),
                    w.number(of_hundred(one.on_time))});
  page.table({{w.text("col.day")},
              {w.text("col.use")},
              {w.text("col.fields"), true},
              {w.text("risk.col-on-time"), true}},
             std::move(rows));
  page.text(w.text("risk.not-in-it"));
  return page;
}

}  // namespace

Json failure_json(const season::FailureShare& failure) {
  return {{"share", quantity::rounded(failure.share / 1e6, 6)},
          {"own", failure.own},
          {"recorded", failure.recorded},
          {"missing", failure.missing}};
}

std::string risk_basis_text(const WorkedPlan& worked) {
  const season::FailureShare& failure = worked.rules.failure;
  const double least = worked.session.data.constant("own-batches-least").value;
  return worked.words().text(failure.own ? "summary.risk-own" : "summary.risk-guess",
                             {{"failed", of_hundred(failure.share / 1e6)},
                              {"n", failure.own ? failure.recorded : static_cast<int>(least)}});
}

Result<Answer> season_risk(const Session& session, const json& body) {
  outcome::Problems problems;
  const FieldReader r(body, "", session.data.units(), problems);
  const std::int64_t seasons = r.count("seasons").value_or(usual);
  const std::int64_t seed = r.count("seed").value_or(1);
  if (seasons < 1 || seasons > most)
    r.add("seasons-out-of-range", "seasons", std::to_string(seasons),
          {{"limit", std::to_string(most)}});
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  Answer answer;
  const auto worked = planned(session, body, answer, {static_cast<std::uint64_t>(seed), seasons});
  if (!worked) return failure(worked.error());
  const std::vector<HandedOut> days = by_day(*worked);
  answer.fields["on_time"] = on_time_json(*worked);
  answer.fields["days"] = days_json(days);
  answer.fields["failure"] = failure_json(worked->rules.failure);
  answer.fields["seed"] = seed;
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(risk_page(*worked, days))});
  return answer;
}

}  // namespace wheyfield::api
