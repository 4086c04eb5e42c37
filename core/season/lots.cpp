#include "season/lots.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include "lot_sizing/planner.h"
#include "recipe/scale.h"
#include "season/lot_vessels.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using lot_sizing::Cost;
using lot_sizing::Units;

constexpr std::int64_t usual_ml = 100;
constexpr std::int64_t fine_up_to_ml = 4000;   // due in all: goes by the finest unit
constexpr std::int64_t most_units = 4000;      // due in all: larger seasons go by larger units
constexpr Cost miss_by_dearest = 1000;         // of a batch or a pack
constexpr Cost first_before_others = 10;       // of what is short of the first preparation
constexpr double material_measure = 100000.0;  // of an item's unit
constexpr double hands_measure = 4.0;          // of an hour

std::int64_t thousandths(const Money& money, double factor) {
  return money.times(factor).thousandths();
}

std::vector<std::size_t> by_collect(const std::vector<Demand>& demand) {
  std::vector<std::size_t> order(demand.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::pair{demand[a].collect, demand[a].last_use} <
           std::pair{demand[b].collect, demand[b].last_use};
  });
  return order;
}

std::int64_t unit_of(const BatchProblem& problem, Rounding rounding) {
  std::int64_t due = 0;
  for (const Demand& d : problem.demand) due += d.ml;
  const bool in_favour = rounding == Rounding::in_favour;
  const bool fine = in_favour || rounding == Rounding::finely || due <= fine_up_to_ml;
  std::int64_t unit = fine ? finest_ml : usual_ml;
  for (int step = 0; due / unit > most_units; ++step)
    unit *= in_favour ? 2 : step % 2 == 0 ? 10 : 5;
  return unit;
}

std::vector<std::int64_t> units_of(const std::vector<Prepared>& all, Rounding rounding) {
  std::vector<std::int64_t> units;
  for (const Prepared& one : all) units.push_back(unit_of(*one.problem, rounding));
  return units;
}

class Writing {
 public:
  Writing(const std::vector<Prepared>& all, Rounding rounding)
      : all_(all),
        season_(*all.front().problem->season),
        rounding_(rounding),
        unit_ml_(units_of(all, rounding)),
        vessels_(all, unit_ml_, in_favour()) {}

  LotProblem run() {
    days();
    lots_.unit_ml = unit_ml_;
    lots_.kinds = vessels_.kinds();
    lots_.sessions.resize(all_.size());
    lots_.problem.products.resize(all_.size());
    resources();
    for (std::size_t r = 0; r < all_.size(); ++r) write_product(r);
    for (std::size_t r = 0; r < all_.size(); ++r)
      for (const recipe::Material& material : recipe(r).materials)
        if (material.bought && material.id != "milk") buy(r, material);
    cans();
    miss();
    for (std::size_t r = 0; r < all_.size(); ++r) allow_for_failures(r);
    return std::move(lots_);
  }

 private:
  const BatchProblem& problem(std::size_t r) const { return *all_[r].problem; }
  const recipe::Recipe& recipe(std::size_t r) const { return *problem(r).recipe; }
  lot_sizing::Product& product(std::size_t r) { return lots_.problem.products[r]; }
  double litres_a_unit(std::size_t r) const { return static_cast<double>(unit_ml_[r]) / 1000.0; }
  int day(Date date) const { return date - lots_.day0; }
  bool within(int day) const { return day >= 0 && day < lots_.problem.days; }
  std::size_t vessel_step(std::size_t r) const {
    return static_cast<std::size_t>(std::max(0, recipe(r).vessel_step()));
  }

  bool in_favour() const { return rounding_ == Rounding::in_favour; }
  // Of what there is: rounded down, in favour rounded up.
  Units in_units(std::size_t r, std::int64_t ml) const {
    return static_cast<Units>((ml + (in_favour() ? unit_ml_[r] - 1 : 0)) / unit_ml_[r]);
  }
  // What is due, rounded for itself.
  std::int64_t alone(std::size_t r, std::int64_t ml) const {
    return (ml + (in_favour() ? 0 : unit_ml_[r] - 1)) / unit_ml_[r];
  }
  int quarters(double hours, bool up) const {
    return static_cast<int>(up ? std::ceil(hours * hands_measure - 1e-9)
                               : std::floor(hours * hands_measure + 1e-9));
  }

  void days() {
    lots_.day0 = problem(0).first_start();
    for (const Prepared& one : all_)
      if (!one.problem->announced.batches.empty())
        for (const Demand& d : one.problem->demand) lots_.day0 = std::min(lots_.day0, d.collect);
    Date last = lots_.day0;
    for (const Prepared& one : all_)
      for (const Demand& d : one.problem->demand) last = std::max(last, d.collect);
    lots_.problem.days = last - lots_.day0 + 1;
  }

