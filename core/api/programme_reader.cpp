#include "api/programme_reader.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "api/field_reader.h"
#include "quantity/quantity.h"

namespace wheyfield::api {
namespace {

using calendar::Weekday;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using programme::Programme;
using programme::Trainer;

const json& member(const json& object, const char* name) {
  static const json none;
  const auto found = object.find(name);
  return found == object.end() ? none : *found;
}

// A count of at least one, or `otherwise` where none was written.
std::size_t at_least_one(const FieldReader& r, const char* name, std::size_t otherwise) {
  const auto read = r.count(name);
  if (!read) return otherwise;
  if (*read == 0) r.add("programme-zero", name, *r.text(name));
  return static_cast<std::size_t>(*read);
}

class ProgrammeReader {
 public:
  ProgrammeReader(const Session& session, const json& body)
      : session_(session), body_(body), units_(session.data.units()) {}

  Result<Programme> read(reference_data::UsedSources& used) {
    head();
    trainers(used);
    fixed();
    if (body_.contains("lorry")) lorry();
    if (!problems_.empty()) return failure(problems_);
    return std::move(read_);
  }

 private:
  FieldReader reader(const json& object, const std::string& pointer) {
    return FieldReader(object, "/programme" + pointer, units_, problems_);
  }

  void head() {
    const FieldReader r = reader(body_["programme"], "/programme");
    read_.name = r.text("name").value_or("");
    read_.worth_moving = r.money("worth_moving").value_or(quantity::Money());
    if (read_.worth_moving < quantity::Money())
      r.add("below-zero", "worth_moving", *r.text("worth_moving"));
  }

  void trainers(reference_data::UsedSources& used) {
    const reference_data::Sourced& usual = session_.data.constant("visits-a-day");
    const json& list = body_["trainers"];
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string pointer = "/trainers/" + std::to_string(i);
      const FieldReader r = reader(list[i], pointer);
      Trainer trainer;
      trainer.name = r.text("name").value_or("");
      if (std::any_of(read_.trainers.begin(), read_.trainers.end(),
                      [&](const Trainer& other) { return other.name == trainer.name; }))
        r.add("trainer-twice", "name", trainer.name);
      trainer.days = read_weekdays(list[i], "days", "/programme" + pointer, problems_);
      if (list[i]["days"].empty()) r.add("trainer-without-days", "days", trainer.name);
      trainer.visits_a_day = at_least_one(r, "visits_a_day", static_cast<std::size_t>(usual.value));
      if (!r.given("visits_a_day")) used.note(usual.origin, "visits-a-day");
      read_.trainers.push_back(std::move(trainer));
    }
    if (list.empty())
      problems_.push_back({"programme-without-trainers", "/programme/trainers", "", {}});
  }

  void fixed() {
    const json& list = member(body_, "fixed");
    for (std::size_t i = 0; i < list.size(); ++i) {
      const FieldReader r = reader(list[i], "/fixed/" + std::to_string(i));
      const auto group = r.text("group");
      const auto day = r.weekday("day");
      if (group && day) read_.fixed.push_back({*group, *day});
    }
  }

  void lorry() {
    const FieldReader r = reader(body_["lorry"], "/lorry");
    programme::LorryOffer offer;
    offer.terms.trip = above_zero(r, "trip");
    offer.terms.holds = at_least_one(r, "holds", 0);
    offer.terms.trips_a_day = at_least_one(r, "trips_a_day", 1);
    offer.terms.keeping_week = r.money("keeping").value_or(quantity::Money());
    if (offer.terms.keeping_week < quantity::Money())
      r.add("below-zero", "keeping", *r.text("keeping"));
    offer.can = r.volume("can").value_or(quantity::Volume());
    offer.weekday = r.weekday("day");
    offer.on = r.dates("on");
    offer.from = r.date("from");
    offer.until = r.date("until");
    if (offer.from && offer.until && *offer.until < *offer.from)
      r.add("lorry-dates-order", "until", offer.until->iso(), {{"limit", offer.from->iso()}});
    if (!r.given("day") && !r.given("on")) r.add("lorry-without-days", "day", "");
    read_.lorry = std::move(offer);
  }

