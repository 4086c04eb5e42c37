// Seasons small enough to work out by hand: one warm place, Thursday meetings, prices for all that
// a plan can ask for.
#pragma once

#include <string>

#include "season/back_scheduler.h"
#include "season/plan.h"
#include "support/bundle.h"

namespace wheyfield::testing {

// A plan keeps a pointer to its recipe, so tests share one.
inline const recipe::Recipe& serum_recipe() {
  static const recipe::Recipe recipe = lactic_serum();
  return recipe;
}

inline season::SeasonPlan planned(const season::Season& season,
                                  const season::BatchPlanner& planner = season::BackScheduler()) {
  reference_data::UsedSources used;
  return value_or_abort(season::make_plan(season, serum_recipe(), crops(), bundle(),
                                          season::PlanRules::of(bundle()), planner,
                                          season::BackScheduler(), {}, used));
}

inline std::vector<season::FieldUse> uses_of(const season::Season& season) {
  reference_data::UsedSources used;
  return value_or_abort(season::field_uses(season, crops(), bundle(), used)).uses;
}

inline season::GatheredDemand gathered(const season::Season& season) {
  return season::gather(season, serum_recipe(), uses_of(season), season::PlanRules::of(bundle()),
                        season::SeedTurn::on_its_day);
}

inline quantity::Money money(double amount) { return quantity::Money::from_amount(amount); }

inline quantity::Length mix_an_acre(double litres) {
  return quantity::litres(litres) / quantity::acres(1);
}

// The same temperature every day.
inline season::Place steady_place(const std::string& name, double celsius, double can_carried) {
  const calendar::Date day = calendar::Date::from_civil(2027, 2, 1);
  return {name,
          quantity::metres(1250),
          {day, {celsius}, {celsius}, weather::Origin::monthly_means, 0.0},
          "tap-chlorinated",
          money(can_carried)};
}

inline season::Field field(const std::string& crop, double acres, calendar::Date set_out, int days,
                           crop::Seed seed = crop::Seed::own) {
  crop::Planting planting;
  planting.crop = crops().find(crop);
  if (!planting.crop) std::abort();
  planting.seed = seed;
  planting.set_out = set_out;
  planting.harvest_after = days;
  season::Field field;
  field.planting = planting;
  field.area = quantity::acres(acres);
  return field;
}

inline season::Farm farm(const std::string& code, double litres_an_acre,
                         std::vector<season::Field> fields) {
  season::Farm farm;
  farm.code = code;
  farm.method = {"knapsack", mix_an_acre(litres_an_acre)};
  farm.can = quantity::litres(20);
  farm.cap = quantity::millilitres(5);
  farm.fields = std::move(fields);
  return farm;
}

// One vessel of 13.5 L, 4 L of milk each Thursday at 50, no meeting on 25 March; no farms yet.
inline season::Season small_season() {
  using calendar::Date;
  season::Season s;
  s.name = "small";
  s.from = Date::from_civil(2027, 2, 1);
  s.to = Date::from_civil(2027, 8, 31);
  s.first_start = Date::from_civil(2027, 2, 4);
  s.serum_life_days = 60;
  s.meetings = {calendar::Weekday::thursday, {Date::from_civil(2027, 3, 25)}};
  s.labour_day = money(350);
  s.places.push_back(steady_place("lower", 22.0, 5));
  season::MilkRule milk;
  milk.meeting_days_only = true;
  milk.most = quantity::litres(4);
  milk.price = money(50);
  s.milk.push_back(milk);
  s.vessels.push_back(
      {"A", "1", 0, quantity::litres(20), quantity::litres(13.5), season::Milk::heated_cooled});
  s.prices = {{"molasses", 2, "L", money(200)},   {"molasses", 20, "L", money(1600)},
              {"rice", 1, "kg", money(110)},      {"ph-strips", 100, "piece", money(600)},
              {"net", 1, "piece", money(60)},     {"string", 1, "piece", money(20)},
              {"syringe", 1, "piece", money(25)}, {"lid", 1, "piece", money(35)},
              {"marker", 1, "piece", money(40)}};
  return s;
}

// The small season with one farm, "1", of these fields and 100 L an acre.
inline season::Season season_of(std::vector<season::Field> fields) {
  season::Season s = small_season();
  s.farms.push_back(farm("1", 100, std::move(fields)));
  return s;
}

}  // namespace wheyfield::testing
