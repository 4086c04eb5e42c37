#include "season/meetings.h"

#include <algorithm>
#include <map>

#include "recipe/scale.h"
#include "season/harvest_wait.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

bool is_absent(const Season& season, const std::string& farm, Date day) {
  return std::any_of(season.absences.begin(), season.absences.end(),
                     [&](const Absence& a) { return a.farm == farm && a.on == day; });
}

// Notes the last day of a use that is over before the next meeting.
void send_by(const Season& season, Date day, Date last, Share& share) {
  const auto next = season.meetings.first_from(day + 1);
  if (next && *next <= last) return;
  share.send_by = share.send_by ? std::min(*share.send_by, last) : last;
}

using Shares = std::map<std::size_t, Share>;

std::map<int, Shares> shares_by_day(const Season& season, const SeasonPlan& plan,
                                    const dosing::HarvestRule& harvest) {
  std::map<int, Shares> by_day;
  for (const PlannedUse& use : plan.uses) {
    if (!use.planned || !use.due.collect_on) continue;
    const Date day = *use.due.collect_on;
    Share& share = by_day[day.days()][use.due.farm];
    share.farm = use.due.farm;
    const std::int64_t ml = use.due.serum_ml - use.short_ml;
    if (use.due.hand_out == HandOut::by_seed)
      share.by_seed.push_back({use.due.field, use.due.per_kg, ml});
    else
      share.serum_ml += ml;
    share.short_ml += use.short_ml;
    share.absent = is_absent(season, season.farms[use.due.farm].code, day);
    if (share.absent) send_by(season, day, use.due.use.window.late, share);
    if (const auto wait = harvest_wait(season, use.due, harvest))
      share.picking.push_back({use.due.field, wait->pick_from});
    const std::string& event = use.due.use.event;
    if (std::find(share.uses.begin(), share.uses.end(), event) == share.uses.end())
      share.uses.push_back(event);
  }
  return by_day;
}

// Each input of a batch, at the last meeting up to the day that takes it.
void bring_for(const Season& season, const Making& making, std::size_t index,
               std::map<int, std::vector<Bring>>& by_day) {
  const Batch& batch = making.batches->batches[index];
  const recipe::Scaled scaled =
      recipe::scale(*making.recipe, static_cast<double>(batch.stored_ml) / 1000.0);
  for (const BatchStep& step : batch.steps) {
    const auto meeting = season.meetings.last_up_to(step.from);
    if (!meeting) continue;
    for (const recipe::ScaledFlow& flow : scaled.steps[step.step].takes) {
      const recipe::Material& material = *making.recipe->material(flow.material);
      if (!material.bought && !(material.role == recipe::Role::input && material.unit == "kg"))
        continue;
      const MilkRule* rule = material.id == "milk" ? season.milk_on(step.from) : nullptr;
      const Money price = rule ? rule->price : Money();
      by_day[meeting->days()].push_back({material.id, flow.amount, material.unit, price,
                                         price.times(flow.amount), index, making.preparation,
                                         !material.bought, step.from});
    }
  }
}

std::map<int, std::vector<Bring>> brings_by_day(const Season& season, const recipe::Recipe& recipe,
                                                const SeasonPlan& plan) {
  std::map<int, std::vector<Bring>> by_day;
  for (const Making& making : makings(season, recipe, plan))
    for (std::size_t i = 0; i < making.batches->batches.size(); ++i)
      bring_for(season, making, i, by_day);
  return by_day;
}

}  // namespace

std::vector<Meeting> meetings(const Season& season, const recipe::Recipe& recipe,
                              const SeasonPlan& plan, const dosing::HarvestRule& harvest) {
  std::map<int, Shares> by_day = shares_by_day(season, plan, harvest);
  std::map<int, std::vector<Bring>> brings = brings_by_day(season, recipe, plan);
  std::map<int, std::vector<std::size_t>> work;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) work[plan.tasks[i].date.days()].push_back(i);
  std::vector<Meeting> all;
  if (work.empty()) return all;
  int first = work.begin()->first;
  if (!brings.empty()) first = std::min(first, brings.begin()->first);
  const Date last = std::min(season.to, Date::from_days(work.rbegin()->first));
  for (auto day = season.meetings.first_from(Date::from_days(first)); day && *day <= last;
       day = season.meetings.first_from(*day + 1)) {
    Meeting meeting{*day, {}, work[day->days()], std::move(brings[day->days()]), {}, {}};
    for (const Bring& bring : meeting.bring) meeting.milk_money += bring.cost;
    for (auto& [farm, share] : by_day[day->days()]) meeting.shares.push_back(share);
    for (const Farm& farm : season.farms)
      if (is_absent(season, farm.code, *day)) meeting.absent.push_back(farm.code);
    all.push_back(std::move(meeting));
  }
  return all;
}

}  // namespace wheyfield::season
