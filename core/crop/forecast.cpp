#include "crop/forecast.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace wheyfield::crop {
namespace {

using calendar::Date;
using calendar::exactly;
using calendar::Window;
using outcome::Problem;
using outcome::Problems;
using outcome::Result;
using outcome::Severity;
using reference_data::ReferenceData;
using reference_data::UsedSources;

// What was seen comes after planting and in the order in which crops do things.
std::optional<Problem> out_of_order(const Planting& p, const Seen& seen) {
  std::optional<Date> before;
  if (!p.crop->established) before = p.set_out;
  const char* code = "observation-before-planting";
  for (const auto& [field, day] : {std::pair{"/seen/emerged", seen.emerged},
                                   {"/seen/fourth", seen.fourth},
                                   {"/seen/fifth", seen.fifth}}) {
    if (!day) continue;
    if (before && *day < *before)
      return Problem{code, field, day->iso(), {{"limit", before->iso()}}};
    before = day;
    code = "observation-out-of-order";
  }
  return std::nullopt;
}

// The day of a sighting and its pace; a field of the problems says which sighting.
struct Sighting {
  const char* field;
  std::optional<Date>& day;
  std::optional<double> pace;

  // What was asked for because it comes early is not doubted for it.
  bool further_off_than(double limit, const Planting& p) const {
    if (!day || !pace || within(*pace, limit)) return false;
    return !(p.crop->shifts_only && *pace > 0.0 && *pace < 1.0);
  }
  Problem question(const char* code) const {
    return {code, field, day->iso(), {}, Severity::question};
  }
};

std::array<Sighting, 2> sightings(const Course& course, Seen& seen) {
  return {{{"/seen/fourth", seen.fourth, course.fourth_pace},
           {"/seen/fifth", seen.fifth, course.fifth_pace}}};
}

// Takes out of `seen` what lies too far from the forecast to be believed, and says so.
Problems set_aside(const Course& course, const Planting& p, const ReferenceData& data, Seen& seen) {
  Problems aside;
  for (const Sighting& sighting : sightings(course, seen))
    if (sighting.further_off_than(data.constant("pace-limit").value, p)) {
      aside.push_back(sighting.question("observation-unbelievable"));
      sighting.day.reset();
    }
  return aside;
}

// What is counted, but lies far enough from the forecast to ask about it.
Problems far_off(const Course& course, const Planting& p, const ReferenceData& data, Seen& seen) {
  Problems asked;
  for (const Sighting& sighting : sightings(course, seen))
    if (sighting.further_off_than(data.constant("pace-question").value, p))
      asked.push_back(sighting.question("observation-far-off"));
  return asked;
}

// Does the warmth of the row ripen another variety than hers?
void doubt_variety(const RoadTaken& taken, const Planting& p, const ReferenceData& data,
                   UsedSources& used, Problems& notes) {
  if (taken.road != Road::degree_days || !taken.course.harvest || p.harvest_after <= 0) return;
  const reference_data::Sourced& share = data.constant("variety-question");
  const int days = taken.course.harvest->likely - p.set_out;
  if (std::abs(days - p.harvest_after) <= share.value * p.harvest_after) return;
  used.note(share.origin, "variety-question");
  notes.push_back({"thermal-other-variety",
                   "/planting/harvest_after",
                   std::to_string(p.harvest_after),
                   {{"days", std::to_string(days)}},
                   Severity::notice});
}

// The day the seed goes into the ground; about four weeks before planting out when not known.
Window seed_sown(const Planting& p, const ReferenceData& data, UsedSources& used, Problems& notes) {
  if (p.start != Start::nursery) return exactly(p.set_out);
  if (p.nursery) return exactly(*p.nursery);
  const reference_data::Sourced& days = data.constant("nursery-days");
  used.note(days.origin, "nursery-days");
  const auto before = [&](double d) { return p.set_out - static_cast<int>(d); };
  const Date likely = before(days.value);
  notes.push_back({"nursery-day-assumed", "/planting/nursery", likely.iso(), {}, Severity::notice});
  return {before(days.high), likely, before(days.low)};
}

std::vector<Use> uses_along(const Course& course, const Planting& p, const CropTable& table,
                            const ReferenceData& data, UsedSources& used, Problems& notes) {
  std::vector<Use> uses;
  CalendarClock days;
  for (const UseRule& rule : table.rules()) {
    if (!applies(rule, p)) continue;
    Window window;
    if (rule.anchor == "emerged")
      window = course.seedling;
    else if (rule.anchor == "stage")
      window = course.fourth;
    else if (rule.anchor == "use:flowering")
      window = course.fifth;
    else
      window = days.after(
          rule.anchor == "seed-sown" ? seed_sown(p, data, used, notes) : exactly(p.set_out),
          {rule.early, rule.likely, rule.late});
    const bool nursery_soak = rule.id == "seed-soak" && p.start == Start::nursery;
    uses.push_back(
        {rule.id, rule.id == "flowering" ? p.crop->fourth : rule.id, window, !nursery_soak});
    used.note(rule.origin, "use." + rule.id);
  }
  std::stable_sort(uses.begin(), uses.end(),
                   [](const Use& a, const Use& b) { return a.window.likely < b.window.likely; });
  return uses;
}

}  // namespace