  bool hands_limited() const { return season_.hands && !problem(0).hands_without_limit; }
  std::size_t hands() const { return vessels_.kinds().size(); }

  void resources() {
    const auto days = static_cast<std::size_t>(lots_.problem.days);
    for (std::size_t k = 0; k < vessels_.kinds().size(); ++k)
      lots_.problem.resources.push_back({season_.vessels[vessels_.kinds()[k].front()].name,
                                         std::vector<int>(days, vessels_.count(k))});
    if (hands_limited()) {
      std::vector<int> hours;
      for (int d = 0; d < lots_.problem.days; ++d)
        hours.push_back(quarters(*hours_on(season_, lots_.day0 + d), in_favour()));
      lots_.problem.resources.push_back({"hands", std::move(hours)});
    }
    for (std::size_t r = 0; r < all_.size(); ++r) {
      for (const Stand& stand : stands(recipe(r), problem(r).announced.batches))
        stands_there(stand);
      for (const Stand& stand : problem(r).taken) stands_there(stand);
    }
  }

  void stands_there(const Stand& stand) {
    std::vector<int>& free = lots_.problem.resources[stand.vessel].capacity;
    for (Date on = std::max(stand.from, lots_.day0); on < stand.to; on = on + 1)
      if (within(day(on))) --free[static_cast<std::size_t>(day(on))];
    poured_[stand.from.days()] += stand.milk_ml;
    if (!hands_limited()) return;
    std::vector<int>& hours = lots_.problem.resources[hands()].capacity;
    for (const auto& [on, h] : stand.hours)
      if (const int d = day(Date::from_days(on)); within(d)) {
        int& left = hours[static_cast<std::size_t>(d)];
        left = std::max(0, left - quarters(h, !in_favour()));
      }
  }

  void write_product(std::size_t r) {
    const BatchProblem& p = problem(r);
    product(r).name = recipe(r).id;
    demand(r);
    for (const Lot& lot : p.opening) opening(r, lot);
    for (const Batch& b : p.announced.batches) opening(r, {b.ready, b.use_by, b.stored_ml});
    Date last = lots_.day0;
    for (const Demand& d : p.demand) last = std::max(last, d.collect);
    for (const auto& [place, milk] : where(r))
      for (Date day = lots_.day0; day <= last; day = day + 1) session(r, {place, milk, day}, last);
  }

  // Each place; where a step is forecast, each kind of milk in its vessels.
  std::set<std::pair<std::size_t, std::optional<Milk>>> where(std::size_t r) const {
    std::set<std::pair<std::size_t, std::optional<Milk>>> all;
    for (const Vessel& vessel : season_.vessels)
      all.emplace(vessel.place,
                  recipe(r).has_forecast() ? std::optional(vessel.milk) : std::nullopt);
    return all;
  }

  void demand(std::size_t r) {
    const std::vector<Demand>& all = problem(r).demand;
    product(r).due.resize(all.size());
    std::int64_t ml = 0, units = 0;
    for (const std::size_t d : by_collect(all)) {
      const Demand& demand = all[d];
      ml += demand.ml;
      const std::int64_t up_to = rounding_ == Rounding::in_a_row || rounding_ == Rounding::finely
                                     ? (ml + unit_ml_[r] - 1) / unit_ml_[r]
                                     : units + alone(r, demand.ml);
      product(r).due[d] = {day(demand.collect), day(std::max(demand.collect, demand.last_use)),
                           static_cast<Units>(up_to - units), 1};
      units = up_to;
    }
  }

  void opening(std::size_t r, const Lot& lot) {
    const BatchProblem& p = problem(r);
    const int life = p.life_without_limit ? p.life_days() : lot.use_by - lot.from;
    product(r).stock.push_back({day(lot.from), day(lot.from) + life, in_units(r, lot.ml)});
  }

  void session(std::size_t r, const LotProblem::Pinned& at, Date last) {
    const BatchProblem& p = problem(r);
    const auto& chain = chain_of(all_[r], at);
    if (!chain || chain->front().from < p.first_start() || chain->back().to > last) return;
    const double milk = milk_per_product(recipe(r)) * static_cast<double>(unit_ml_[r]);
    lot_sizing::Session session;
    session.start = day(chain->front().from);
    session.ready = day(chain->back().to);
    session.use_by = session.ready + p.life_days();
    // A batch that works may be more than is due.
    Units most = std::max(product(r).total_due(), vessels_.least(r));
    if (milk > 0.0) {
      const MilkRule* rule = season_.milk_on(at.fill_day);
      if (!rule && !p.milk_without_limit) return;
      if (rule) session.per_unit = thousandths(rule->price, milk / 1000.0);
      if (!p.milk_without_limit)
        most = std::min(most, draw_milk(at.fill_day, *rule, milk, session));
    }
    if (most <= 0) return;
    setups(r, at, *chain, most, session);
    if (session.setups.empty()) return;
    product(r).sessions.push_back(std::move(session));
    lots_.sessions[r].push_back(at);
  }

