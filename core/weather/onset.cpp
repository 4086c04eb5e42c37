#include "weather/onset.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace wheyfield::weather {
namespace {

using calendar::Date;
using nlohmann::json;
using outcome::Problems;
using reference_data::read_number;
using State = Onset::State;
using Shape = OnsetRule::Shape;

OnsetRule read_rule(const json& row, const std::string& field, Problems& problems) {
  const auto text = [&](const char* member) {
    return take_or<std::string>(reference_data::read_string(row, member, field), "", problems);
  };
  const auto number = [&](const char* member) {
    return take_or(read_number(row, member, field), 0.0, problems);
  };
  OnsetRule rule;
  rule.id = text("id");
  rule.amount = number("amount_mm");
  rule.origin =
      take_or(reference_data::read_origin(row, field), reference_data::Origin{}, problems);
  const std::string shape = text("shape");
  if (shape == "spell") {
    rule.within_days = static_cast<int>(number("within_days"));
    rule.dry_days_fail = static_cast<int>(number("dry_days_fail"));
    rule.watch_days = static_cast<int>(number("watch_days"));
    rule.wet_day = number("wet_day_mm");
    if (rule.within_days < 1 || rule.dry_days_fail < 1)
      problems.push_back({"data-range", field + "/within_days", rule.id, {}});
  } else if (shape == "dekad") {
    rule.shape = Shape::dekad;
    rule.next = number("next_mm");
    rule.next_is_each = text("next") == "each";
  } else if (shape == "accumulated") {
    rule.shape = Shape::accumulated;
  } else if (!shape.empty()) {
    problems.push_back({"data-range", field + "/shape", shape, {}});
  }
  return rule;
}

// A sum that misses its amount by less than this [mm] has reached it: rounding, not drought.
constexpr double hair = 1e-6;

bool reaches(double mm, double amount) { return mm >= amount - hair; }

double sum(const RainSeries& rain, int from, int to) {
  double mm = 0.0;
  for (int i = from; i < to; ++i) mm += rain.mm[static_cast<std::size_t>(i)];
  return mm;
}

// A candidate that begins on `day` and is settled on `watch_to`, judged by what is known.
void judge(Onset& found, Date day, Date watch_to, Date known_to, bool failed) {
  found.day = day;
  found.watch_to = watch_to;
  if (failed) {
    found.state = State::false_start;
    found.false_starts.push_back(day);
  } else {
    found.state = watch_to <= known_to ? State::onset : State::provisional;
  }
}

int longest_dry_run(const RainSeries& rain, int from, int to, double wet_day) {
  int longest = 0, run = 0;
  for (int i = from; i < to; ++i) {
    run = rain.mm[static_cast<std::size_t>(i)] < wet_day ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest;
}

Onset by_spell(const RainSeries& rain, const OnsetRule& rule, int earliest) {
  Onset found;
  const int days = static_cast<int>(rain.mm.size());
  for (int i = earliest; i < days; ++i) {
    if (rain.mm[static_cast<std::size_t>(i)] < rule.wet_day) continue;
    if (!reaches(sum(rain, std::max(earliest, i + 1 - rule.within_days), i + 1), rule.amount))
      continue;
    const int watched = std::min(days, i + 1 + rule.watch_days);
    found.longest_dry_run = longest_dry_run(rain, i + 1, watched, rule.wet_day);
    judge(found, rain.first_day + i, rain.first_day + (i + rule.watch_days), rain.last_day(),
          found.longest_dry_run >= rule.dry_days_fail);
    if (found.state != State::false_start) break;
  }
  return found;
}

Date dekad_after(Date day) {
  if (day.day() <= 20) return day + (day.day() <= 10 ? 11 - day.day() : 21 - day.day());
  const Date next = Date::from_civil(day.year(), day.month(), 28) + 4;
  return next - (next.day() - 1);
}

Onset by_dekad(const RainSeries& rain, const OnsetRule& rule, Date earliest) {
  Onset found;
  const int days = static_cast<int>(rain.mm.size());
  const auto at = [&](Date day) { return std::min(day - rain.first_day, days); };
  Date start = earliest;
  if (start.day() != 1 && start.day() != 11 && start.day() != 21) start = dekad_after(start);
  for (; at(start) < days; start = dekad_after(start)) {
    const Date second = dekad_after(start), third = dekad_after(second);
    const Date end = dekad_after(third);
    if (!reaches(sum(rain, at(start), at(second)), rule.amount)) continue;
    const double a = sum(rain, at(second), at(third)), b = sum(rain, at(third), at(end));
    const bool second_over = third - rain.first_day <= days;
    const bool third_over = end - rain.first_day <= days;
    const auto dry = [&](double mm) { return !reaches(mm, rule.next); };
    const bool failed = rule.next_is_each ? (second_over && dry(a)) || (third_over && dry(b))
                                          : third_over && dry(a + b);
    judge(found, start, end - 1, rain.last_day(), failed);
    if (!failed) break;
  }
  return found;
}

Onset by_accumulated(const RainSeries& rain, const OnsetRule& rule, int earliest) {
  Onset found;
  double mm = 0.0;
  for (int i = earliest; i < static_cast<int>(rain.mm.size()); ++i) {
    mm += rain.mm[static_cast<std::size_t>(i)];
    if (!reaches(mm, rule.amount)) continue;
    judge(found, rain.first_day + i, rain.first_day + i, rain.last_day(), false);
    break;
  }
  return found;
}

}  // namespace

outcome::Result<std::vector<OnsetRule>> read_onset_rules(
    const reference_data::ReferenceData& data) {
  std::vector<OnsetRule> rules;
  Problems problems;
  for (const json& row : data.section("onset"))
    rules.push_back(read_rule(row, "/data/onset/" + std::to_string(rules.size()), problems));
  if (!problems.empty()) return outcome::failure(problems);
  return rules;
}

const OnsetRule* find_onset_rule(const std::vector<OnsetRule>& rules, const std::string& id) {
  for (const OnsetRule& rule : rules)
    if (rule.id == id) return &rule;
  return nullptr;
}

outcome::Result<Onset> onset_of_rains(const RainSeries& rain, const OnsetRule& rule,
                                      Date earliest) {
  if (earliest < rain.first_day || rain.last_day() < earliest)
    return outcome::failure({"earliest-outside-rain",
                             "/earliest",
                             earliest.iso(),
                             {{"first", rain.first_day.iso()}, {"last", rain.last_day().iso()}}});
  const int from = earliest - rain.first_day;
  if (rule.shape == Shape::dekad) return by_dekad(rain, rule, earliest);
  if (rule.shape == Shape::accumulated) return by_accumulated(rain, rule, from);
  return by_spell(rain, rule, from);
}

}  // namespace wheyfield::weather
