#include "season/shopping.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "recipe/scale.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

// Packs are compared on a grid of hundredths of a unit (10 mL, 10 g).
std::int64_t hundredths(double amount) { return std::llround(amount * 100.0); }

struct Need {
  std::string item;
  std::string unit;
  double amount = 0.0;
  Date first;
};

void add_materials(const Making& making, std::vector<Need>& needs) {
  for (const recipe::Material& material : making.recipe->materials) {
    if (!material.bought || material.id == "milk") continue;
    double amount = 0.0;
    Date first;
    for (const Batch& batch : making.batches->batches) {
      if (amount == 0.0) first = batch.start();
      const double stored = static_cast<double>(batch.stored_ml) / 1000.0;
      amount += recipe::scale(*making.recipe, stored).taken(material.id);
    }
    if (amount <= 0.0) continue;
    const auto known = std::find_if(needs.begin(), needs.end(),
                                    [&](const Need& need) { return need.item == material.id; });
    if (known == needs.end()) {
      needs.push_back({material.id, material.unit, amount, first});
      continue;
    }
    known->amount += amount;
    known->first = std::min(known->first, first);
  }
}

double equipment_count(const reference_data::Equipment& e, const Season& season,
                       const std::vector<Batch>& batches) {
  if (e.per == "batch") return e.quantity * static_cast<double>(batches.size());
  if (e.per == "vessel")
    return e.quantity * static_cast<double>(std::count_if(
                            season.vessels.begin(), season.vessels.end(),
                            [](const Vessel& v) { return v.kind != recipe::VesselKind::heap; }));
  if (e.per == "can-without-lid")
    return e.quantity *
           std::accumulate(season.containers.begin(), season.containers.end(), 0,
                           [](int sum, const Containers& c) { return sum + c.without_lid; });
  return e.quantity;
}

std::vector<Need> needs(const Season& season, const std::vector<Making>& made,
                        const reference_data::ReferenceData& data) {
  std::vector<Need> all;
  for (const Making& making : made) add_materials(making, all);
  const std::vector<Batch>& own = made.front().batches->batches;
  if (!own.empty())
    for (const reference_data::Equipment& e : data.equipment())
      if (const double count = equipment_count(e, season, own); count > 0.0)
        all.push_back({e.item, e.unit, count, own.front().start()});
  // One market serves all: what is needed later is handed over at a meeting before.
  for (Need& need : all)
    for (const Need& other : all) need.first = std::min(need.first, other.first);
  return all;
}

double in_hand(const Season& season, const std::string& item) {
  double sum = 0.0;
  for (const StockItem& stock : season.stock)
    if (stock.item == item) sum += stock.amount;
  return sum;
}

}  // namespace

std::vector<PackChoice> cheapest_packs(const std::vector<Price>& packs, double need) {
  std::int64_t measure = 0;
  for (const Price& pack : packs)
    measure = std::gcd(measure, std::max<std::int64_t>(1, hundredths(pack.pack)));
  const double exact = need * 100.0 / static_cast<double>(measure);
  const auto units = static_cast<std::size_t>(std::ceil(exact - 1e-6));
  struct Best {
    std::int64_t cost = 0;
    int count = 0;
    std::size_t pack = 0;
  };
  std::vector<Best> best(units + 1);
  const auto size = [&](std::size_t p) {
    return static_cast<std::size_t>(std::max<std::int64_t>(1, hundredths(packs[p].pack)) / measure);
  };
  for (std::size_t u = 1; u <= units; ++u)
    for (std::size_t p = 0; p < packs.size(); ++p) {
      const Best& rest = best[u > size(p) ? u - size(p) : 0];
      const Best with{rest.cost + packs[p].price.thousandths(), rest.count + 1, p};
      const bool better =
          with.cost < best[u].cost || (with.cost == best[u].cost && with.count < best[u].count);
      if (p == 0 || better) best[u] = with;
    }
  std::vector<PackChoice> chosen;
  for (const Price& pack : packs) chosen.push_back({pack, 0});
  for (std::size_t u = units; u > 0;) {
    const std::size_t p = best[u].pack;
    ++chosen[p].count;
    u = u > size(p) ? u - size(p) : 0;
  }
  chosen.erase(std::remove_if(chosen.begin(), chosen.end(),
                              [](const PackChoice& c) { return c.count == 0; }),
               chosen.end());
  return chosen;
}

outcome::Result<Shopping> shopping(const Season& season, const std::vector<Making>& made,
                                   const reference_data::ReferenceData& data) {
  Shopping list;
  outcome::Problems problems;
  for (const Need& need : needs(season, made, data)) {
    ShoppingLine line{need.item, need.unit, need.amount, in_hand(season, need.item), {}, {}, {}};
    line.buy_on = calendar::last_before(season.market, need.first);
    std::vector<Price> packs;
    for (std::size_t i = 0; i < season.prices.size(); ++i) {
      if (season.prices[i].item != need.item) continue;
      packs.push_back(season.prices[i]);
      if (packs.back().unit != need.unit)
        problems.push_back({"price-unit",
                            "/prices/" + std::to_string(i) + "/pack",
                            packs.back().unit,
                            {{"unit", need.unit}, {"item", need.item}}});
    }
    const double missing = std::max(0.0, line.need - line.in_hand);
    if (missing > 0.0 && packs.empty())
      problems.push_back({"price-missing", "/prices", need.item, {{"item", need.item}}});
    else if (missing > 0.0)
      line.packs = cheapest_packs(packs, missing);
    for (const PackChoice& choice : line.packs) line.cost += choice.pack.price * choice.count;
    list.total += line.cost;
    list.lines.push_back(std::move(line));
  }
  if (!problems.empty()) return outcome::failure(problems);
  return list;
}

}  // namespace wheyfield::season
