#include "season/soaks.h"

#include <set>

namespace wheyfield::season {

std::vector<SoakLine> soak_lines(const Season& season, const SeasonPlan& plan,
                                 const reference_data::ReferenceData& data,
                                 reference_data::UsedSources& used) {
  std::vector<SoakLine> lines;
  const auto table = dosing::SoakTable::parse(data);
  if (!table) return lines;
  const reference_data::Sourced& most = data.constant("soak-most-hours");
  std::set<std::pair<std::size_t, std::size_t>> soaked;
  for (const PlannedUse& use : plan.uses)
    if (use.planned && use.due.use.id == "seed-soak") soaked.insert({use.due.farm, use.due.field});
  for (const auto& [farm, number] : soaked) {
    const Field& field = season.farms[farm].fields[number];
    const auto soak =
        table->soak({field.planting.crop->id, field.planting.start, field.planting.seed,
                     field.seed_mass.value_or(quantity::kilograms(1)), season.strength_parts},
                    most.value);
    if (!soak) continue;
    used.note(most.origin, "soak-most-hours");
    for (const char* id : {"soak-morning-up-to", "soak-morning-in", "soak-evening-out"})
      used.note(data.constant(id).origin, id);
    used.note(soak->row.hours.origin, "soak." + soak->row.crop);
    lines.push_back({farm, number, *soak, field.seed_mass.has_value()});
  }
  return lines;
}

}  // namespace wheyfield::season
