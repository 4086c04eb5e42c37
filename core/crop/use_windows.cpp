#include "crop/use_windows.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace wheyfield::crop {
namespace {

using calendar::whole_days;

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

}  // namespace wheyfield::crop
