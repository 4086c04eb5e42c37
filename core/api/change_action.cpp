// A plan that is changed after something happened: what was announced stays, what is different is
// said, and why.
#include <algorithm>
#include <map>
#include <set>

#include "api/field_reader.h"
#include "api/fields.h"
#include "api/plan_answer.h"
#include "journal/standing.h"
#include "season/change.h"

namespace wheyfield::api {
namespace {

using calendar::Date;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using season::Difference;
using season::ToldBatch;
using words::Decimal;
using Differs = Difference::What;

const Fields change_fields{"SeasonChange",
                           {{"season", Holds::object, false},
                            {"method", Holds::text, false},
                            {"pages", Holds::flag, false},
                            {"was", Holds::object, true},
                            {"on", Holds::date, false},
                            {"announced_until", Holds::date, false},
                            {"failed", Holds::texts, false}}};

Decimal litres(std::int64_t ml) { return {static_cast<double>(ml) / 1000.0, 1}; }

const json& list_in(const json& object, const char* member) {
  static const json none = json::array();
  const auto found = object.is_object() ? object.find(member) : object.end();
  return found != object.end() && found->is_array() ? *found : none;
}

std::optional<Date> date_in(const json& object, const char* member) {
  const auto date = calendar::parse_date(journal::text_in(object, member));
  return date ? std::optional(*date) : std::nullopt;
}

std::optional<std::int64_t> whole_in(const json& object, const char* member) {
  const auto found = object.is_object() ? object.find(member) : object.end();
  if (found == object.end() || !found->is_number_integer()) return std::nullopt;
  return found->get<std::int64_t>();
}

// The plan as it was answered before.
class Was {
 public:
  Was(const json& was, std::vector<std::string> failed) : was_(was), failed_(std::move(failed)) {}

  // Of the season's own recipe, of each preparation, then of those that the season has no more.
  Result<std::vector<std::vector<ToldBatch>>> batches(const Session& session,
                                                      const SoundSeason& sound) const {
    if (!was_.contains("batches")) return failure({"was-no-plan", "/was", "", {}});
    const std::vector<season::Preparation>& now = sound.read.season.preparations;
    std::vector<std::vector<ToldBatch>> told(1 + now.size());
    Problems problems = read_list(was_, *sound.recipe, "/was", told.front());
    const json& all = list_in(was_, "preparations");
    for (std::size_t k = 0; k < all.size() && problems.empty(); ++k) {
      const std::string field = "/was/preparations/" + std::to_string(k);
      const recipe::Recipe* recipe = session.recipe(journal::text_in(all[k], "recipe"));
      if (recipe == nullptr) return failure({"was-no-plan", field, "", {}});
      const auto at = std::find_if(now.begin(), now.end(),
                                   [&](const auto& made) { return made.recipe->id == recipe->id; });
      const auto place = static_cast<std::size_t>(at - now.begin()) + 1;
      if (at == now.end()) told.emplace_back();
      problems = read_list(all[k], *recipe, field, at == now.end() ? told.back() : told[place]);
    }
    if (problems.empty()) problems = unknown_failed(told);
    if (!problems.empty()) return failure(std::move(problems));
    return told;
  }

  // What was due, in mL by the day it is handed out.
  std::map<int, std::int64_t> due() const {
    std::map<int, std::int64_t> by_day;
    for (const json& use : list_in(was_, "uses")) {
      const auto on = date_in(use, "collect_on");
      const auto ml = whole_in(use, "serum_ml");
      const bool planned = on && use.contains("planned") && use["planned"] == true;
      if (planned && ml) by_day[on->days()] += *ml;
    }
    return by_day;
  }

  // Days on which the group was to meet.
  std::vector<Date> meetings() const {
    std::vector<Date> days;
    for (const json& meeting : list_in(was_, "meetings"))
      if (const auto day = date_in(meeting, "date")) days.push_back(*day);
    return days;
  }

 private:
  Problems read_list(const json& of, const recipe::Recipe& recipe, const std::string& field,
                     std::vector<ToldBatch>& told) const {
    const int stands = recipe.vessel_step();
    const std::string filled = stands < 0 ? "" : recipe.steps[static_cast<std::size_t>(stands)].id;
    for (const json& one : list_in(of, "batches")) {
      auto batch = read(one, filled);
      if (!batch)
        return {{"was-no-plan", field + "/batches/" + std::to_string(told.size()), "", {}}};
      told.push_back(std::move(*batch));
    }
    return {};
  }

