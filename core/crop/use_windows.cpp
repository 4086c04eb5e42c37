#include "crop/use_windows.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace wheyfield::crop {
namespace {

using calendar::whole_days;
using calendar::Window;

struct Name {
  const char* word;
  Start start;
};
constexpr Name starts[] = {{"direct", Start::direct},
                           {"nursery", Start::nursery},
                           {"tuber", Start::tuber},
                           {"cutting", Start::cutting}};

bool holds_for(const UseRule& rule, Start start) {
  if (rule.when == "any") return true;
  const std::string word(start_word(start));
  return ("|" + rule.when + "|").find("|" + word + "|") != std::string::npos;
}

Window days_after(calendar::Date day, double early, double likely, double late) {
  return {day + whole_days(early), day + whole_days(likely), day + whole_days(late)};
}

std::optional<Window> window_of(const UseRule& rule, const Planting& p,
                                const std::vector<Use>& before) {
  const auto from = [&](calendar::Date day) {
    return days_after(day, rule.early, rule.likely, rule.late);
  };
  if (rule.anchor == "sowing" || rule.anchor == "planted-out") return from(p.set_out);
  if (rule.anchor == "seed-sown") return from(p.nursery.value_or(p.set_out));
  if (rule.anchor == "emerged") {
    const calendar::DayRange& e = p.crop->emergence;
    return days_after(p.set_out, e.early + rule.early, e.likely + rule.likely, e.late + rule.late);
  }
  if (rule.anchor == "stage") {
    const double days = days_to_fourth(*p.crop, p.harvest_after);
    return days_after(p.set_out, days * rule.early, days * rule.likely, days * rule.late);
  }
  for (const Use& use : before)
    if (rule.anchor == "use:" + use.id)
      return Window{use.window.early + whole_days(rule.early),
                    use.window.likely + whole_days(rule.likely),
                    use.window.late + whole_days(rule.late)};
  return std::nullopt;
}

bool is_soaked(const Planting& p) {
  const bool seed = p.start == Start::direct || p.start == Start::nursery;
  return seed && p.seed != Seed::dressed;
}

}  // namespace

bool applies(const UseRule& rule, const Planting& p) {
  if (!holds_for(rule, p.start)) return false;
  if (rule.id == "seed-soak" && !is_soaked(p)) return false;
  if (rule.id == "first-fruit" && !p.crop->has_fifth) return false;
  return !p.crop->established || rule.id == "flowering" || rule.id == "first-fruit";
}

std::string_view start_word(Start start) { return starts[static_cast<std::size_t>(start)].word; }

bool is_usual_start(const Crop& crop, Start start) {
  const auto& ways = crop.starts;
  return ways.empty() || std::find(ways.begin(), ways.end(), start_word(start)) != ways.end();
}

std::optional<Start> parse_start(const std::string& word) {
  for (const Name& name : starts)
    if (word == name.word) return name.start;
  return std::nullopt;
}

std::optional<Seed> parse_seed(const std::string& word) {
  if (word == "own") return Seed::own;
  if (word == "bought") return Seed::bought;
  if (word == "dressed") return Seed::dressed;
  return std::nullopt;
}

const StageRow& nearest_row(const Crop& crop, int days) {
  const StageRow* best = &crop.stages.front();
  for (const StageRow& row : crop.stages)
    if (std::abs(row.sum() - days) < std::abs(best->sum() - days)) best = &row;
  return *best;
}

Lengths usual_lengths(const Crop& crop, const reference_data::Sourced& limits) {
  const auto shorter = [](const StageRow& a, const StageRow& b) { return a.sum() < b.sum(); };
  const auto [least, most] = std::minmax_element(crop.stages.begin(), crop.stages.end(), shorter);
  return {whole_days(least->sum() * limits.low), whole_days(most->sum() * limits.high)};
}

double days_to_fourth(const Crop& crop, int harvest_after) {
  const StageRow& row = nearest_row(crop, harvest_after);
  return static_cast<double>((row.initial + row.development) * harvest_after) / row.sum();
}

std::map<std::string, std::string> worked_scaling(const Crop& like, int days) {
  const StageRow& row = like.stages.front();
  const int part = row.initial + row.development;
  if (days <= 0) days = row.sum() / 2;
  const int answer = whole_days(static_cast<double>(part * days) / row.sum());
  return {{"like", like.id},
          {"initial", std::to_string(row.initial)},
          {"development", std::to_string(row.development)},
          {"mid", std::to_string(row.mid)},
          {"late", std::to_string(row.late)},
          {"sum", std::to_string(row.sum())},
          {"part", std::to_string(part)},
          {"days", std::to_string(days)},
          {"answer", std::to_string(answer)}};
}

std::vector<Use> uses(const Planting& p, const CropTable& table,
                      reference_data::UsedSources& used) {
  std::vector<Use> found;
  for (const UseRule& rule : table.rules()) {
    if (!applies(rule, p)) continue;
    const auto window = window_of(rule, p, found);
    if (!window) continue;
    const bool nursery_soak = rule.id == "seed-soak" && p.start == Start::nursery;
    found.push_back(
        {rule.id, rule.id == "flowering" ? p.crop->fourth : rule.id, *window, !nursery_soak});
    used.note(rule.origin, "use." + rule.id);
    if (rule.anchor == "stage")
      used.note(nearest_row(*p.crop, p.harvest_after).origin, "crop." + p.crop->id);
    if (rule.anchor == "emerged") used.note(p.crop->emergence_origin, "crop." + p.crop->id);
  }
  // A nursery is sown, and its seed soaked, before the field is prepared.
  std::stable_sort(found.begin(), found.end(),
                   [](const Use& a, const Use& b) { return a.window.likely < b.window.likely; });
  return found;
}

}  // namespace wheyfield::crop
