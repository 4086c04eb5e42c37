#include "programme/programme.h"

#include <algorithm>
#include <set>

#include "programme/weekdays.h"

namespace wheyfield::programme {
namespace {

using calendar::Date;
using calendar::Weekday;
using outcome::Problems;

// So many days before a season a lorry may still come; a first start may lie as early.
constexpr int days_before = 120;

// As it is written in a file.
std::string word(Weekday day) {
  std::string name(calendar::weekday_key(day));
  name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

std::string worked_days(const Programme& programme) {
  const auto visits = programme.visits();
  std::string days;
  for (std::size_t d = 0; d < days_a_week; ++d)
    if (visits[d] > 0) days += (days.empty() ? "" : ", ") + word(weekday_at(d));
  return days;
}

void check_fixed(const Programme& programme, const std::set<std::string>& groups,
                 Problems& problems) {
  const auto visits = programme.visits();
  std::array<std::size_t, days_a_week> held{};
  std::set<std::string> told;
  for (std::size_t i = 0; i < programme.fixed.size(); ++i) {
    const FixedDay& fixed = programme.fixed[i];
    const std::string field = "/programme/fixed/" + std::to_string(i);
    if (groups.count(fixed.group) == 0)
      problems.push_back({"fixed-group-unknown", field + "/group", fixed.group, {}});
    if (!told.insert(fixed.group).second)
      problems.push_back({"fixed-group-twice", field + "/group", fixed.group, {}});
    const std::size_t d = day_index(fixed.day);
    if (visits[d] == 0)
      problems.push_back({"fixed-day-without-trainer",
                          field + "/day",
                          word(fixed.day),
                          {{"group", fixed.group}, {"known", worked_days(programme)}}});
    else if (++held[d] == visits[d] + 1)
      problems.push_back({"fixed-day-full",
                          field + "/day",
                          word(fixed.day),
                          {{"visits", std::to_string(visits[d])}}});
  }
}

DayChoice choice_of(const Programme& programme, const std::vector<GroupPlans>& groups,
                    bool with_moves) {
  const auto visits = programme.visits();
  DayChoice choice;
  choice.visits.assign(visits.begin(), visits.end());
  for (const GroupPlans& group : groups) {
    const FixedDay* fixed = programme.fixed_day(group.group);
    auto& worth = choice.worth.emplace_back(days_a_week);
    for (const DayPlan& plan : group.days) {
      const std::size_t d = day_index(plan.weekday);
      if (visits[d] == 0 || (fixed != nullptr && fixed->day != plan.weekday)) continue;
      worth[d] = plan.worth;
      if (!with_moves || plan.weekday == group.now) continue;
      worth[d]->thousandths += programme.worth_moving.thousandths();
      worth[d]->moved = 1;
    }
  }
  return choice;
}

Problems missing_days(const DayChoice& choice, const std::vector<GroupPlans>& groups) {
  Problems problems;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const auto& worth = choice.worth[g];
    const bool some =
        std::any_of(worth.begin(), worth.end(), [](const auto& one) { return one.has_value(); });
    if (!some || groups[g].on(groups[g].now) == nullptr)
      problems.push_back(
          {"group-day-missing", "/groups/" + std::to_string(g) + "/days", groups[g].group, {}});
  }
  return problems;
}

// The groups of a day go to its trainers in their order, as many as each can visit.
void give_trainers(const Programme& programme, ProgrammePlan& plan) {
  for (std::size_t d = 0; d < days_a_week; ++d) {
    std::size_t trainer = 0, visits = 0;
    for (PlacedGroup& placed : plan.groups) {
      if (day_index(placed.day) != d) continue;
      while (!programme.trainers[trainer].works_on(placed.day) ||
             visits == programme.trainers[trainer].visits_a_day) {
        ++trainer;
        visits = 0;
      }
      placed.trainer = trainer;
      ++visits;
    }
  }
}

// A gap above 1 contradicts itself: such a proof is none.
bool proven_least_short(const DayPlan& plan) {
  return plan.proven.least_short && plan.proven.gap <= 1.0;
}

void count_handed_over(const GroupPlans& group, Proof& proof) {
  if (!group.with_solver) return;
  if (!proof.solver) proof.solver = Proof::Solver();
  for (const DayPlan& plan : group.days) {
    if (!plan.handed_over) continue;
    ++proof.solver->handed_over;
    proof.solver->better += plan.handed_over->better ? 1 : 0;
    proof.solver->near += proven_least_short(plan) && plan.proven.gap <= near_best ? 1 : 0;
  }
}

Proof proof_of(const std::vector<GroupPlans>& groups) {
  Proof proof;
  for (const GroupPlans& group : groups) {
    count_handed_over(group, proof);
    for (const DayPlan& plan : group.days) {
      ++proof.plans;
      if (!proven_least_short(plan)) continue;
      ++proof.least_short;
      proof.best += plan.proven.gap <= 0.0 ? 1 : 0;
      proof.within_tenth += plan.proven.gap <= near_best ? 1 : 0;
      proof.within_half += plan.proven.gap <= 0.005 ? 1 : 0;
      proof.worst_gap = std::max(proof.worst_gap, plan.proven.gap);
    }
  }
  return proof;
}

// The days on which the lorry may come; listed ones that lie in no season go to `outside`.
std::vector<Date> lorry_days(const LorryOffer& offer, const std::vector<GroupPlans>& groups,
                             std::vector<Date>& outside) {
  Date first = groups.front().from, last = groups.front().to;
  for (const GroupPlans& group : groups) {
    first = std::min({first, group.from, group.first_start});
    last = std::max(last, group.to);
  }
  std::vector<Date> days;
  for (const Date day : offer.on)
    (day < first - days_before || day > last ? outside : days).push_back(day);
  if (offer.weekday) {
    const Date end = std::min(last, offer.until.value_or(last));
    for (Date day = std::max(first - days_before, offer.from.value_or(first)); day <= end;
         day = day + 1)
      if (day.weekday() == *offer.weekday) days.push_back(day);
  }
  std::stable_sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

void send_lorry(const LorryOffer& offer, const std::vector<GroupPlans>& groups,
                ProgrammePlan& plan) {
  const std::int64_t size = quantity::whole_millilitres(offer.can);
  for (std::size_t g = 0; g < groups.size(); ++g)
    for (const Date day : full_cans(groups[g].on(plan.groups[g].day)->molasses, size))
      plan.cans.push_back({day, g});
  Lorry lorry = offer.terms;
  lorry.may_come = lorry_days(offer, groups, plan.outside);
  plan.deliveries = plan_deliveries(plan.cans, lorry);
}

}  // namespace

bool Trainer::works_on(Weekday day) const {
  return std::find(days.begin(), days.end(), day) != days.end();
}

std::array<std::size_t, days_a_week> Programme::visits() const {
  std::array<std::size_t, days_a_week> sum{};
  for (const Trainer& trainer : trainers)
    for (const Weekday day : trainer.days) sum[day_index(day)] += trainer.visits_a_day;
  return sum;
}

std::size_t Programme::visits_a_week() const {
  std::size_t sum = 0;
  for (const std::size_t day : visits()) sum += day;
  return sum;
}

const FixedDay* Programme::fixed_day(const std::string& group) const {
  for (const FixedDay& one : fixed)
    if (one.group == group) return &one;
  return nullptr;
}

const DayPlan* GroupPlans::on(Weekday day) const {
  for (const DayPlan& plan : days)
    if (plan.weekday == day) return &plan;
  return nullptr;
}

Problems check_visits(const Programme& programme, const std::vector<std::string>& groups) {
  Problems problems;
  if (groups.empty()) problems.push_back({"programme-without-groups", "/groups", "", {}});
  check_fixed(programme, {groups.begin(), groups.end()}, problems);
  const std::size_t visits = programme.visits_a_week();
  if (groups.size() > visits)
    problems.push_back({"visits-too-few",
                        "/programme/trainers",
                        "",
                        {{"groups", std::to_string(groups.size())},
                         {"visits", std::to_string(visits)},
                         {"n", std::to_string(groups.size() - visits)}}});
  return problems;
}

outcome::Result<ProgrammePlan> plan_programme(const Programme& programme,
                                              const std::vector<GroupPlans>& groups) {
  std::vector<std::string> names;
  for (const GroupPlans& group : groups) names.push_back(group.group);
  if (Problems problems = check_visits(programme, names); !problems.empty())
    return outcome::failure(std::move(problems));
  const DayChoice choice = choice_of(programme, groups, true);
  if (Problems problems = missing_days(choice, groups); !problems.empty())
    return outcome::failure(std::move(problems));
  const auto chosen = choose_days(choice);
  if (!chosen) return outcome::failure({"group-day-missing", "/groups", "", {}});
  ProgrammePlan plan;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const Weekday day = weekday_at(chosen->day[g]);
    plan.groups.push_back({day, 0, programme.fixed_day(groups[g].group) != nullptr});
    plan.now += groups[g].on(groups[g].now)->worth;
    plan.proposed += groups[g].on(day)->worth;
    plan.proposed.moved += day != groups[g].now ? 1 : 0;
  }
  plan.own_best = own_best_days(choice_of(programme, groups, false)).total;
  plan.proof = proof_of(groups);
  give_trainers(programme, plan);
  if (programme.lorry) send_lorry(*programme.lorry, groups, plan);
  return plan;
}

}  // namespace wheyfield::programme
