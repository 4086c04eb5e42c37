// Seasons that make plant juice and a compost heap beside their serum.
#pragma once

#include <map>
#include <string>

#include "support/draw.h"
#include "support/facade.h"
#include "support/random_season.h"

namespace wheyfield::testing {

// A plan keeps a pointer to its recipes, so tests share them.
inline const recipe::Recipe& plant_juice() {
  static const recipe::Recipe recipe =
      value_or_abort(recipe::parse(recipe_json("plant-juice"), "/recipe"));
  return recipe;
}

inline const recipe::Recipe& compost_heap() {
  static const recipe::Recipe recipe =
      value_or_abort(recipe::parse(recipe_json("compost-heap"), "/recipe"));
  return recipe;
}

// One that has no name of its own here, by its id.
inline const recipe::Recipe& sibling(const std::string& id) {
  static std::map<std::string, recipe::Recipe> read;
  const auto known = read.find(id);
  if (known != read.end()) return known->second;
  return read.emplace(id, value_or_abort(recipe::parse(recipe_json(id), "/recipe"))).first->second;
}

inline season::Vessel heap_place(std::size_t place, double litres) {
  return {"heap " + std::to_string(place),
          "1",
          place,
          quantity::litres(litres),
          quantity::litres(litres * 0.9),
          season::Milk::heated_cooled,
          recipe::VesselKind::heap};
}

// A place for a heap, and so much juice and compost wanted on up to four days each; in every third
// season the group's hours of work are few.
inline season::Season with_beside(season::Season s, std::uint64_t seed) {
  Draw draw(seed * 7919 + 1);
  s.prices.push_back({"sugar", 1, "kg", money(160)});
  s.vessels.push_back(heap_place(draw.below(s.places.size()), draw.between(1200, 3000)));
  const auto wanted = [&](int least_ml, int most_ml) {
    std::vector<season::Wanted> all;
    for (int i = draw.between(1, 4); i > 0; --i) {
      const calendar::Date by = s.first_start + draw.between(15, 120);
      const calendar::Date until = by + draw.between(0, 20);
      all.push_back({by, until, draw.between(least_ml, most_ml)});
    }
    return all;
  };
  s.preparations.push_back({&plant_juice(), draw.between(25, 60), wanted(300, 4000)});
  s.preparations.push_back({&compost_heap(), draw.between(40, 120), wanted(100000, 900000)});
  if (seed % 3 == 0) {
    const double meeting_day = draw.between(6, 16);
    s.hands = season::Hands{meeting_day, draw.real(2, 6)};
  }
  return s;
}

// Two recipes more: fruit juice from the same buckets, manure tea from a drum kept apart.
inline season::Season with_two_more(season::Season s, std::uint64_t seed) {
  Draw draw(seed * 6271 + 5);
  season::Vessel drum = heap_place(draw.below(s.places.size()), 200);
  drum.name = "drum apart";
  drum.kind = recipe::VesselKind::apart;
  s.vessels.push_back(drum);
  const auto wanted = [&](int least_ml, int most_ml) {
    const calendar::Date by = s.first_start + draw.between(30, 120);
    return std::vector<season::Wanted>{{by, by + 1, draw.between(least_ml, most_ml)}};
  };
  s.preparations.push_back({&sibling("fruit-juice"), draw.between(25, 60), wanted(300, 4000)});
  s.preparations.push_back({&sibling("manure-tea"), 3, wanted(20000, 100000)});
  return s;
}

// The practice season with a heap's place, 3 L of juice by 15 April and 500 L of compost by 6 May.
inline Json with_juice_and_heap(Json season) {
  season["vessels"].push_back({{"name", "heap place"},
                               {"at", "7"},
                               {"size", "2000 L"},
                               {"fill_line", "1800 L"},
                               {"kind", "heap"}});
  season["prices"].push_back({{"item", "sugar"}, {"pack", "1 kg"}, {"price", "160"}});
  season["preparations"] = {{{"recipe", "plant-juice"},
                             {"amount", "3 L"},
                             {"by", "2027-04-15"},
                             {"until", "2027-05-10"},
                             {"keeps", "30 days"}},
                            {{"recipe", "compost-heap"},
                             {"amount", "500 L"},
                             {"by", "2027-05-06"},
                             {"keeps", "120 days"}}};
  return season;
}

// Five recipes in one season: fruit juice from the same buckets, and manure tea from a drum.
inline Json with_four_beside(Json season) {
  season = with_juice_and_heap(std::move(season));
  season["vessels"].push_back({{"name", "drum"},
                               {"at", "19"},
                               {"size", "120 L"},
                               {"fill_line", "108 L"},
                               {"kind", "apart"}});
  season["preparations"].push_back(
      {{"recipe", "fruit-juice"}, {"amount", "2 L"}, {"by", "2027-05-20"}, {"keeps", "60 days"}});
  season["preparations"].push_back(
      {{"recipe", "manure-tea"}, {"amount", "60 L"}, {"by", "2027-04-29"}, {"keeps", "3 days"}});
  return season;
}

}  // namespace wheyfield::testing