  // `milk` [mL] a unit. Gives how many units the day's milk makes.
  Units draw_milk(Date day, const MilkRule& rule, double milk, lot_sizing::Session& session) {
    session.supply = supply_of(day, rule);
    std::int64_t& supply = lots_.problem.supplies[static_cast<std::size_t>(session.supply)];
    session.supply_per_unit =
        static_cast<std::int64_t>(in_favour() ? std::floor(milk + 1e-6) : std::ceil(milk - 1e-6));
    // The part of a unit that the milk would still bring.
    if (in_favour())
      supply = (supply + session.supply_per_unit - 1) / session.supply_per_unit *
               session.supply_per_unit;
    return static_cast<Units>(std::min<std::int64_t>(std::numeric_limits<Units>::max(),
                                                     supply / session.supply_per_unit));
  }

  int supply_of(Date day, const MilkRule& rule) {
    const auto [at, added] =
        supplies_.try_emplace(day.days(), static_cast<int>(lots_.problem.supplies.size()));
    if (added)
      lots_.problem.supplies.push_back(std::max<std::int64_t>(
          0, static_cast<std::int64_t>(quantity::in_millilitres(rule.most) + 1e-6) -
                 poured_[day.days()]));
    return at->second;
  }

  void setups(std::size_t r, const LotProblem::Pinned& at, const std::vector<BatchStep>& chain,
              Units most, lot_sizing::Session& session) const {
    const BatchStep& stands = chain[vessel_step(r)];
    const std::map<int, double> work = work_days(recipe(r), chain);
    const Cost each = batch_cost(r, at, chain);
    for (const VesselChoice& choice : vessels_.choices(r, at.place, at.milk, most)) {
      lot_sizing::Setup setup;
      for (const auto& [kind, count] : choice.taken)
        setup.takes.push_back({static_cast<int>(kind), day(stands.from), day(stands.to), count});
      if (hands_limited()) take_hands(work, choice.vessels, setup);
      setup.most = std::min(most, choice.holds);
      const auto wanted = static_cast<Units>(problem(r).least_batch_ml / unit_ml_[r]);
      setup.least = std::max({Units{1}, choice.least, std::min(setup.most, wanted)});
      setup.cost = each * choice.vessels;
      if (setup.most >= setup.least) session.setups.push_back(std::move(setup));
    }
  }

  void take_hands(const std::map<int, double>& work, int vessels, lot_sizing::Setup& setup) const {
    for (const auto& [on, hours] : work) {
      const int amount = quarters(hours, !in_favour()) * vessels;
      if (const int d = day(Date::from_days(on)); amount > 0 && within(d))
        setup.takes.push_back({static_cast<int>(hands()), d, d + 1, amount});
    }
  }

  // Labour of one batch, with what it takes to find helpers, and to tell people of it.
  Cost batch_cost(std::size_t r, const LotProblem::Pinned& at,
                  const std::vector<BatchStep>& chain) const {
    const BatchProblem& p = problem(r);
    const BatchStep& stands = chain[vessel_step(r)];
    double hours = recipe::labour_hours(recipe(r));
    if (!season_.meetings.meets(stands.to)) hours += p.helpers_hours;
    const bool told =
        std::any_of(p.announced.told.begin(), p.announced.told.end(), [&](const Told& batch) {
          return at.takes(season_.vessels[batch.vessel]) && batch.fill_day == at.fill_day;
        });
    return thousandths(season_.labour_day, hours / season_.labour_hours) +
           (told ? 0 : p.announced.change_cost.thousandths());
  }

  void buy(std::size_t r, const recipe::Material& material) {
    std::vector<lot_sizing::Material>& all = lots_.problem.materials;
    const double each = recipe::scale(recipe(r), 1.0).taken(material.id) * litres_a_unit(r);
    const std::int64_t per_unit = std::llround(each * material_measure);
    const auto known =
        std::find_if(all.begin(), all.end(), [&](const auto& m) { return m.name == material.id; });
    if (known != all.end()) {
      known->per_unit[r] = per_unit;
      return;
    }
    lot_sizing::Material bought;
    bought.name = material.id;
    bought.per_unit.assign(all_.size(), 0);
    bought.per_unit[r] = per_unit;
    for (const StockItem& item : season_.stock)
      if (item.item == material.id) bought.in_hand += std::llround(item.amount * material_measure);
    for (const Price& price : season_.prices)
      if (price.item == material.id && price.unit == material.unit)
        bought.packs.push_back(
            {std::llround(price.pack * material_measure), price.price.thousandths()});
    if (!bought.packs.empty()) all.push_back(std::move(bought));
  }