Forecaster::Forecaster(const CropTable& table, const ReferenceData& data,
                       const weather::DailySeries* temperatures)
    : table_(table), data_(data) {
  if (!temperatures) return;
  temperatures_ = temperatures->origin;
  for (const ThermalRow& row : table.thermal()) sums_.emplace_back(row, *temperatures);
}

Result<Forecast> Forecaster::forecast(const FieldAsk& ask, UsedSources& used) const {
  Planting p = ask.planting;
  Seen seen = ask.seen;
  Forecast forecast;
  if (seen.planted) p.set_out = *seen.planted;
  if (seen.emerged && (p.start == Start::nursery || p.crop->established)) {
    forecast.notes.push_back(
        {"emergence-not-used", "/seen/emerged", seen.emerged->iso(), {}, Severity::notice});
    seen.emerged.reset();
  }
  if (auto problem = out_of_order(p, seen)) return outcome::failure(*problem);

  Ground ground{table_, data_, nullptr, nullptr, temperatures_};
  for (std::size_t i = 0; i < table_.thermal().size(); ++i)
    if (table_.thermal()[i].crop == p.crop->id) {
      ground.row = &table_.thermal()[i];
      if (temperatures_) ground.sums = &sums_[i];
    }
  UsedSources counted;
  auto taken = take_road(ground, p, seen, ask.own_days_to_fourth, counted);
  if (!taken) return outcome::failure(taken.error());
  if (seen.fourth || seen.fifth)
    for (const char* limit : {"pace-question", "pace-limit"})
      used.note(data_.constant(limit).origin, limit);
  // Without it the road, and with it the pace of the other sighting, may be another.
  for (Problems aside; !(aside = set_aside(taken->course, p, data_, seen)).empty();) {
    outcome::append(forecast.notes, std::move(aside));
    counted = UsedSources();
    taken = take_road(ground, p, seen, ask.own_days_to_fourth, counted);
    if (!taken) return outcome::failure(taken.error());
  }
  used.add(counted);

  forecast.road = taken->road;
  forecast.why = taken->why;
  outcome::append(forecast.notes, taken->notes);
  forecast.harvest = taken->course.harvest;
  forecast.pace = taken->course.pace;
  if (taken->road == Road::degree_days) {
    forecast.temperatures = temperatures_;
    if (!ground.row->remark.empty())
      forecast.notes.push_back(
          {ground.row->remark, "/planting/crop", p.crop->id, {}, Severity::notice});
  }
  if (p.crop->shifts_only && (seen.fourth || seen.fifth)) {
    used.note(*p.crop->shifts_only, "crop." + p.crop->id);
    forecast.notes.push_back(
        {"sighting-only-shifts", "/planting/crop", p.crop->id, {}, Severity::notice});
  } else if (taken->road == Road::degree_days || taken->road == Road::calendar) {
    for (const std::string& code : p.crop->notes)
      forecast.notes.push_back({code, "/planting/crop", p.crop->id, {}, Severity::notice});
  }
  if (seen.fourth || seen.fifth)
    outcome::append(forecast.notes, far_off(taken->course, p, data_, seen));
  else
    doubt_variety(*taken, p, data_, used, forecast.notes);
  forecast.uses = uses_along(taken->course, p, table_, data_, used, forecast.notes);
  return forecast;
}

}  // namespace wheyfield::crop