  quantity::Money above_zero(const FieldReader& r, const char* name) {
    const auto money = r.money(name);
    if (money && !(quantity::Money() < *money)) r.add("programme-zero", name, *r.text(name));
    return money.value_or(quantity::Money());
  }

  const Session& session_;
  const json& body_;
  const quantity::UnitTable& units_;
  Programme read_;
  Problems problems_;
};

// The answer of programme.group, read back: numbers stay JSON numbers, for 1.234 as text could be a
// thousand.
class PlansReader {
 public:
  PlansReader(const Session& session, Problems& problems)
      : units_(session.data.units()), problems_(problems) {}

  programme::GroupPlans read(const json& row, const std::string& pointer) {
    const FieldReader r(row, pointer, units_, problems_);
    programme::GroupPlans group;
    group.group = r.text("group").value_or("");
    group.season = r.text("season").value_or("");
    group.currency = r.text("currency").value_or("");
    group.from = r.date("from").value_or(calendar::Date());
    group.to = r.date("to").value_or(calendar::Date());
    group.first_start = r.date("first_start").value_or(calendar::Date());
    group.farms = static_cast<std::size_t>(whole(row, pointer, "farms"));
    group.fields = static_cast<std::size_t>(whole(row, pointer, "fields"));
    group.acres = number(row, pointer, "acres");
    group.now = r.weekday("now").value_or(Weekday::monday);
    group.with_solver = r.flag("with_solver");
    const json& days = row["days"];
    for (std::size_t i = 0; i < days.size(); ++i)
      group.days.push_back(day(days[i], pointer + "/days/" + std::to_string(i)));
    return group;
  }

 private:
  programme::DayPlan day(const json& row, const std::string& pointer) {
    const FieldReader r(row, pointer, units_, problems_);
    programme::DayPlan plan;
    plan.weekday = r.weekday("day").value_or(Weekday::monday);
    plan.proven.cost = quantity::Money::from_amount(number(row, pointer, "cost"));
    plan.proven.bound = quantity::Money::from_amount(number(row, pointer, "bound"));
    plan.proven.gap = number(row, pointer, "gap");
    plan.proven.least_short = r.flag("least_short");
    plan.worth = {whole(row, pointer, "short_ml"), whole(row, pointer, "guess_ml"),
                  plan.proven.cost.thousandths(), 0};
    plan.batches = static_cast<int>(whole(row, pointer, "batches"));
    plan.first_start = r.date("first_start");
    plan.made_ml = whole(row, pointer, "made_ml");
    if (r.given("handed_over")) {
      const json& before = row["handed_over"];
      const std::string at = pointer + "/handed_over";
      const FieldReader b(before, at, units_, problems_);
      plan.handed_over = {number(before, at, "gap"), b.flag("least_short"), b.flag("better")};
    }
    const json& needs = row["needs"];
    for (std::size_t i = 0; i < needs.size(); ++i) {
      const std::string at = pointer + "/needs/" + std::to_string(i);
      const FieldReader n(needs[i], at, units_, problems_);
      plan.needs.push_back({n.text("item").value_or(""), n.text("unit").value_or(""),
                            number(needs[i], at, "amount"), number(needs[i], at, "in_hand")});
    }
    const json& molasses = row["molasses"];
    for (std::size_t i = 0; i < molasses.size(); ++i) {
      const std::string at = pointer + "/molasses/" + std::to_string(i);
      const FieldReader n(molasses[i], at, units_, problems_);
      if (const auto on = n.date("on"))
        plan.molasses.push_back({*on, whole(molasses[i], at, "ml")});
    }
    return plan;
  }

  double number(const json& row, const std::string& pointer, const char* name) {
    constexpr double most = 1e12;  // whole thousandths and millilitres stay exact below
    const json& value = row[name];
    if (value.is_number() && value >= 0 && value <= most) return value.get<double>();
    problems_.push_back({"wrong-shape", pointer + "/" + name, value.dump(), {{"shape", "number"}}});
    return 0.0;
  }

  std::int64_t whole(const json& row, const std::string& pointer, const char* name) {
    return std::llround(number(row, pointer, name));
  }

