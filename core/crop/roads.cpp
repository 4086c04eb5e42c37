#include "crop/roads.h"

#include <limits>

namespace wheyfield::crop {
namespace {

using calendar::exactly;
using calendar::Window;
using outcome::failure;
using outcome::Problem;
using outcome::Problems;
using outcome::Result;
using reference_data::Origin;
using reference_data::UsedSources;

constexpr int longest_count = 700;  // [days]

Amounts days_of(const UseRule* rule) {
  return rule ? Amounts{rule->early, rule->likely, rule->late} : Amounts{};
}
Amounts days_of(const calendar::DayRange& days) {
  return {static_cast<double>(days.early), static_cast<double>(days.likely),
          static_cast<double>(days.late)};
}

class Traveller {
 public:
  Traveller(const Ground& ground, const Planting& planting, const Seen& seen, UsedSources& used)
      : ground_(ground), p_(planting), seen_(seen), used_(used) {}

  Result<RoadTaken> best(std::optional<int> own_days) {
    if (own_days) return by_own_count(*own_days);
    if (p_.crop->after_fourth) return by_event(*p_.crop->after_fourth);
    const bool started_so = ground_.row && ground_.row->from_transplanting == from_nursery();
    if (!ground_.row) return by_calendar("no-thermal-row");
    if (!ground_.sums) return by_calendar("no-temperatures");
    if (!started_so) return by_calendar("other-start");
    if (auto course = by_degree_days(*ground_.row, *ground_.sums))
      return RoadTaken{*course, Road::degree_days, "thermal-row"};
    return by_calendar(too_cool(*ground_.row, *ground_.sums) ? "too-cool" : "temperatures-end");
  }

 private:
  bool from_nursery() const { return p_.start == Start::nursery; }
  void used_for_crop(const Origin& origin) { used_.note(origin, "crop." + p_.crop->id); }

  const UseRule* rule(const char* id) const {
    for (const UseRule& rule : ground_.table.rules())
      if (rule.id == id && applies(rule, p_)) return &rule;
    return nullptr;
  }

  // What all roads share; amounts are filled in days.
  Outlook outlook() {
    Outlook o{};
    o.pace_limit = ground_.data.constant("pace-limit").value;
    o.rescales = !p_.crop->shifts_only;
    o.share = days_of(rule("flowering"));
    o.seedling = days_of(rule("seedling"));
    o.fifth = days_of(rule("first-fruit"));
    o.emerged = exactly(p_.set_out);
    if (from_nursery())
      o.pace_from = p_.set_out;
    else
      o.emerged = o.emerged + p_.crop->emergence;
    if (seen_.fourth || seen_.fifth) {
      const reference_data::Sourced& days = ground_.data.constant("use-after-seen-days");
      used_.note(days.origin, "use-after-seen-days");
      o.after_seen_days = static_cast<int>(days.value);
    }
    return o;
  }

  Course counted(double to_fourth) {
    CalendarClock clock;
    Outlook o = outlook();
    o.fourth = clock.after(exactly(p_.set_out), o.share * to_fourth);
    o.harvest_stays = !o.rescales;
    if (p_.harvest_after > 0)
      o.harvest = clock.after(exactly(p_.set_out), o.share * p_.harvest_after);
    if (!from_nursery()) used_for_crop(p_.crop->emergence_origin);
    return *follow(o, seen_, clock);
  }

  Result<RoadTaken> by_own_count(int days) {
    if (days < 1 || days > longest_count)
      return failure({"own-count-out-of-range",
                      "/own_days_to_fourth",
                      std::to_string(days),
                      {{"limit", std::to_string(longest_count)}}});
    return RoadTaken{counted(days), Road::own_count, "own-count"};
  }

  Result<RoadTaken> by_calendar(const char* why) {
    const Crop& crop = *p_.crop;
    if (crop.stages.empty()) return failure(with_reason({without_row()}, why));
    if (p_.harvest_after <= 0)
      return failure(
          with_reason({{"harvest-length-missing", "/planting/harvest_after", "", {}}}, why));
    used_for_crop(nearest_row(crop, p_.harvest_after).origin);
    return RoadTaken{counted(days_to_fourth(crop, p_.harvest_after)), Road::calendar, why,
                     with_reason({}, why)};
  }

  // Where she can do something about the road not taken, it is said.
  Problems with_reason(Problems problems, const std::string& why) const {
    const bool cool = why == "too-cool";
    if (!cool && why != "temperatures-end") return problems;
    problems.push_back({why,
                        "/planting/crop",
                        p_.crop->id,
                        {},
                        cool ? outcome::Severity::question : outcome::Severity::notice});
    if (cool)
      problems.back().details["limit"] =
          std::to_string(static_cast<int>(ground_.data.constant("too-cool-days").value));
    return problems;
  }