  Problems unknown_failed(const std::vector<std::vector<ToldBatch>>& told) const {
    Problems problems;
    for (const std::string& name : failed_) {
      const auto named = [&](const ToldBatch& b) { return b.name == name; };
      if (std::none_of(told.begin(), told.end(), [&](const auto& batches) {
            return std::any_of(batches.begin(), batches.end(), named);
          }))
        problems.push_back({"failed-unknown", "/failed", name, {}});
    }
    return problems;
  }

  std::optional<ToldBatch> read(const json& one, const std::string& filled) const {
    ToldBatch batch;
    batch.name = journal::text_in(one, "id");
    batch.vessel = journal::text_in(one, "vessel");
    const auto start = date_in(one, "start"), ready = date_in(one, "ready");
    const auto ml = whole_in(one, "stored_ml");
    if (batch.name.empty() || batch.vessel.empty() || !start || !ready || !ml) return std::nullopt;
    batch.start = *start;
    batch.ready = *ready;
    batch.stored_ml = *ml;
    batch.failed = std::find(failed_.begin(), failed_.end(), batch.name) != failed_.end();
    for (const json& step : list_in(one, "steps")) {
      const auto from = date_in(step, "from");
      if (!from || journal::text_in(step, "step") != filled) continue;
      batch.fill_day = *from;
      return batch;
    }
    return std::nullopt;
  }

