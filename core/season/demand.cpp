#include "season/demand.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

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

// Litres of water for weighed seed, when the crop's soak is known.
std::optional<Mix> soak_by_mass(const Field& field, const dosing::SoakTable& soaks,
                                reference_data::UsedSources& used) {
  const dosing::SoakRow* row = soaks.find(field.planting.crop->id);
  if (!row || !field.seed_mass) return std::nullopt;
  used.note(row->water.origin, "soak." + row->crop);
  return Mix{"soak", true,
             quantity::litres(quantity::in_kilograms(*field.seed_mass) * row->water.value)};
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

// The names of the season file for what the forecast asks.
std::string season_field(const std::string& asked) {
  for (const auto& [from, to] : {std::pair{"/seen/emerged", "/emerged_on"},
                                 {"/seen/fourth", "/flower_or_swelling_on"},
                                 {"/seen/fifth", "/first_fruit_on"},
                                 {"/planting/harvest_after", "/harvest_after"},
                                 {"/planting/nursery", "/nursery_on"},
                                 {"/own_days_to_fourth", "/own_count"}})
    if (asked == from) return to;
  return asked;
}

// Forecasts of all fields of a season, one forecaster for each place.
class Forecasts {
 public:
  Forecasts(const Season& season, const crop::CropTable& crops,
            const reference_data::ReferenceData& data, reference_data::UsedSources& used)
      : season_(season), used_(used) {
    for (const Place& place : season.places) {
      const bool warmth = season.by_degree_days && !place.temperature.min.empty();
      places_.emplace_back(crops, data, warmth ? &place.temperature : nullptr);
    }
  }

  // None when refused.
  std::optional<crop::Forecast> of(std::size_t f, std::size_t i) {
    const Farm& farm = season_.farms[f];
    const Field& field = farm.fields[i];
    auto forecast =
        places_[farm.place].forecast({field.planting, field.seen, field.own_count}, used_);
    const std::string at = "/farms/" + std::to_string(f) + "/fields/" + std::to_string(i);
    if (!forecast) {
      for (const outcome::Problem& problem : forecast.error())
        errors.push_back(placed(problem, at));
      return std::nullopt;
    }
    for (const outcome::Problem& note : forecast->notes)
      if (note.severity == outcome::Severity::question ||
          told_.insert({note.code, field.planting.crop->id}).second)
        notes.push_back(placed(note, at));
    return *forecast;
  }

  outcome::Problems errors;
  outcome::Problems notes;

 private:
  static outcome::Problem placed(outcome::Problem problem, const std::string& at) {
    problem.field = at + season_field(problem.field);
    return problem;
  }

  const Season& season_;
  reference_data::UsedSources& used_;
  std::vector<crop::Forecaster> places_;
  std::set<std::pair<std::string, std::string>> told_;  // code and crop
};

}  // namespace

outcome::Result<DueUses> field_uses(const Season& season, const crop::CropTable& crops,
                                    const reference_data::ReferenceData& data,
                                    reference_data::UsedSources& used) {
  const auto soaks = dosing::SoakTable::parse(data);
  if (!soaks) return outcome::failure(soaks.error());
  const reference_data::Sourced& per_acre = data.constant("usual-mix-per-acre");
  const Length usual = quantity::litres(per_acre.value) / quantity::acres(1);
  Forecasts forecasts(season, crops, data, used);
  std::vector<FieldUse> all;
  for (std::size_t f = 0; f < season.farms.size(); ++f) {
    const Farm& farm = season.farms[f];
    for (std::size_t i = 0; i < farm.fields.size(); ++i) {
      const Field& field = farm.fields[i];
      auto forecast = forecasts.of(f, i);
      if (!forecast) continue;
      for (crop::Use& use : forecast->uses) {
        if (use.window.likely > season.to) continue;
        Mix mix = mix_for(farm, field, use.id, usual);
        if (use.id == "seed-soak") mix = soak_by_mass(field, *soaks, used).value_or(mix);
        if (!mix.measured) used.note(per_acre.origin, "usual-mix");
        FieldUse one{f,          i, use, mix.method, mix.measured,  mix.volume,
                     mix.plants, 0, 0,   {},         forecast->road};
        one.serum_ml = quantity::whole_millilitres(mix.volume / season.strength_parts);
        one.usual_ml = quantity::whole_millilitres(field.area * usual / season.strength_parts);
        one.collect_on = season.meetings.last_up_to(use.window.likely);
        if (one.collect_on && *one.collect_on < season.from) one.collect_on.reset();
        all.push_back(std::move(one));
      }
    }
  }
  if (!forecasts.errors.empty()) return outcome::failure(forecasts.errors);
  std::stable_sort(all.begin(), all.end(), [](const FieldUse& a, const FieldUse& b) {
    const calendar::Date x = a.collect_on.value_or(a.use.window.likely);
    const calendar::Date y = b.collect_on.value_or(b.use.window.likely);
    return x != y ? x < y : a.use.window.late < b.use.window.late;
  });
  return DueUses{std::move(all), std::move(forecasts.notes)};
}

}  // namespace wheyfield::season
