#include "fermentation/judgement.h"

#include <algorithm>

namespace wheyfield::fermentation {
namespace {

// What stands between printed steps is no step.
constexpr double same = 1e-9;

bool low_enough(const Look& look, const UseRule& rule) {
  if (!look.ph) return false;
  switch (look.scale) {
    case Scale::half_strip:
      return *look.ph <= rule.half_strip + same;
    case Scale::third_strip:
      return *look.ph <= rule.third_strip + same;
    case Scale::meter:
      break;
  }
  return *look.ph <= rule.meter + same;
}

bool ph_rises(const std::vector<Look>& looks, const UseRule& rule) {
  std::optional<double> lowest;
  bool raised = false;
  for (const Look& look : looks) {
    if (!look.ph) continue;
    if (lowest && *look.ph >= *lowest + rule.rise_once - same) return true;
    const bool higher = lowest && *look.ph >= *lowest + rule.rise_twice - same;
    if (higher && raised) return true;
    raised = higher;
    lowest = std::min(lowest.value_or(*look.ph), *look.ph);
  }
  return false;
}

bool seen_set(const std::vector<Look>& looks, const UseRule& rule) {
  for (auto look = looks.rbegin(); look != looks.rend(); ++look)
    if (look->set || look->ph) return look->set.value_or(look->ph && *look->ph <= rule.curd + same);
  return false;
}

// Set with clear liquid, nine in ten such batches sour enough, and no pH read: all that can be had
// without strips.
bool long_clear(const std::vector<Look>& looks, const Outlook& outlook, double now) {
  const bool read = std::any_of(looks.begin(), looks.end(), [](const Look& l) { return l.ph; });
  const Look& last = looks.back();
  return !read && last.clear_liquid.value_or(false) && outlook.ready.late &&
         now >= *outlook.ready.late;
}

// The next of the hours that lie ahead: the median, then a third of the window from now.
std::optional<double> within(const HourWindow& window, double now) {
  if (!window.likely) return std::nullopt;
  if (*window.likely > now) return window.likely;
  if (!window.early || !window.late) return std::nullopt;
  return now + (*window.late - *window.early) / 3.0;
}

}  // namespace

UseRule::UseRule(const ParameterTable& table)
    : half_strip(table.row("use-half-strip").value),
      third_strip(table.row("use-third-strip").value),
      meter(table.row("use-meter").value),
      curd(table.row("curd-ph").value),
      acid(table.row("acid-ph").value),
      failure_share(table.row("failure-share").value),
      rise_once(table.row("rise-once").value),
      rise_twice(table.row("rise-twice").value) {}

std::vector<std::string> signs_of(const std::vector<Look>& looks, const UseRule& rule) {
  std::vector<std::string> signs;
  const auto add = [&](const std::string& sign) {
    if (!sign.empty() && std::find(signs.begin(), signs.end(), sign) == signs.end())
      signs.push_back(sign);
  };
  bool sour = false;
  for (const Look& look : looks) {
    sour = sour || (look.ph && *look.ph <= rule.acid + same) || look.set.value_or(false);
    add(look.smell);
    add(look.surface == "gas" && !sour ? "gas-before-acid" : look.surface);
  }
  if (!looks.empty() && !looks.back().clear_liquid.value_or(true)) add("milky");
  if (ph_rises(looks, rule)) add("ph-rising");
  return signs;
}

bool may_be_used(const std::vector<Look>& looks, const UseRule& rule) {
  int low = 0;
  for (const Look& look : looks) {
    if (!low_enough(look, rule)) continue;
    const bool stands = look.set.value_or(false) && look.clear_liquid.value_or(false);
    if (look.scale != Scale::half_strip || stands) return true;
    if (++low == 2) return true;
  }
  return false;
}

Standing judge(const std::vector<Look>& looks, const Outlook& outlook, double now,
               const UseRule& rule, bool discarded) {
  if (discarded) return Standing::lost;
  if (may_be_used(looks, rule)) return Standing::usable;
  if (seen_set(looks, rule))
    return long_clear(looks, outlook, now) ? Standing::soil_only : Standing::set;
  const HourWindow& usual = outlook.set_at_first;
  const bool late = usual.late && now > *usual.late;
  const bool gone = outlook.gone && now > *outlook.gone && outlook.failing >= rule.failure_share;
  if (gone || (late && outlook.failing > 0.5)) return Standing::probably_lost;
  if (late) return Standing::late;
  const bool may_have_set = outlook.set.early && now >= *outlook.set.early;
  return may_have_set ? Standing::due : Standing::young;
}

const char* sign_of(Standing standing) {
  if (standing == Standing::late) return "not-set-late";
  return standing == Standing::probably_lost ? "not-set-lost" : "";
}

std::optional<double> next_look(Standing standing, const Outlook& outlook, double now) {
  switch (standing) {
    case Standing::young:
    case Standing::due:
    case Standing::late:
      return within(outlook.set, now);
    case Standing::set:
      return within(outlook.ready, now);
    default:
      return std::nullopt;
  }
}

}  // namespace wheyfield::fermentation