  const quantity::UnitTable& units_;
  Problems& problems_;
};

Json day_json(const programme::DayPlan& plan) {
  Json needs = Json::array();
  for (const programme::GroupNeed& need : plan.needs)
    needs.push_back({{"item", need.item},
                     {"unit", need.unit},
                     {"amount", quantity::rounded(need.amount, 6)},
                     {"in_hand", quantity::rounded(need.in_hand, 6)}});
  Json molasses = Json::array();
  for (const programme::DatedNeed& need : plan.molasses)
    molasses.push_back({{"on", need.on.iso()}, {"ml", need.ml}});
  Json row = {{"day", calendar::weekday_key(plan.weekday)},
              {"cost", plan.proven.cost.amount()},
              {"bound", plan.proven.bound.amount()},
              {"gap", quantity::rounded(plan.proven.gap, 9)},
              {"least_short", plan.proven.least_short},
              {"short_ml", plan.worth.short_ml},
              {"guess_ml", plan.worth.guess_ml},
              {"batches", plan.batches},
              {"first_start", plan.first_start ? Json(plan.first_start->iso()) : Json()},
              {"made_ml", plan.made_ml},
              {"needs", std::move(needs)},
              {"molasses", std::move(molasses)}};
  if (plan.handed_over)
    row["handed_over"] = {{"gap", quantity::rounded(plan.handed_over->gap, 9)},
                          {"least_short", plan.handed_over->least_short},
                          {"better", plan.handed_over->better}};
  return row;
}

}  // namespace

Result<Programme> read_programme(const Session& session, const json& body,
                                 reference_data::UsedSources& used) {
  return ProgrammeReader(session, body["programme"]).read(used);
}

std::vector<Weekday> read_weekdays(const json& object, const char* name, const std::string& pointer,
                                   Problems& problems) {
  std::vector<Weekday> days;
  const json& list = member(object, name);
  for (std::size_t i = 0; i < list.size(); ++i) {
    const auto day = calendar::parse_weekday(list[i].get<std::string>());
    if (day)
      days.push_back(*day);
    else
      problems.push_back({"weekday-unknown",
                          pointer + "/" + name + "/" + std::to_string(i),
                          list[i].get<std::string>(),
                          {}});
  }
  std::stable_sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

Problems other_currencies(const std::vector<std::string>& groups,
                          const std::vector<std::string>& currencies,
                          const std::function<std::string(std::size_t)>& pointer) {
  Problems problems;
  std::optional<std::size_t> first;
  for (std::size_t i = 0; i < currencies.size(); ++i) {
    if (currencies[i].empty()) continue;
    if (!first) first = i;
    if (currencies[i] == currencies[*first]) continue;
    problems.push_back(
        {"group-currency",
         pointer(i),
         currencies[i],
         {{"group", groups[i]}, {"other", currencies[*first]}, {"first", groups[*first]}}});
  }
  return problems;
}

Result<std::vector<programme::GroupPlans>> read_group_plans(const Session& session,
                                                            const json& body) {
  Problems problems;
  PlansReader reader(session, problems);
  std::vector<programme::GroupPlans> groups;
  std::vector<std::string> names, currencies;
  const json& list = body["groups"];
  for (std::size_t i = 0; i < list.size(); ++i) {
    groups.push_back(reader.read(list[i], "/groups/" + std::to_string(i)));
    names.push_back(groups.back().group);
    currencies.push_back(groups.back().currency);
  }
  outcome::append(problems, other_currencies(names, currencies, [](std::size_t i) {
                    return "/groups/" + std::to_string(i) + "/currency";
                  }));
  if (!problems.empty()) return failure(problems);
  return groups;
}

Json group_plans_json(const programme::GroupPlans& group) {
  Json days = Json::array();
  for (const programme::DayPlan& plan : group.days) days.push_back(day_json(plan));
  Json row = {{"group", group.group},
              {"season", group.season},
              {"currency", group.currency},
              {"from", group.from.iso()},
              {"to", group.to.iso()},
              {"first_start", group.first_start.iso()},
              {"farms", group.farms},
              {"fields", group.fields},
              {"acres", quantity::rounded(group.acres, 6)},
              {"now", calendar::weekday_key(group.now)},
              {"days", std::move(days)}};
  if (group.with_solver) row["with_solver"] = true;
  return row;
}

}  // namespace wheyfield::api
