#include "season/lot_vessels.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace wheyfield::season {
namespace {

using lot_sizing::Units;

constexpr int most_vessels = 6;           // filled together
constexpr std::size_t most_choices = 64;  // of one session
constexpr int vessels_of_a_kind = 12;     // when vessels are without limit

Units in_whole(std::int64_t ml, std::int64_t unit_ml, bool up) {
  return static_cast<Units>((ml + (up ? unit_ml - 1 : 0)) / unit_ml);
}

}  // namespace

LotVessels::LotVessels(const std::vector<Prepared>& all, const std::vector<std::int64_t>& unit_ml,
                       bool in_favour)
    : in_favour_(in_favour), without_limit_(all.front().problem->vessels_without_limit) {
  const Season& season = *all.front().problem->season;
  // What stands already stands in vessels of its own: each vessel is a kind then.
  const bool each = std::any_of(all.begin(), all.end(), [](const Prepared& one) {
    return !one.problem->announced.batches.empty() || !one.problem->taken.empty();
  });
  const bool by_milk = std::any_of(all.begin(), all.end(), [](const Prepared& one) {
    return one.problem->recipe->has_forecast();
  });
  std::map<std::tuple<std::size_t, Milk, std::vector<Units>>, std::size_t> kind_of;
  for (std::size_t v = 0; v < season.vessels.size(); ++v) {
    std::vector<Units> capacity;
    for (std::size_t r = 0; r < all.size(); ++r)
      capacity.push_back(in_whole(vessel_capacity_ml(*all[r].problem->recipe, season.vessels[v]),
                                  unit_ml[r], in_favour));
    const std::size_t place = season.vessels[v].place;
    const Milk milk = by_milk ? season.vessels[v].milk : Milk::heated_cooled;
    const auto [at, added] = kind_of.try_emplace({place, milk, capacity}, kinds_.size());
    if (added || each) {
      at->second = kinds_.size();
      kinds_.emplace_back();
      capacity_.push_back(std::move(capacity));
      place_.push_back(place);
      milk_.push_back(milk);
    }
    kinds_[at->second].push_back(v);
  }
  for (const auto& kind : kinds_)
    count_.push_back(without_limit_ ? vessels_of_a_kind : static_cast<int>(kind.size()));
  for (std::size_t r = 0; r < all.size(); ++r)
    least_.push_back(in_whole(least_working_ml(*all[r].problem->recipe), unit_ml[r], !in_favour));
}

VesselChoice LotVessels::choice(std::size_t product, const std::vector<std::size_t>& kinds,
                                const std::vector<int>& count) const {
  VesselChoice made;
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    if (count[k] == 0) continue;
    made.taken.emplace_back(kinds[k], count[k]);
    made.vessels += count[k];
    made.holds += count[k] * capacity_[kinds[k]][product];
  }
  // Shared out by what each holds, the smallest gets enough.
  for (const auto& [kind, n] : made.taken) {
    const std::int64_t holds = capacity_[kind][product];
    const std::int64_t all = std::int64_t{least_[product]} * made.holds;
    made.least = std::max(made.least, static_cast<Units>((all + holds - 1) / holds));
  }
  return made;
}

std::vector<VesselChoice> LotVessels::choices(std::size_t product, std::size_t place,
                                              const std::optional<Milk>& milk, Units most) const {
  std::vector<std::size_t> kinds;
  for (std::size_t k = 0; k < place_.size(); ++k)
    if (place_[k] == place && (!milk || milk_[k] == *milk) && capacity_[k][product] > 0)
      kinds.push_back(k);
  std::stable_sort(kinds.begin(), kinds.end(), [&](std::size_t a, std::size_t b) {
    return capacity_[a][product] > capacity_[b][product];
  });
  std::vector<int> count(kinds.size(), 0);
  std::vector<VesselChoice> found;
  const auto choose = [&](const auto& self, std::size_t at, int vessels, Units holds) -> void {
    if (vessels > 0 && found.size() < most_choices) found.push_back(choice(product, kinds, count));
    if (holds >= most || vessels == most_vessels) return;
    for (std::size_t k = at; k < kinds.size(); ++k) {
      if (count[k] == count_[kinds[k]]) continue;
      ++count[k];
      self(self, k, vessels + 1, holds + capacity_[kinds[k]][product]);
      --count[k];
    }
  };
  choose(choose, 0, 0, 0);
  if (in_favour_) add_all_at_once(product, kinds, most, found);
  return found;
}

// Where vessels are without limit, or more than were tried together, a bound must not rest on what
// was tried.
void LotVessels::add_all_at_once(std::size_t product, const std::vector<std::size_t>& kinds,
                                 Units most, std::vector<VesselChoice>& found) const {
  int vessels = 0;
  Units holds = 0;
  for (const std::size_t k : kinds) {
    vessels += count_[k];
    holds += count_[k] * capacity_[k][product];
  }
  if (!without_limit_ && vessels <= most_vessels && found.size() < most_choices) return;
  if (vessels > 0) found.push_back({{}, 0, without_limit_ ? most : holds, 0});
}

}  // namespace wheyfield::season
