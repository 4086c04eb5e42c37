// What is asked for a programme: whether trainers and groups fit (programme.check), one group on
// each weekday (programme.group), and from all of these the choice of days and the lorry's trips
// (programme.assign). The host goes through the groups, as many at a time as it likes.
#include <algorithm>

#include "api/fields.h"
#include "api/plan_answer.h"
#include "api/programme_answer.h"
#include "api/programme_fields.h"
#include "api/programme_reader.h"
#include "api/session.h"
#include "quantity/quantity.h"

namespace wheyfield::api {
namespace {

using calendar::Weekday;
using nlohmann::json;
using outcome::failure;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;
using quantity::rounded;

// The host's solver where the method asks for it, else null.
Result<const lot_sizing::MipSolver*> solver_asked(const Session& session, const json& body) {
  const auto method = body.find("method");
  if (method == body.end() || *method != "exact") return nullptr;
  if (session.solver == nullptr) return failure({"plan-method-not-here", "/method", "exact", {}});
  return session.solver;
}

Json weekday_json(Weekday day) { return calendar::weekday_key(day); }

// Names the group that was perhaps meant.
Problems with_suggestions(Problems problems, const std::vector<std::string>& groups) {
  for (outcome::Problem& problem : problems)
    if (problem.code == "fixed-group-unknown")
      problem.details["suggestion"] = nearest(problem.value, groups);
  return problems;
}

Json worth_json(const programme::Worth& worth) {
  return {{"cost", quantity::Money::from_thousandths(worth.thousandths).amount()},
          {"short_ml", worth.short_ml},
          {"guess_ml", worth.guess_ml}};
}

Json needs_json(const std::vector<programme::GroupNeed>& needs) {
  Json list = Json::array();
  for (const programme::GroupNeed& need : needs)
    list.push_back({{"item", need.item},
                    {"unit", need.unit},
                    {"amount", rounded(need.amount, 6)},
                    {"in_hand", rounded(need.in_hand, 6)}});
  return list;
}

Json placed_json(const WorkedProgramme& w, std::size_t g) {
  const programme::GroupPlans& group = w.groups[g];
  const programme::PlacedGroup& placed = w.plan.groups[g];
  const programme::DayPlan& plan = w.proposed(g);
  return {{"group", group.group},
          {"season", group.season},
          {"farms", group.farms},
          {"fields", group.fields},
          {"acres", rounded(group.acres, 6)},
          {"now", weekday_json(group.now)},
          {"proposed", weekday_json(placed.day)},
          {"fixed", placed.fixed},
          {"trainer", w.programme.trainers[placed.trainer].name},
          {"worth_now", worth_json(w.now(g).worth)},
          {"worth", worth_json(plan.worth)},
          {"batches", plan.batches},
          {"first_start", plan.first_start ? Json(plan.first_start->iso()) : Json()},
          {"made_ml", plan.made_ml},
          {"needs", needs_json(plan.needs)}};
}

Json proof_json(const programme::Proof& proof) {
  Json row = {{"plans", proof.plans},
              {"least_short", proof.least_short},
              {"best", proof.best},
              {"within_0_1_percent", proof.within_tenth},
              {"within_0_5_percent", proof.within_half},
              {"worst_gap", rounded(proof.worst_gap, 9)}};
  if (proof.solver)
    row["solver"] = {{"handed_over", proof.solver->handed_over},
                     {"better", proof.solver->better},
                     {"within_0_1_percent", proof.solver->near}};
  return row;
}

Json cans_json(const WorkedProgramme& w, const std::vector<std::size_t>& cans) {
  Json list = Json::array();
  for (const GroupCans& one : cans_by_group(w, cans))
    list.push_back(
        {{"group", w.groups[one.group].group}, {"cans", one.cans}, {"needed", one.needed.iso()}});
  return list;
}

Json lorry_json(const WorkedProgramme& w) {
  const programme::Deliveries& deliveries = *w.plan.deliveries;
  Json trips = Json::array();
  for (const programme::Trip& trip : deliveries.trips)
    trips.push_back(
        {{"on", trip.on.iso()}, {"cans", trip.cans.size()}, {"groups", cans_json(w, trip.cans)}});
  return {{"can_l", rounded(quantity::in_litres(w.programme.lorry->can), 6)},
          {"cans", w.plan.cans.size()},
          {"trips", std::move(trips)},
          {"not_brought", cans_json(w, deliveries.not_brought)},
          {"trips_cost", deliveries.trips_cost.amount()},
          {"keeping_cost", deliveries.keeping_cost.amount()},
          {"can_days", deliveries.can_days}};
}

void add_fields(const WorkedProgramme& w, Json& fields) {
  fields["programme"] = w.programme.name;
  fields["currency"] = w.groups.front().currency;
  Json groups = Json::array();
  for (std::size_t g = 0; g < w.groups.size(); ++g) groups.push_back(placed_json(w, g));
  fields["groups"] = std::move(groups);
  fields["totals"] = {{"now", worth_json(w.plan.now)},
                      {"proposed", worth_json(w.plan.proposed)},
                      {"own_best", worth_json(w.plan.own_best)},
                      {"moved", w.plan.proposed.moved}};
  fields["proof"] = proof_json(w.plan.proof);
  fields["needs"] = needs_json(summed_needs(w));
  Json weeks = Json::array();
  for (const WeekNeed& week : molasses_weeks(w))
    weeks.push_back({{"week", week.monday.iso()}, {"ml", week.ml}});
  fields["molasses"] = std::move(weeks);
  fields["lorry"] = w.plan.deliveries ? lorry_json(w) : Json();
  fields["not_planned"] = w.not_planned;
}

// What a person must decide although the plan stands.
void ask(const WorkedProgramme& w, Problems& problems) {
  std::size_t groups = 0;
  for (std::size_t g = 0; g < w.groups.size(); ++g)
    groups += w.proposed(g).worth.short_ml + w.proposed(g).worth.guess_ml > 0 ? 1 : 0;
  const auto litres = [&](std::int64_t ml) {
    return w.words().number({static_cast<double>(ml) / 1000.0, 2});
  };
  if (groups > 0)
    problems.push_back({"programme-short",
                        "",
                        "",
                        {{"n", std::to_string(groups)},
                         {"litres", litres(w.plan.proposed.short_ml + w.plan.proposed.guess_ml)}},
                        Severity::question});
  for (const calendar::Date day : w.plan.outside)
    problems.push_back({"lorry-day-outside", "/programme/lorry/on", day.iso(), {}});
  if (w.plan.deliveries && !w.plan.deliveries->not_brought.empty())
    problems.push_back({"lorry-too-late",
                        "/programme/lorry",
                        "",
                        {{"n", std::to_string(w.plan.deliveries->not_brought.size())},
                         {"cans", std::to_string(w.plan.cans.size())}},
                        Severity::question});
}

std::vector<std::string> texts(const json& body, const char* name) {
  const auto found = body.find(name);
  return found == body.end() ? std::vector<std::string>() : found->get<std::vector<std::string>>();
}

}  // namespace

Result<Answer> programme_check(const Session& session, const json& body) {
  if (Problems problems = check_shape(body, programme_check_fields(), "");
      outcome::has_errors(problems))
    return failure(std::move(problems));
  Answer answer;
  const auto programme = read_programme(session, body, answer.used);
  if (!programme) return failure(programme.error());
  const std::vector<std::string> groups = texts(body, "groups");
  std::vector<std::string> currencies = texts(body, "currencies");
  currencies.resize(groups.size());
  if (Problems problems = other_currencies(
          groups, currencies, [](std::size_t i) { return "/currencies/" + std::to_string(i); });
      !problems.empty())
    return failure(std::move(problems));
  if (Problems problems = with_suggestions(programme::check_visits(*programme, groups), groups);
      !problems.empty())
    return failure(std::move(problems));
  Json days = Json::array();
  const auto visits = programme->visits();
  for (std::size_t d = 0; d < visits.size(); ++d)
    if (visits[d] > 0) days.push_back(weekday_json(programme::weekday_at(d)));
  answer.fields["days"] = std::move(days);
  answer.fields["visits"] = programme->visits_a_week();
  answer.fields["groups"] = groups.size();
  return answer;
}

Result<Answer> programme_group(const Session& session, const json& body) {
  Problems problems = check_shape(body, programme_group_fields(), "");
  if (outcome::has_errors(problems)) return failure(std::move(problems));
  std::vector<Weekday> days = read_weekdays(body, "days", "", problems);
  if (!problems.empty()) return failure(std::move(problems));
  const auto solver = solver_asked(session, body);
  if (!solver) return failure(solver.error());
  auto sound = sound_season(session, body);
  if (!sound) return failure(sound.error());
  Answer answer;
  answer.used = sound->read.used;
  const season::Season& season = sound->read.season;
  const Weekday now = season.meetings.weekday;
  days.insert(std::lower_bound(days.begin(), days.end(), now), now);
  days.erase(std::unique(days.begin(), days.end()), days.end());
  programme::GroupPlans group{body["group"].get<std::string>(),
                              season.name,
                              season.currency,
                              season.from,
                              season.to,
                              season.first_start,
                              season.farms.size(),
                              season.fields(),
                              quantity::in_acres(season.area()),
                              now,
                              {},
                              *solver != nullptr};
  const season::PlanRules rules = plan_rules(session, *sound->recipe);
  for (const Weekday day : days) {
    auto plan = programme::plan_meeting_on(day, season, *sound->recipe, session.crops, session.data,
                                           rules, answer.used, *solver);
    if (!plan) return failure(plan.error());
    group.days.push_back(std::move(*plan));
  }
  answer.fields["group"] = group_plans_json(group);
  return answer;
}

Result<Answer> programme_assign(const Session& session, const json& body) {
  if (Problems problems = check_shape(body, programme_assign_fields(), "");
      outcome::has_errors(problems))
    return failure(std::move(problems));
  Answer answer;
  auto programme = read_programme(session, body, answer.used);
  if (!programme) return failure(programme.error());
  auto groups = read_group_plans(session, body);
  if (!groups) return failure(groups.error());
  auto plan = programme::plan_programme(*programme, *groups);
  if (!plan) return failure(with_suggestions(plan.error(), {}));
  const WorkedProgramme worked{session, std::move(*programme), std::move(*groups), std::move(*plan),
                               texts(body, "not_planned")};
  add_fields(worked, answer.fields);
  ask(worked, answer.problems);
  if (wants_pages(body)) {
    Json pages = Json::array();
    for (const sheet::Page& page : programme_pages(worked)) pages.push_back(sheet::to_json(page));
    answer.fields["pages"] = std::move(pages);
  }
  return answer;
}

}  // namespace wheyfield::api
