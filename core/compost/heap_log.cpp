#include "compost/heap_log.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

namespace wheyfield::compost {

using calendar::Date;
using nlohmann::json;
using outcome::take_or;

namespace {

bool warm_enough(const HeatRule& rule, double celsius) {
  if (rule.celsius_most && celsius > *rule.celsius_most) return false;
  return rule.above ? celsius > rule.celsius : celsius >= rule.celsius;
}

int longest_run(const std::vector<Date>& days) {
  int longest = 0, run = 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    run = i > 0 && days[i] - days[i - 1] == 1 ? run + 1 : 1;
    longest = std::max(longest, run);
  }
  return longest;
}

// Turnings from the first to the last of `days`, which rise.
int turnings_within(const HeapLog& log, const std::vector<Date>& days) {
  if (days.empty()) return 0;
  return static_cast<int>(std::count_if(log.days.begin(), log.days.end(), [&](const HeapDay& day) {
    return day.turned && day.date >= days.front() && day.date <= days.back();
  }));
}

void judge_ratio(const HeatRule& rule, std::optional<double> ratio, RuleVerdict& verdict) {
  if (!rule.ratio_low) return;
  verdict.ratio_unknown = !ratio;
  verdict.ratio_outside = ratio && (*ratio < *rule.ratio_low || *ratio > *rule.ratio_high);
}

HeatRule read_rule(const json& row, const std::string& field, outcome::Problems& problems) {
  const auto number = [&](const char* member) {
    return take_or(reference_data::read_number(row, member, field), 0.0, problems);
  };
  const auto may = [&](const char* member) {
    const bool there = row.is_object() && row.contains(member);
    return there ? std::optional(number(member)) : std::nullopt;
  };
  HeatRule rule;
  rule.id = take_or<std::string>(reference_data::read_string(row, "id", field), "", problems);
  rule.celsius = number("celsius");
  rule.above = row.is_object() && row.value("above", false);
  rule.celsius_most = may("celsius_most");
  rule.days = static_cast<int>(number("days"));
  rule.turnings = static_cast<int>(number("turnings"));
  rule.ratio_low = may("ratio_low");
  rule.ratio_high = may("ratio_high");
  rule.origin = take_or(reference_data::read_origin(row, field), {}, problems);
  return rule;
}

}  // namespace

std::vector<Date> HeapLog::unread() const {
  std::vector<Date> missing;
  auto noted = days.begin();
  for (Date date = built + 1; date <= last(); date = date + 1) {
    while (noted != days.end() && noted->date < date) ++noted;
    if (noted == days.end() || noted->date != date || !noted->celsius) missing.push_back(date);
  }
  return missing;
}

int HeapLog::turnings() const {
  return static_cast<int>(
      std::count_if(days.begin(), days.end(), [](const HeapDay& day) { return day.turned; }));
}

std::optional<double> HeapLog::shrinkage() const {
  const auto measured = [](const HeapDay& day) { return day.height.has_value(); };
  const auto first = std::find_if(days.begin(), days.end(), measured);
  const auto last_one = std::find_if(days.rbegin(), days.rend(), measured);
  if (first == days.end() || first->date == last_one->date) return std::nullopt;
  return 1.0 - *last_one->height / *first->height;
}

outcome::Result<std::vector<HeatRule>> read_heat_rules(const reference_data::ReferenceData& data) {
  std::vector<HeatRule> rules;
  outcome::Problems problems;
  for (const json& row : data.section("heat_rules"))
    rules.push_back(read_rule(row, "/data/heat_rules/" + std::to_string(rules.size()), problems));
  if (rules.empty())
    problems.push_back({"data-missing", "/data/heat_rules", "", {{"member", "heat_rules"}}});
  if (!problems.empty()) return outcome::failure(problems);
  return rules;
}

RuleVerdict judge(const HeatRule& rule, const HeapLog& log, std::optional<double> ratio) {
  RuleVerdict verdict;
  std::vector<Date> warm;
  for (const HeapDay& day : log.days)
    if (day.celsius && warm_enough(rule, *day.celsius)) warm.push_back(day.date);
  const std::vector<Date> unread = log.unread();
  std::vector<Date> at_best = warm;
  at_best.insert(at_best.end(), unread.begin(), unread.end());
  std::sort(at_best.begin(), at_best.end());
  verdict.days = static_cast<int>(warm.size());
  verdict.longest_run = longest_run(warm);
  verdict.turnings = turnings_within(log, warm);
  judge_ratio(rule, ratio, verdict);
  const bool met = verdict.days >= rule.days && verdict.turnings >= rule.turnings;
  const bool may_be_met = static_cast<int>(at_best.size()) >= rule.days &&
                          turnings_within(log, at_best) >= rule.turnings;
  if (!may_be_met || verdict.ratio_outside) {
    verdict.verdict = Verdict::not_met;
  } else if (met && !verdict.ratio_unknown) {
    verdict.verdict = Verdict::met;
  } else if (!met) {
    verdict.open = unread;
  }
  return verdict;
}

double days_at(double celsius, double factor, double slope) {
  return factor / std::pow(10.0, slope * celsius);
}

double dry_matter_lost(double ash_first, double ash_last) {
  return 1.0 - ash_first * (100.0 - ash_last) / (ash_last * (100.0 - ash_first));
}

}  // namespace wheyfield::compost