  // At the least warmth a day of the days that are known: would the fourth event never come?
  bool too_cool(const ThermalRow& row, const ThermalSums& sums) {
    const auto days = [&](ThermalSums::Kind kind, double sum) {
      const double a_day = sums.least_a_day(kind, p_.set_out).value_or(sum);
      return a_day > 0.0 ? sum / a_day : std::numeric_limits<double>::infinity();
    };
    double needed = days(ThermalSums::Kind::development, row.to_fourth);
    if (row.emergence) needed += days(ThermalSums::Kind::emergence, row.emergence->sum);
    const reference_data::Sourced& most = ground_.data.constant("too-cool-days");
    if (needed <= most.value) return false;
    used_.note(most.origin, "too-cool-days");
    return true;
  }

  // The rule by hand, worked with the crop that stands in for it, or with any.
  Problem without_row() const {
    const Crop* like = ground_.table.find(p_.crop->stand_in);
    const Crop& shown = like ? *like : ground_.table.crops().front();
    return {like ? "crop-has-like-row" : "crop-without-row", "/planting/crop", p_.crop->id,
            worked_scaling(shown, p_.harvest_after)};
  }

  Result<RoadTaken> by_event(const AfterFourth& after) {
    if (!seen_.fourth) return failure({"crop-waits-for-event", "/seen/fourth", p_.crop->id, {}});
    CalendarClock clock;
    Outlook o = outlook();
    o.emerged = exactly(*seen_.fourth);
    o.fourth = {*seen_.fourth, *seen_.fourth, *seen_.fourth + o.after_seen_days};
    o.pace_from = seen_.fourth;
    o.fifth = days_of(after.fifth);
    o.harvest = o.emerged + after.harvest;
    used_for_crop(after.fifth_origin);
    used_for_crop(after.harvest_origin);
    Course course = *follow(o, seen_, clock);
    if (!seen_.fifth) course.harvest = o.harvest;  // months with their own spread, no share
    return RoadTaken{course, Road::event, "event"};
  }

  // A use's offset in degree-days, where the row counts them.
  Amounts warmth(const UseRule* use, Amounts days) const {
    if (!use || !use->degree_days || ground_.row->in_days) return days;
    return {use->degree_days->early, use->degree_days->likely, use->degree_days->late};
  }

  std::optional<Course> by_degree_days(const ThermalRow& row, const ThermalSums& sums) {
    ThermalClock clock(sums);
    Outlook o = outlook();
    if (row.emergence) o.emerged = clock.emergence_after(p_.set_out, o.share * row.emergence->sum);
    const Window from = row.emergence ? o.emerged : exactly(p_.set_out);
    o.fourth = clock.after(from, o.share * row.to_fourth);
    if (clock.ran_out) return std::nullopt;
    if (row.to_harvest) o.harvest = clock.after(o.fourth, o.share * *row.to_harvest);
    if (clock.ran_out) o.harvest.reset();
    clock.ran_out = false;
    const UseRule* seedling = rule("seedling");
    const UseRule* fifth = rule("first-fruit");
    o.seedling = warmth(seedling, o.seedling);
    o.fifth = warmth(fifth, o.fifth);
    auto course = follow(o, seen_, clock);
    if (!course) return std::nullopt;
    used_for_crop(row.origin);
    for (const UseRule* use : {seedling, fifth})
      if (use && use->degree_days && !row.in_days)
        used_.note(use->degree_days->origin, "use." + use->id);
    if (!row.emergence && !from_nursery()) used_for_crop(p_.crop->emergence_origin);
    used_.note(weather::spread_of(*ground_.temperatures, ground_.data).origin, "temperatures");
    return course;
  }

  const Ground& ground_;
  const Planting& p_;
  const Seen& seen_;
  UsedSources& used_;
};

}  // namespace

std::string_view road_word(Road road) {
  static constexpr std::string_view words[] = {"own-count", "degree-days", "calendar", "event"};
  return words[static_cast<std::size_t>(road)];
}

Result<RoadTaken> take_road(const Ground& ground, const Planting& planting, const Seen& seen,
                            std::optional<int> own_days_to_fourth, UsedSources& used) {
  return Traveller(ground, planting, seen, used).best(own_days_to_fourth);
}

}  // namespace wheyfield::crop