  // Storage by volume: cans of all sizes together, the part over the serum left empty.
  void cans() {
    if (!problem(0).storage) return;
    std::int64_t can_ml = 0;
    for (std::size_t r = 0; r < all_.size(); ++r)
      if (recipe(r).stored()) can_ml = std::max(can_ml, unit_ml_[r]);
    if (can_ml == 0) return;
    lots_.problem.cans = static_cast<int>(quantity::in_millilitres(*problem(0).storage) + 1e-6) /
                         static_cast<int>(can_ml);
    for (std::size_t r = 0; r < all_.size(); ++r)
      if (recipe(r).stored()) product(r).units_per_can = static_cast<Units>(can_ml / unit_ml_[r]);
  }

  // A batch that fails is brewed again from the day after; what it was to serve is missed if it was
  // ready later than that.
  void allow_for_failures(std::size_t r) {
    const BatchProblem& p = problem(r);
    if (product(r).sessions.empty() || p.missed_times <= 0.0) return;
    int lead = 0;
    Cost unit = 0;
    for (const lot_sizing::Session& session : product(r).sessions) {
      lead = std::max(lead, session.ready - session.start + 1);
      unit = std::max(unit, session.per_unit);
    }
    for (const lot_sizing::Material& material : lots_.problem.materials) {
      Cost cheapest = lot_sizing::never;
      for (const lot_sizing::Pack& pack : material.packs)
        cheapest = std::min(cheapest, pack.price * material.per_unit[r] / pack.size);
      unit += cheapest;
    }
    const Cost missed = static_cast<Cost>(p.missed_times * static_cast<double>(unit));
    product(r).wait = lot_sizing::waiting_allowance(p.chances, lead, 2 * lead, missed);
  }

  // A unit that is left short costs more than a plan can save by it, one that is measured more than
  // all that are a guess, and one of the first preparation more than of the others.
  void miss() {
    Cost dear = 1000;
    for (const lot_sizing::Product& made : lots_.problem.products)
      for (const lot_sizing::Session& session : made.sessions)
        for (const lot_sizing::Setup& setup : session.setups)
          dear = std::max(dear, setup.cost + session.per_unit);
    for (const lot_sizing::Material& material : lots_.problem.materials)
      for (const lot_sizing::Pack& pack : material.packs) dear = std::max(dear, pack.price);
    for (std::size_t r = 0; r < all_.size(); ++r) {
      const std::vector<Demand>& demand = problem(r).demand;
      const Cost times = r == 0 && all_.size() > 1 ? first_before_others : 1;
      Units guesses = 0;
      for (std::size_t d = 0; d < demand.size(); ++d)
        if (demand[d].guess) guesses += product(r).due[d].units;
      for (std::size_t d = 0; d < demand.size(); ++d)
        product(r).due[d].miss =
            times * miss_by_dearest * dear * (demand[d].guess ? 1 : guesses + 1);
    }
  }

  const std::vector<Prepared>& all_;
  const Season& season_;
  Rounding rounding_;
  std::vector<std::int64_t> unit_ml_;
  LotVessels vessels_;
  LotProblem lots_;
  std::map<int, int> supplies_;         // by day
  std::map<int, std::int64_t> poured_;  // milk of what stands already [mL], by day
};

}  // namespace

LotProblem to_lots(const std::vector<Prepared>& all, Rounding rounding) {
  return Writing(all, rounding).run();
}

std::int64_t least_short_ml(const BatchProblem& problem, const lot_sizing::Effort& effort) {
  BatchProblem free = problem;
  free.storage.reset();
  free.least_batch_ml = 0;
  ChainTable chains(free);
  LotProblem lots = to_lots({{&free, &chains}}, Rounding::in_favour);
  lots.problem.materials.clear();
  lot_sizing::Product& product = lots.problem.products.front();
  product.wait.clear();
  for (lot_sizing::Due& due : product.due) due.miss = 1;
  for (lot_sizing::Session& session : product.sessions) {
    session.per_unit = 0;
    for (lot_sizing::Setup& setup : session.setups) {
      setup.least = 1;
      setup.cost = 0;
    }
  }
  return lot_sizing::plan(lots.problem, effort).bound * lots.unit_ml.front();
}

std::optional<Date> earliest_ready(const BatchProblem& problem) {
  BatchProblem open = problem;
  open.demand.push_back({problem.season->to, problem.season->to, 1000});
  ChainTable chains(open);
  const LotProblem lots = to_lots({{&open, &chains}}, Rounding::in_favour);
  std::optional<Date> first;
  for (const lot_sizing::Session& session : lots.problem.products.front().sessions)
    first = std::min(first.value_or(lots.day0 + session.ready), lots.day0 + session.ready);
  return first;
}

}  // namespace wheyfield::season
