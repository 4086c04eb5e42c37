#include "season/demand.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::season {
namespace {

struct Mix {
  std::string method;
  bool measured = false;
  Volume volume;
  long long plants = 0;
};

bool plants_standing(const std::string& use) {
  return use != "land-preparation" && use != "seed-soak";
}

Mix mix_for(const Farm& farm, const Field& field, const std::string& use, Length usual) {
  if (use == "seed-soak") return {"soak", false, field.area * usual};
  if (field.round_stem && plants_standing(use)) {
    const RoundStem& stem = *field.round_stem;
    const auto plants =
        static_cast<long long>(std::floor(field.area / (stem.row * stem.along) + 1e-9));
    return {"round-stem", true, stem.per_plant * static_cast<double>(plants), plants};
  }
  const bool measured = farm.method.mix_per_area.has_value();
  return {farm.method.id, measured, field.area * farm.method.mix_per_area.value_or(usual)};
}

}  // namespace

std::vector<FieldUse> field_uses(const Season& season, const crop::CropTable& crops,
                                 const reference_data::ReferenceData& data,
                                 reference_data::UsedSources& used) {
  const reference_data::Sourced& per_acre = data.constant("usual-mix-per-acre");
  const Length usual = quantity::litres(per_acre.value) / quantity::acres(1);
  std::vector<FieldUse> all;
  for (std::size_t f = 0; f < season.farms.size(); ++f) {
    const Farm& farm = season.farms[f];
    for (std::size_t i = 0; i < farm.fields.size(); ++i) {
      const Field& field = farm.fields[i];
      for (crop::Use& use : crop::uses(field.planting, crops, used)) {
        if (use.window.likely > season.to) continue;
        const Mix mix = mix_for(farm, field, use.id, usual);
        if (!mix.measured) used.note(per_acre.origin, "usual-mix");
        FieldUse one{f, i, use, mix.method, mix.measured, mix.volume, mix.plants, 0, 0, {}};
        one.serum_ml = quantity::whole_millilitres(mix.volume / season.strength_parts);
        one.usual_ml = quantity::whole_millilitres(field.area * usual / season.strength_parts);
        one.collect_on = season.meetings.last_up_to(use.window.likely);
        if (one.collect_on && *one.collect_on < season.from) one.collect_on.reset();
        all.push_back(std::move(one));
      }
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const FieldUse& a, const FieldUse& b) {
    const calendar::Date x = a.collect_on.value_or(a.use.window.likely);
    const calendar::Date y = b.collect_on.value_or(b.use.window.likely);
    return x != y ? x < y : a.use.window.late < b.use.window.late;
  });
  return all;
}

}  // namespace wheyfield::season
