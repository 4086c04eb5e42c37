#include "season/demand.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace wheyfield::season {
namespace {

struct Mix {
  std::string method;
  bool measured = false;
  Volume volume;
  long long plants = 0;
  HandOut hand_out = HandOut::volume;
  Volume per_kg = {};  // of seed
};

bool plants_standing(const std::string& use) {
  return use != "land-preparation" && use != "seed-soak";
}

Mix soak_for(const Field& field, const dosing::SoakRow* row, Length usual) {
  Mix mix;
  mix.method = "soak";
  mix.measured = row && field.seed_mass;
  if (!row) {
    mix.hand_out = HandOut::none;
  } else if (field.seed_mass) {
    mix.volume = quantity::litres(quantity::in_kilograms(*field.seed_mass) * row->water.value);
  } else {
    mix.hand_out = HandOut::by_seed;
    mix.volume = field.area * usual;
    mix.per_kg = quantity::litres(row->water.value);
  }
  return mix;
}

Mix mix_for(const Farm& farm, const Field& field, const std::string& use, Length usual) {
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
    if (!forecast) {
      for (const outcome::Problem& problem : forecast.error())
        errors.push_back(placed(problem, pointer(f, i)));
      return std::nullopt;
    }
    for (const outcome::Problem& note : forecast->notes) tell(f, i, note);
    return *forecast;
  }

  // Questions always, a notice once a crop.
  void tell(std::size_t f, std::size_t i, const outcome::Problem& note) {
    if (note.severity == outcome::Severity::question ||
        told_.insert({note.code, season_.farms[f].fields[i].planting.crop->id}).second)
      notes.push_back(placed(note, pointer(f, i)));
  }

  outcome::Problems errors;
  outcome::Problems notes;

 private:
  static std::string pointer(std::size_t f, std::size_t i) {
    return "/farms/" + std::to_string(f) + "/fields/" + std::to_string(i);
  }
  static outcome::Problem placed(outcome::Problem problem, const std::string& at) {
    problem.field = at + season_field(problem.field);
    return problem;
  }

  const Season& season_;
  reference_data::UsedSources& used_;
  std::vector<crop::Forecaster> places_;
  std::set<std::pair<std::string, std::string>> told_;  // code and crop
};

FieldUse field_use(const Season& season, std::size_t f, std::size_t i, const crop::Use& use,
                   const Mix& mix, Length usual) {
  FieldUse one;
  one.farm = f;
  one.field = i;
  one.use = use;
  one.method = mix.method;
  one.measured = mix.measured;
  one.mix = mix.volume;
  one.plants = mix.plants;
  one.serum_ml = quantity::whole_millilitres(mix.volume / season.strength_parts);
  one.usual_ml =
      quantity::whole_millilitres(season.farms[f].fields[i].area * usual / season.strength_parts);
  one.collect_on = season.meetings.last_up_to(use.window.likely);
  if (one.collect_on && *one.collect_on < season.from) one.collect_on.reset();
  one.hand_out = mix.hand_out;
  one.per_kg = mix.per_kg / season.strength_parts;
  return one;
}

// What is to be said of a soak that no mass stands behind; nothing when one does.
std::optional<outcome::Problem> soak_note(const FieldUse& use, const crop::Crop& crop) {
  if (use.hand_out == HandOut::by_seed)
    return outcome::Problem{
        "seed-unweighed",
        "/seed_mass",
        crop.id,
        {{"ml", fmt::to_string(quantity::rounded(quantity::in_millilitres(use.per_kg), 2))}},
        outcome::Severity::notice};
  if (use.hand_out == HandOut::none)
    return outcome::Problem{"soak-time-unknown", "/crop", crop.id, {}, outcome::Severity::notice};
  return std::nullopt;
}

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
        const bool soak = use.id == "seed-soak";
        const dosing::SoakRow* row = soak ? soaks->find(field.planting.crop->id) : nullptr;
        if (row) used.note(row->water.origin, "soak." + row->crop);
        const Mix mix = soak ? soak_for(field, row, usual) : mix_for(farm, field, use.id, usual);
        if (!mix.measured && mix.hand_out != HandOut::none) used.note(per_acre.origin, "usual-mix");
        FieldUse one = field_use(season, f, i, use, mix, usual);
        one.road = forecast->road;
        if (const auto note = soak_note(one, *field.planting.crop);
            note && use.window.late >= season.from)
          forecasts.tell(f, i, *note);
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