  const json& was_;
  std::vector<std::string> failed_;
};

// A batch that stands, or that people were told of, cannot be planned around when the season does
// not say any more what it is.
Problems still_standing(const std::vector<std::vector<ToldBatch>>& told, std::size_t first, Date on,
                        Date until) {
  Problems problems;
  for (std::size_t i = first; i < told.size(); ++i)
    for (const ToldBatch& batch : told[i])
      if (!batch.failed && batch.start <= until && batch.ready > on)
        problems.push_back({"announced-preparation-gone", "/preparations", batch.name, {}});
  return problems;
}

// Of the season's own recipe, or of one of its preparations.
struct Replanned {
  const std::vector<ToldBatch>* told;
  const season::BatchPlan* plan;
  std::vector<Difference> differences;
};

struct Changed {
  const WorkedPlan& worked;
  std::vector<Replanned> all;
  const Was& was;
  Date on;
};

const char* word_of(Differs what) {
  switch (what) {
    case Differs::kept:
      return "kept";
    case Differs::resized:
      return "resized";
    case Differs::moved:
      return "moved";
    case Differs::dropped:
      return "dropped";
    case Differs::failed:
      return "failed";
    case Differs::added:
      return "added";
  }
  return "";
}

std::string difference_text(const Changed& c, const Replanned& of, const Difference& d) {
  words::Values values;
  if (d.before) {
    const ToldBatch& was = (*of.told)[*d.before];
    values.insert_or_assign("before", was.name);
    values.insert_or_assign("before_start", was.start);
    values.insert_or_assign("before_ready", was.ready);
    values.insert_or_assign("before_litres", litres(was.stored_ml));
    values.insert_or_assign("before_vessel", was.vessel);
  }
  if (d.now) {
    const season::Batch& now = of.plan->batches[*d.now];
    values.insert_or_assign("now", now.name);
    values.insert_or_assign("start", now.start());
    values.insert_or_assign("ready", now.ready);
    values.insert_or_assign("litres", litres(now.stored_ml));
    values.insert_or_assign("vessel", c.worked.season.vessels[now.vessel].name);
  }
  std::string key = "change." + std::string(word_of(d.what));
  if (d.what == Differs::resized) {
    const ToldBatch& was = (*of.told)[*d.before];
    const season::Batch& now = of.plan->batches[*d.now];
    if (was.ready == now.ready) key += "-litres";
    if (was.stored_ml == now.stored_ml) key += "-ready";
  }
  return c.worked.words().text(key, values);
}

Json differences_json(const Changed& c) {
  Json list = Json::array();
  for (const Replanned& of : c.all)
    for (const Difference& d : of.differences)
      list.push_back({{"what", word_of(d.what)},
                      {"before", d.before ? Json((*of.told)[*d.before].name) : Json()},
                      {"now", d.now ? Json(of.plan->batches[*d.now].name) : Json()},
                      {"announced", d.now && of.plan->batches[*d.now].announced},
                      {"text", difference_text(c, of, d)}});
  return list;
}

// What is due on another day, or more or less of it.
void add_what_is_due(const Changed& c, std::vector<std::string>& all) {
  std::map<int, std::pair<std::int64_t, std::int64_t>> due;  // before, now
  for (const auto& [day, ml] : c.was.due()) due[day].first = ml;
  for (const season::PlannedUse& use : c.worked.plan.uses)
    if (use.planned && use.due.collect_on)
      due[use.due.collect_on->days()].second += use.due.serum_ml;
  for (const auto& [day, of] : due)
    if (of.first != of.second)
      all.push_back(c.worked.words().text("change.why-due", {{"day", Date::from_days(day)},
                                                             {"before", litres(of.first)},
                                                             {"now", litres(of.second)}}));
}

std::vector<std::string> reasons(const Changed& c) {
  const words::Catalogue& w = c.worked.words();
  std::vector<std::string> all;
  for (const Replanned& of : c.all)
    for (const ToldBatch& batch : *of.told)
      if (batch.failed) all.push_back(w.text("change.why-failed", {{"batch", batch.name}}));
  for (const Date day : c.was.meetings())
    if (day >= c.on && !c.worked.season.meetings.meets(day))
      all.push_back(w.text("change.why-meeting", {{"day", day}}));
  add_what_is_due(c, all);
  return all;
}

sheet::Page change_page(const Changed& c, const std::vector<std::string>& why) {
  const words::Catalogue& w = c.worked.words();
  sheet::Page page("changes", w.text("change.title", {{"season", c.worked.season.name}}));
  std::vector<std::string> kept, changed;
  for (const Replanned& of : c.all)
    for (const Difference& d : of.differences)
      (d.what == Differs::kept ? kept : changed).push_back(difference_text(c, of, d));
  page.text(w.text("change.counts", {{"kept", kept.size()}, {"n", changed.size()}}));
  const auto part = [&](const char* heading, std::vector<std::string> lines) {
    if (lines.empty()) return;
    page.heading(w.text(heading));
    page.list(std::move(lines));
  };
  part("change.why", why);
  part("change.what-changes", std::move(changed));
  part("change.what-stays", std::move(kept));
  for (const season::Shortage& s : c.worked.plan.shortages) page.text(shortage_text(c.worked, s));
  return page;
}

}  // namespace

const Fields& season_change_fields() { return change_fields; }

Result<Answer> season_change(const Session& session, const json& body) {
  Problems problems = check_shape(body, change_fields, "");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const FieldReader r(body, "", session.data.units(), problems);
  const Date on = r.date("on").value_or(session.today);
  const auto asked_until = r.date("announced_until");
  if (asked_until && *asked_until < on)
    r.add("announced-before-change", "announced_until", asked_until->iso(), {{"on", on.iso()}});
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  const Was was(body["was"], r.texts("failed"));
  std::vector<std::vector<ToldBatch>> told;
  const auto read_announced =
      [&](const SoundSeason& sound) -> Result<std::vector<season::Announced>> {
    auto batches = was.batches(session, sound);
    if (!batches) return failure(batches.error());
    told = std::move(*batches);
    const season::Season& season = sound.read.season;
    const Date until = asked_until.value_or(season.meetings.first_from(on).value_or(on));
    std::vector<season::Announced> all;
    if (Problems gone = still_standing(told, 1 + season.preparations.size(), on, until);
        !gone.empty())
      return failure(std::move(gone));
    for (std::size_t i = 0; i <= season.preparations.size(); ++i) {
      const bool own = i == 0;
      auto one =
          season::announced(season, own ? *sound.recipe : *season.preparations[i - 1].recipe,
                            own ? season.serum_life_days : season.preparations[i - 1].keeps_days,
                            plan_rules(session, *sound.recipe), told[i], {on, until});
      if (!one) return failure(one.error());
      all.push_back(std::move(*one));
    }
    return all;
  };
  Answer answer;
  answer.used.note(session.data.constant("change-hours").origin, "change-hours");
  const auto worked = planned(session, body, answer, usual_seasons, read_announced);
  if (!worked) return failure(worked.error());
  Changed changed{*worked, {}, was, on};
  const std::vector<season::Making> made = worked->makings();
  const season::BatchPlan nothing;
  for (std::size_t i = 0; i < told.size(); ++i) {
    const season::BatchPlan& now = i < made.size() ? *made[i].batches : nothing;
    changed.all.push_back({&told[i], &now, season::differences(worked->season, told[i], now)});
  }
  const std::vector<std::string> why = reasons(changed);
  add_plan_fields(*worked, answer);
  answer.fields["changes"] = differences_json(changed);
  answer.fields["why"] = why;
  if (wants_pages(body)) {
    std::vector<sheet::Page> pages{change_page(changed, why)};
    for (sheet::Page& page : plan_pages(*worked)) pages.push_back(std::move(page));
    put_pages(pages, answer);
  }
  return answer;
}

}  // namespace wheyfield::api
