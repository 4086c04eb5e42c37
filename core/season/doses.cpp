#include "season/doses.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "season/harvest_wait.h"

namespace wheyfield::season {
namespace {

struct Container {
  const char* kind;
  Volume size;
};

Container container_for(const Farm& farm, const std::string& method) {
  if (method == "knapsack" && farm.sprayer) return {"sprayer", *farm.sprayer};
  return {"can", farm.can};
}

struct CapRule {
  double step;
  double tolerance;
  double negligible;  // rest of a container
};

std::optional<dosing::CapCount> caps(const Farm& farm, Volume serum, Volume water, CapRule rule) {
  const auto count = dosing::count_caps(serum, farm.cap, water, rule.step, rule.tolerance);
  return count ? std::optional(*count) : std::nullopt;
}

DoseLine line_for(const Season& season, const PlannedUse& use, CapRule rule) {
  const Farm& farm = season.farms[use.due.farm];
  const Container container = container_for(farm, use.due.method);
  DoseLine line;
  line.farm = use.due.farm;
  line.field = use.due.field;
  line.method = use.due.method;
  line.container = container.kind;
  line.container_size = container.size;
  line.mix = use.due.mix;
  line.serum_ml = use.due.serum_ml;
  line.usual_ml = use.due.usual_ml;
  line.plants = use.due.plants;
  line.measured = use.due.measured;
  line.loads = dosing::loads(use.due.mix, container.size, season.strength_parts, rule.negligible);
  if (line.loads.full > 0) line.caps = caps(farm, line.loads.serum_full, container.size, rule);
  if (quantity::in_litres(line.loads.last) > 0.0)
    line.caps_last = caps(farm, line.loads.serum_last, line.loads.last, rule);
  const auto brings = [](const std::optional<dosing::CapCount>& caps, Volume serum) {
    return caps && caps->fits ? caps->given : serum;
  };
  line.given = brings(line.caps, line.loads.serum_full) * static_cast<double>(line.loads.full) +
               brings(line.caps_last, line.loads.serum_last);
  return line;
}

}  // namespace

std::vector<DoseLine> dose_lines(const Season& season, const SeasonPlan& plan,
                                 const reference_data::ReferenceData& data) {
  const CapRule rule{data.constant("cap-half-step").value, data.constant("dose-tolerance").value,
                     data.constant("negligible-load").value};
  const dosing::HarvestRule harvest = dosing::harvest_rule(data);
  std::map<std::tuple<std::size_t, std::size_t, std::string>, DoseLine> lines;
  for (const PlannedUse& use : plan.uses) {
    if (use.due.method == "soak") continue;
    const auto key = std::tuple{use.due.farm, use.due.field, use.due.method};
    auto found = lines.find(key);
    if (found == lines.end()) found = lines.emplace(key, line_for(season, use, rule)).first;
    found->second.uses.push_back(use.due.use.id);
    if (const auto wait = harvest_wait(season, use.due, harvest))
      found->second.pick_from =
          std::max(found->second.pick_from.value_or(wait->pick_from), wait->pick_from);
  }
  std::vector<DoseLine> ordered;
  for (auto& [key, line] : lines) ordered.push_back(std::move(line));
  return ordered;
}

}  // namespace wheyfield::season
