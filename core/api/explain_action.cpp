// Why the season falls short: what no plan can avoid, what cannot help, what cures it.
#include "api/fields.h"
#include "api/plan_answer.h"
#include "season/explain.h"
#include "season/lot_planner.h"

namespace wheyfield::api {
namespace {

using nlohmann::json;
using outcome::failure;
using outcome::Result;
using season::SeasonChange;
using words::Decimal;
using What = SeasonChange::What;

Decimal litres(std::int64_t ml) { return {static_cast<double>(ml) / 1000.0, 2}; }

struct Explained {
  const Session& session;
  const season::Season& season;
  const season::Explanation& what;
  const words::Catalogue& words() const { return session.words; }
};

const char* name_of(What what) {
  switch (what) {
    case What::hand_out_later:
      return "hand-out-later";
    case What::start_earlier:
      return "start-earlier";
    case What::more_milk:
      return "more-milk";
    case What::one_more_vessel:
      return "one-more-vessel";
  }
  return "";
}

Json change_json(const Explained& e, const SeasonChange& change) {
  Json one = {{"what", name_of(change.what)}};
  if (change.days > 0) one["days"] = change.days;
  if (change.what == What::start_earlier)
    one["first_start"] = (e.season.first_start - change.days).iso();
  if (change.what == What::more_milk) one["percent"] = change.percent;
  if (change.what == What::one_more_vessel) {
    const season::Vessel& vessel = e.season.vessels[change.vessel];
    one["like"] = vessel.name;
    one["at"] = vessel.farm;
  }
  return one;
}

std::string change_text(const Explained& e, const SeasonChange& change) {
  const std::string key = "explain." + std::string(name_of(change.what));
  words::Values values{{"n", change.days}, {"percent", change.percent}};
  if (change.what == What::start_earlier)
    values.insert_or_assign("day", e.season.first_start - change.days);
  if (change.what == What::one_more_vessel) {
    const season::Vessel& vessel = e.season.vessels[change.vessel];
    values.insert_or_assign("vessel", vessel.name);
    values.insert_or_assign("farm", vessel.farm);
    values.insert_or_assign("size", Decimal{quantity::in_litres(vessel.size), 1});
  }
  return e.words().text(key, values);
}

std::string cure_text(const Explained& e, const season::Cure& cure) {
  std::string what = change_text(e, cure.changes.front());
  if (cure.changes.size() > 1)
    what = e.words().text("explain.both",
                          {{"one", what}, {"other", change_text(e, cure.changes.back())}});
  std::string text = e.words().text(cure.short_ml == 0 ? "explain.cures" : "explain.leaves",
                                    {{"what", what}, {"litres", litres(cure.short_ml)}});
  if (cure.cost)
    text +=
        " " + e.words().text(
                  "explain.cost",
                  {{"cost", e.words().text("money", {{"amount", Decimal{cure.cost->amount(), 0}},
                                                     {"currency", e.season.currency}})}});
  return text;
}

Json cures_json(const Explained& e) {
  Json list = Json::array();
  for (const season::Cure& cure : e.what.cures) {
    Json change = Json::array();
    for (const SeasonChange& one : cure.changes) change.push_back(change_json(e, one));
    list.push_back({{"change", std::move(change)},
                    {"short_after", cure.short_ml},
                    {"cost", cure.cost ? Json(cure.cost->amount()) : Json()},
                    {"text", cure_text(e, cure)}});
  }
  return list;
}

Json unavoidable_json(const Explained& e) {
  Json days = Json::array();
  for (const season::ShortDay& day : e.what.days)
    days.push_back({{"collect_on", day.collect.iso()},
                    {"short_ml", day.short_ml},
                    {"by_then_at_least_ml", day.by_then_at_least_ml}});
  Json lifted = Json::array();
  for (const season::Lifted& one : e.what.lifted)
    lifted.push_back({{"limit", one.limit}, {"at_least_ml", one.at_least_ml}});
  return {{"short_ml", e.what.short_ml},
          {"at_least_ml", e.what.at_least_ml},
          {"earliest_ready", e.what.earliest_ready ? Json(e.what.earliest_ready->iso()) : Json()},
          {"days", std::move(days)},
          {"not_enough_alone", std::move(lifted)}};
}

sheet::Page explain_page(const Explained& e) {
  const words::Catalogue& w = e.words();
  sheet::Page page("explain", w.text("explain.title", {{"season", e.season.name}}));
  if (e.what.short_ml == 0) {
    page.text(w.text("explain.nothing-short"));
    return page;
  }
  for (const season::ShortDay& day : e.what.days)
    page.text(w.text("explain.day", {{"day", day.collect}, {"short", litres(day.short_ml)}}));
  page.heading(w.text("explain.unavoidable"));
  page.text(w.text(e.what.at_least_ml > 0 ? "explain.at-least" : "explain.perhaps-avoidable",
                   {{"least", litres(e.what.at_least_ml)}, {"short", litres(e.what.short_ml)}}));
  if (const auto& first = e.what.earliest_ready; first && e.what.days.front().collect < *first)
    page.text(w.text("explain.earliest", {{"day", *first}}));
  for (const season::Lifted& one : e.what.lifted)
    page.text(w.text("explain.not-" + one.limit, {{"least", litres(one.at_least_ml)}}));
  page.heading(w.text("explain.what-cures"));
  if (e.what.cures.empty()) page.text(w.text("explain.no-cure"));
  std::vector<std::string> lines;
  for (const season::Cure& cure : e.what.cures) lines.push_back(cure_text(e, cure));
  page.list(std::move(lines));
  return page;
}

}  // namespace

Result<Answer> season_explain(const Session& session, const json& body) {
  auto sound = sound_season(session, body);
  if (!sound) return failure(sound.error());
  Answer answer;
  answer.problems = remarks(session, *sound);
  answer.used = std::move(sound->read.used);
  const season::Season& season = sound->read.season;
  const auto due = season::due_season(season, *sound->recipe, session.crops, session.data,
                                      plan_rules(session, *sound->recipe), answer.used);
  if (!due) return failure(due.error());
  const int search = static_cast<int>(session.data.constant("cure-search").value);
  answer.used.note(session.data.constant("cure-search").origin, "cure-search");
  const season::Explanation what = season::explain(*due, season::LotPlanner(), search);
  const Explained explained{session, season, what};
  answer.fields["unavoidable"] = unavoidable_json(explained);
  answer.fields["cures"] = cures_json(explained);
  if (wants_pages(body))
    answer.fields["pages"] = Json::array({sheet::to_json(explain_page(explained))});
  return answer;
}

}  // namespace wheyfield::api
