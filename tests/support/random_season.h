// Seeded seasons for property tests: warm and cool places, tight milk, holidays, late first starts,
// groups of no farm at all. The same seed is the same season on every machine.
#pragma once

#include <map>
#include <string>

#include "support/draw.h"
#include "support/small_season.h"

namespace wheyfield::testing {

class RandomSeason {
 public:
  explicit RandomSeason(std::uint64_t seed) : draw_(seed) {}

  season::Season make() {
    s_ = small_season();
    s_.name = "random";
    s_.milk.clear();
    s_.vessels.clear();
    s_.places.clear();
    s_.from = calendar::Date::from_civil(2027, 1, 1) + draw_.between(0, 60);
    s_.to = s_.from + draw_.between(150, 240);
    s_.first_start = s_.from + (one_in(5) ? draw_.between(60, 150) : draw_.between(0, 40));
    s_.serum_life_days = draw_.between(20, 90);
    s_.batches_per_spare = one_in(3) ? 0 : draw_.between(1, 6);
    meetings();
    places();
    for (int i = draw_.between(1, 3); i > 0; --i) s_.milk.push_back(milk_rule());
    for (int i = draw_.between(1, 5); i > 0; --i) s_.vessels.push_back(vessel());
    containers_and_stock();
    for (int i = draw_.between(0, one_in(3) ? 3 : 30); i > 0; --i) add_farm(i);
    return s_;
  }

 private:
  bool one_in(std::uint64_t n) { return draw_.below(n) == 0; }
  std::size_t place() { return draw_.below(s_.places.size()); }

  void meetings() {
    s_.meetings.weekday = static_cast<calendar::Weekday>(draw_.between(1, 7));
    s_.meetings.none_on.clear();
    for (int i = draw_.between(0, 4); i > 0; --i)
      if (const auto day = s_.meetings.first_from(s_.from + draw_.between(0, 180)))
        s_.meetings.none_on.push_back(*day);
  }

  void places() {
    for (int p = draw_.between(1, 3); p > 0; --p) {
      season::Place place = steady_place("place " + std::to_string(p), 0.0, draw_.between(0, 12));
      const double base = draw_.real(13, 27);
      std::vector<weather::MonthlyMean> months;
      for (int month = 1; month <= 11; ++month) {
        const double mean = base + draw_.real(-2.5, 2.5);
        months.push_back({2027, month, mean - 6.0, mean + 6.0});
      }
      place.temperature =
          value_or_abort(weather::from_monthly_means(months, s_.from - 60, s_.to + 60));
      if (one_in(2)) place.water = "river";
      s_.places.push_back(place);
    }
  }

  season::MilkRule milk_rule() {
    season::MilkRule rule;
    if (one_in(4)) rule.from = s_.from + draw_.between(0, 60);
    if (one_in(3)) rule.until = s_.from + draw_.between(30, 200);
    rule.meeting_days_only = one_in(2);
    if (one_in(4)) rule.weekday = static_cast<calendar::Weekday>(draw_.between(1, 7));
    rule.most = quantity::litres(one_in(3) ? draw_.real(0.3, 3) : draw_.real(3, 25));
    rule.price = money(draw_.between(20, 80));
    return rule;
  }

  season::Vessel vessel() {
    const double size = draw_.between(5, 30);
    return {"V" + std::to_string(s_.vessels.size() + 1),
            "1",
            place(),
            quantity::litres(size),
            quantity::litres(size * draw_.real(0.5, 0.75)),
            one_in(2) ? season::Milk::raw : season::Milk::heated_cooled};
  }

  void containers_and_stock() {
    s_.containers.push_back({quantity::litres(20), draw_.between(1, 8), draw_.between(0, 2)});
    for (int i = draw_.between(0, 2); i > 0; --i)
      s_.stock.push_back(
          {"serum", draw_.between(0, 6000) / 1000.0, "L", s_.from + draw_.between(-30, 20)});
    if (one_in(3)) s_.stock.push_back({"molasses", draw_.real(0, 5), "L", {}});
  }

  void add_farm(int number) {
    const double rates[] = {100.0, 405.0, 80.0};
    season::Farm f = farm(std::to_string(number), rates[draw_.below(3)], {});
    f.place = place();
    if (one_in(5)) f.method.mix_per_area.reset();
    if (one_in(20)) f.method = {"can", quantity::litres(1) / quantity::square_metres(1)};
    if (one_in(5)) f.cap.reset();
    if (one_in(2)) f.sprayer = quantity::litres(draw_.between(15, 20));
    for (int i = draw_.between(1, 3); i > 0; --i) f.fields.push_back(random_field());
    if (one_in(6)) s_.absences.push_back({f.code, s_.from + draw_.between(0, 150)});
    s_.farms.push_back(f);
  }

  season::Field random_field() {
    const crop::Crop& crop = crops().crops()[draw_.below(crops().crops().size())];
    const crop::StageRow& row = crop.stages[draw_.below(crop.stages.size())];
    season::Field f = field(crop.id, draw_.between(1, 16) / 8.0, s_.from + draw_.between(10, 120),
                            std::max(20, row.sum() + draw_.between(-15, 15)),
                            static_cast<crop::Seed>(draw_.between(0, 2)));
    f.planting.start = static_cast<crop::Start>(draw_.between(0, 3));
    if (f.planting.start == crop::Start::nursery)
      f.planting.nursery = f.planting.set_out - draw_.between(21, 40);
    if (one_in(10))
      f.round_stem = season::RoundStem{quantity::millilitres(draw_.between(100, 300)),
                                       quantity::metres(0.6), quantity::metres(0.6)};
    return f;
  }

  testing::Draw draw_;
  season::Season s_;
};

inline season::Season random_season(std::uint64_t seed) { return RandomSeason(seed).make(); }

// The plan of random_season(seed), worked out once for all the tests of a run that look at it.
inline const season::SeasonPlan& random_plan(std::uint64_t seed) {
  static std::map<std::uint64_t, season::SeasonPlan> plans;
  const auto found = plans.find(seed);
  if (found != plans.end()) return found->second;
  return plans.emplace(seed, planned(random_season(seed))).first->second;
}

}  // namespace wheyfield::testing
