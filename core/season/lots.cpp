#include "season/lots.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

#include "lot_sizing/planner.h"
#include "lot_sizing/serve.h"
#include "recipe/scale.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using lot_sizing::Cost;
using lot_sizing::Units;

constexpr std::int64_t finest_ml = 10;         // a bound's unit
constexpr std::int64_t most_units = 4000;      // due in all: larger seasons go by larger units
constexpr int most_vessels = 6;                // filled together
constexpr std::size_t most_setups = 64;        // of one session
constexpr int vessels_of_a_kind = 12;          // when vessels are without limit
constexpr Cost miss_by_dearest = 1000;         // of a batch or a pack
constexpr double material_measure = 100000.0;  // of an item's unit

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

class Writing {
 public:
  Writing(const BatchProblem& problem, ChainTable& chains, Rounding rounding)
      : p_(problem),
        season_(*problem.season),
        recipe_(*problem.recipe),
        chains_(chains),
        rounding_(rounding),
        stands_(static_cast<std::size_t>(std::max(0, recipe_.vessel_step()))) {}

  LotProblem run() {
    lots_.day0 = p_.first_start();
    if (!p_.announced.batches.empty())
      for (const Demand& d : p_.demand) lots_.day0 = std::min(lots_.day0, d.collect);
    Date last = lots_.day0;
    for (const Demand& d : p_.demand) last = std::max(last, d.collect);
    lots_.problem.days = last - lots_.day0 + 1;
    choose_unit();
    group_vessels();
    lots_.problem.products.emplace_back();
    product().name = recipe_.id;
    demand();
    for (const Lot& lot : p_.opening) opening(lot);
    for (const Batch& b : p_.announced.batches) opening({b.ready, b.use_by, b.stored_ml});
    for (std::size_t place = 0; place < season_.places.size(); ++place)
      for (Date day = lots_.day0; day <= last; day = day + 1) session(place, day, last);
    for (const recipe::Material& material : recipe_.materials)
      if (material.bought && material.id != "milk") buy(material);
    cans();
    miss();
    allow_for_failures();
    return std::move(lots_);
  }

 private:
  lot_sizing::Product& product() { return lots_.problem.products.front(); }
  double litres_a_unit() const { return static_cast<double>(lots_.unit_ml) / 1000.0; }
  int day(Date date) const { return date - lots_.day0; }

  bool in_favour() const { return rounding_ == Rounding::in_favour; }
  // Of what there is: rounded down, in favour rounded up.
  std::int64_t in_units(std::int64_t ml) const {
    return (ml + (in_favour() ? lots_.unit_ml - 1 : 0)) / lots_.unit_ml;
  }

  // What is due, rounded for itself.
  std::int64_t alone(std::int64_t ml) const {
    return (ml + (in_favour() ? 0 : lots_.unit_ml - 1)) / lots_.unit_ml;
  }

  void choose_unit() {
    if (in_favour()) lots_.unit_ml = finest_ml;
    std::int64_t due = 0;
    for (const Demand& d : p_.demand) due += d.ml;
    for (int step = 0; due / lots_.unit_ml > most_units; ++step)
      lots_.unit_ml *= in_favour() ? 2 : step % 2 == 0 ? 10 : 5;
  }

  void group_vessels() {
    std::map<std::pair<std::size_t, std::int64_t>, std::size_t> kind_of;
    for (std::size_t v = 0; v < season_.vessels.size(); ++v) {
      const Vessel& vessel = season_.vessels[v];
      const std::int64_t units = in_units(vessel_capacity_ml(recipe_, vessel));
      const auto [at, added] = kind_of.try_emplace({vessel.place, units}, lots_.kinds.size());
      // Announced batches stand in vessels of their own: each vessel is a kind then.
      if (added || !p_.announced.batches.empty()) {
        at->second = lots_.kinds.size();
        lots_.kinds.emplace_back();
        capacity_.push_back(static_cast<Units>(units));
        place_.push_back(vessel.place);
      }
      lots_.kinds[at->second].push_back(v);
    }
    for (const auto& kind : lots_.kinds) {
      const int count =
          p_.vessels_without_limit ? vessels_of_a_kind : static_cast<int>(kind.size());
      most_of_.push_back(count);
      lots_.problem.resources.push_back(
          {season_.vessels[kind.front()].name,
           std::vector<int>(static_cast<std::size_t>(lots_.problem.days), count)});
    }
    for (const Batch& b : p_.announced.batches) stands_in_its_vessel(b);
  }

  void stands_in_its_vessel(const Batch& b) {
    const BatchStep& stands = b.steps[stands_];
    std::vector<int>& capacity = lots_.problem.resources[b.vessel].capacity;
    for (Date on = std::max(stands.from, lots_.day0); on < stands.to; on = on + 1)
      if (day(on) < lots_.problem.days) --capacity[static_cast<std::size_t>(day(on))];
    if (const double share = milk_per_product(recipe_); share > 0.0)
      poured_[stands.from.days()] += std::llround(static_cast<double>(b.stored_ml) * share);
  }

  void demand() {
    product().due.resize(p_.demand.size());
    std::int64_t ml = 0, units = 0;
    for (const std::size_t d : by_collect(p_.demand)) {
      const Demand& demand = p_.demand[d];
      ml += demand.ml;
      const std::int64_t up_to = rounding_ == Rounding::in_a_row
                                     ? (ml + lots_.unit_ml - 1) / lots_.unit_ml
                                     : units + alone(demand.ml);
      product().due[d] = {day(demand.collect), day(std::max(demand.collect, demand.last_use)),
                          static_cast<Units>(up_to - units), 1};
      units = up_to;
    }
  }

  void opening(const Lot& lot) {
    const int life = p_.life_without_limit ? p_.serum_life_days() : lot.use_by - lot.from;
    product().stock.push_back(
        {day(lot.from), day(lot.from) + life, static_cast<Units>(in_units(lot.ml))});
  }

  void session(std::size_t place, Date fill_day, Date last) {
    const auto& chain = chains_.at(place, fill_day);
    if (!chain || chain->front().from < p_.first_start() || chain->back().to > last) return;
    const double milk = milk_per_product(recipe_) * static_cast<double>(lots_.unit_ml);
    lot_sizing::Session session;
    session.start = day(chain->front().from);
    session.ready = day(chain->back().to);
    session.use_by = session.ready + p_.serum_life_days();
    Units most = product().total_due();
    if (milk > 0.0) {
      const MilkRule* rule = season_.milk_on(fill_day);
      if (!rule && !p_.milk_without_limit) return;
      if (rule) session.per_unit = thousandths(rule->price, milk / 1000.0);
      if (!p_.milk_without_limit) {
        session.supply = supply_of(fill_day, *rule);
        std::int64_t& supply = lots_.problem.supplies[static_cast<std::size_t>(session.supply)];
        session.supply_per_unit = static_cast<std::int64_t>(in_favour() ? std::floor(milk + 1e-6)
                                                                        : std::ceil(milk - 1e-6));
        // The part of a unit that the milk would still bring.
        if (in_favour())
          supply = (supply + session.supply_per_unit - 1) / session.supply_per_unit *
                   session.supply_per_unit;
        most = static_cast<Units>(std::min<std::int64_t>(most, supply / session.supply_per_unit));
      }
    }
    if (most <= 0) return;
    choose_vessels(place, *chain, most, session);
    if (session.setups.empty()) return;
    product().sessions.push_back(std::move(session));
    lots_.sessions.push_back({place, fill_day});
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

  // Every choice of vessels of the place that holds more than without its smallest.
  void choose_vessels(std::size_t place, const std::vector<BatchStep>& chain, Units most,
                      lot_sizing::Session& session) const {
    std::vector<std::size_t> kinds;
    for (std::size_t k = 0; k < place_.size(); ++k)
      if (place_[k] == place && capacity_[k] > 0) kinds.push_back(k);
    std::stable_sort(kinds.begin(), kinds.end(),
                     [&](std::size_t a, std::size_t b) { return capacity_[a] > capacity_[b]; });
    std::vector<int> count(kinds.size(), 0);
    const bool told =
        std::any_of(p_.announced.told.begin(), p_.announced.told.end(), [&](const Told& batch) {
          return season_.vessels[batch.vessel].place == place &&
                 batch.fill_day == chain[stands_].from;
        });
    const Cost each = batch_cost(chain) + (told ? 0 : p_.announced.change_cost.thousandths());
    const auto choose = [&](const auto& self, std::size_t at, int vessels, Units holds) -> void {
      if (vessels > 0) add_setup(kinds, count, chain, most, holds, each * vessels, session);
      if (holds >= most || vessels == most_vessels) return;
      for (std::size_t k = at; k < kinds.size(); ++k) {
        if (count[k] == most_of_[kinds[k]]) continue;
        ++count[k];
        self(self, k, vessels + 1, holds + capacity_[kinds[k]]);
        --count[k];
      }
    };
    choose(choose, 0, 0, 0);
    if (in_favour()) one_for_all(kinds, most, session);
  }

  // Where vessels are without limit, or more than were tried together, a bound must not rest on
  // what was tried: all of the place at once, taking nothing.
  void one_for_all(const std::vector<std::size_t>& kinds, Units most,
                   lot_sizing::Session& session) const {
    int vessels = 0;
    Units holds = 0;
    for (const std::size_t k : kinds) {
      vessels += most_of_[k];
      holds += most_of_[k] * capacity_[k];
    }
    if (!p_.vessels_without_limit && vessels <= most_vessels && session.setups.size() < most_setups)
      return;
    lot_sizing::Setup all;
    all.most = p_.vessels_without_limit ? most : std::min(most, holds);
    if (all.most > 0) session.setups.push_back(std::move(all));
  }

  void add_setup(const std::vector<std::size_t>& kinds, const std::vector<int>& count,
                 const std::vector<BatchStep>& chain, Units most, Units holds, Cost cost,
                 lot_sizing::Session& session) const {
    if (session.setups.size() == most_setups) return;
    const BatchStep& stands = chain[stands_];
    lot_sizing::Setup setup;
    for (std::size_t k = 0; k < kinds.size(); ++k)
      if (count[k] > 0)
        setup.takes.push_back(
            {static_cast<int>(kinds[k]), day(stands.from), day(stands.to), count[k]});
    setup.most = std::min(most, holds);
    setup.least = std::max<Units>(
        1, std::min(setup.most, static_cast<Units>(p_.least_batch_ml / lots_.unit_ml)));
    setup.cost = cost;
    session.setups.push_back(std::move(setup));
  }

  // Labour of one batch, with what it takes to find helpers.
  Cost batch_cost(const std::vector<BatchStep>& chain) const {
    double hours = 0.0;
    for (const recipe::Step& step : recipe_.steps) hours += step.labour_hours.value;
    if (!season_.meetings.meets(chain[stands_].to)) hours += p_.helpers_hours;
    return thousandths(season_.labour_day, hours / season_.labour_hours);
  }

  void buy(const recipe::Material& material) {
    lot_sizing::Material bought;
    bought.name = material.id;
    const double each = recipe::scale(recipe_, 1.0).taken(material.id) * litres_a_unit();
    bought.per_unit.push_back(std::llround(each * material_measure));
    for (const StockItem& item : season_.stock)
      if (item.item == material.id) bought.in_hand += std::llround(item.amount * material_measure);
    for (const Price& price : season_.prices)
      if (price.item == material.id && price.unit == material.unit)
        bought.packs.push_back(
            {std::llround(price.pack * material_measure), price.price.thousandths()});
    if (!bought.packs.empty()) lots_.problem.materials.push_back(std::move(bought));
  }

  // Storage by volume: cans of all sizes together, the part over the serum left empty.
  void cans() {
    if (!p_.storage) return;
    lots_.problem.cans = static_cast<int>(quantity::in_millilitres(*p_.storage) + 1e-6) /
                         static_cast<int>(lots_.unit_ml);
    product().units_per_can = 1;
  }

  // A batch that fails is brewed again from the day after; what it was to serve is missed if it was
  // ready later than that.
  void allow_for_failures() {
    if (product().sessions.empty() || p_.missed_times <= 0.0) return;
    int lead = 0;
    Cost unit = 0;
    for (const lot_sizing::Session& session : product().sessions) {
      lead = std::max(lead, session.ready - session.start + 1);
      unit = std::max(unit, session.per_unit);
    }
    for (const lot_sizing::Material& material : lots_.problem.materials) {
      Cost cheapest = lot_sizing::never;
      for (const lot_sizing::Pack& pack : material.packs)
        cheapest = std::min(cheapest, pack.price * material.per_unit.front() / pack.size);
      unit += cheapest;
    }
    const Cost missed = static_cast<Cost>(p_.missed_times * static_cast<double>(unit));
    product().wait = lot_sizing::waiting_allowance(p_.chances, lead, 2 * lead, missed);
  }

  // A unit that is left short costs more than a plan can save by it, and one that is measured more
  // than all that are a guess.
  void miss() {
    Cost dear = 1000;
    for (const lot_sizing::Session& session : product().sessions)
      for (const lot_sizing::Setup& setup : session.setups)
        dear = std::max(dear, setup.cost + session.per_unit);
    for (const lot_sizing::Material& material : lots_.problem.materials)
      for (const lot_sizing::Pack& pack : material.packs) dear = std::max(dear, pack.price);
    Units guesses = 0;
    for (std::size_t d = 0; d < p_.demand.size(); ++d)
      if (p_.demand[d].guess) guesses += product().due[d].units;
    for (std::size_t d = 0; d < p_.demand.size(); ++d)
      product().due[d].miss = miss_by_dearest * dear * (p_.demand[d].guess ? 1 : guesses + 1);
  }

  const BatchProblem& p_;
  const Season& season_;
  const recipe::Recipe& recipe_;
  ChainTable& chains_;
  Rounding rounding_;
  std::size_t stands_;
  LotProblem lots_;
  std::vector<Units> capacity_;         // of a vessel of each kind
  std::vector<std::size_t> place_;      // of each kind
  std::vector<int> most_of_;            // vessels of each kind
  std::map<int, int> supplies_;         // by day
  std::map<int, std::int64_t> poured_;  // milk of announced batches [mL], by day
};

// Which vessels of a kind each session takes: the first that are free, by the day they are filled.
class VesselBook {
 public:
  explicit VesselBook(const LotProblem& lots) : lots_(lots), free_from_(lots.kinds.size()) {
    for (std::size_t k = 0; k < lots.kinds.size(); ++k)
      free_from_[k].assign(lots.kinds[k].size(), std::numeric_limits<int>::min());
  }

  std::vector<std::size_t> take(const lot_sizing::Setup& setup) {
    std::vector<std::size_t> vessels;
    for (const lot_sizing::Take& take : setup.takes) {
      const auto k = static_cast<std::size_t>(take.resource);
      int wanted = take.amount;
      for (std::size_t i = 0; i < free_from_[k].size() && wanted > 0; ++i) {
        if (free_from_[k][i] > take.from) continue;
        free_from_[k][i] = take.to;
        vessels.push_back(lots_.kinds[k][i]);
        --wanted;
      }
      for (; wanted > 0; --wanted) vessels.push_back(lots_.kinds[k].front());  // never in use
    }
    return vessels;
  }

 private:
  const LotProblem& lots_;
  std::vector<std::vector<int>> free_from_;
};

// `units` over vessels by what they hold; what is left over goes to the first that have room.
std::vector<std::int64_t> spread(std::int64_t units, const std::vector<std::int64_t>& capacity) {
  const std::int64_t all = std::accumulate(capacity.begin(), capacity.end(), std::int64_t{0});
  std::vector<std::int64_t> share;
  std::int64_t left = units;
  for (const std::int64_t one : capacity) {
    share.push_back(units * one / all);
    left -= share.back();
  }
  for (std::size_t i = 0; left > 0; i = (i + 1) % share.size())
    if (share[i] < capacity[i]) {
      ++share[i];
      --left;
    }
  return share;
}

// As people were told, where the same vessels get as much; else spread.
std::vector<std::int64_t> as_told(const BatchProblem& problem, const LotProblem& lots, Date filled,
                                  const std::vector<std::size_t>& vessels,
                                  std::vector<std::int64_t> units) {
  std::vector<std::int64_t> told(vessels.size(), 0);
  std::int64_t ml = 0;
  for (const Told& batch : problem.announced.told) {
    const auto at = std::find(vessels.begin(), vessels.end(), batch.vessel);
    if (batch.fill_day != filled || at == vessels.end()) continue;
    told[static_cast<std::size_t>(at - vessels.begin())] = batch.stored_ml / lots.unit_ml;
    ml += batch.stored_ml;
  }
  const std::int64_t all = std::accumulate(units.begin(), units.end(), std::int64_t{0});
  return ml == all * lots.unit_ml ? told : std::move(units);
}

// Draws for each demand, to the millilitre.
void serve_exactly(const BatchProblem& problem, const LotProblem& lots, BatchPlan& made) {
  const lot_sizing::Product& product = lots.problem.products.front();
  lot_sizing::Product exact;
  for (const Demand& d : problem.demand)
    exact.due.push_back({d.collect - lots.day0, std::max(d.collect, d.last_use) - lots.day0,
                         static_cast<Units>(d.ml), d.guess ? 1 : 10});
  std::vector<lot_sizing::Lot> stock;
  for (std::size_t i = 0; i < problem.opening.size(); ++i)
    stock.push_back({product.stock[i].ready, product.stock[i].use_by,
                     static_cast<Units>(problem.opening[i].ml)});
  for (const Batch& b : made.batches)
    stock.push_back({b.ready - lots.day0, b.use_by - lots.day0, static_cast<Units>(b.stored_ml)});
  const lot_sizing::Served served = lot_sizing::serve(exact, stock);
  made.draws.assign(problem.demand.size(), {});
  made.short_ml.clear();
  for (std::size_t d = 0; d < problem.demand.size(); ++d) {
    for (const lot_sizing::Served::Draw& draw : served.draws[d])
      made.draws[d].push_back({draw.lot, draw.units});
    made.short_ml.push_back(served.short_units[d]);
  }
}

// Up to what the vessel and the milk of the day hold.
void fill_up(const BatchProblem& problem, std::int64_t unit_ml, BatchPlan& made) {
  const auto stands = static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()));
  const double share = milk_per_product(*problem.recipe);
  std::map<int, std::int64_t> poured;
  for (const Batch& b : made.batches) poured[b.steps[stands].from.days()] += b.stored_ml;
  for (Batch& b : made.batches) {
    if (b.announced) continue;
    const Date day = b.steps[stands].from;
    std::int64_t more =
        vessel_capacity_ml(*problem.recipe, problem.season->vessels[b.vessel]) - b.stored_ml;
    if (const MilkRule* rule = problem.season->milk_on(day);
        rule && share > 0.0 && !problem.milk_without_limit)
      more = std::min(
          more, static_cast<std::int64_t>(quantity::in_millilitres(rule->most) / share + 1e-6) -
                    poured[day.days()]);
    more = std::clamp<std::int64_t>(more, 0, unit_ml);
    b.stored_ml += more;
    poured[day.days()] += more;
  }
}

}  // namespace

LotProblem to_lots(const BatchProblem& problem, ChainTable& chains, Rounding rounding) {
  return Writing(problem, chains, rounding).run();
}

BatchPlan from_lots(const BatchProblem& problem, ChainTable& chains, const LotProblem& lots,
                    const lot_sizing::Plan& plan) {
  const lot_sizing::Product& product = lots.problem.products.front();
  std::vector<lot_sizing::Held> held = plan.held;
  std::stable_sort(held.begin(), held.end(), [&](const auto& a, const auto& b) {
    return lots.sessions[a.session].fill_day < lots.sessions[b.session].fill_day;
  });
  BatchPlan made;
  made.batches = problem.announced.batches;
  VesselBook vessels(lots);
  for (const lot_sizing::Held& h : held) {
    const LotProblem::Pinned& pinned = lots.sessions[h.session];
    const std::vector<BatchStep>& chain = *chains.at(pinned.place, pinned.fill_day);
    const std::vector<std::size_t> taken =
        vessels.take(product.sessions[h.session].setups[h.setup]);
    std::vector<std::int64_t> capacity;
    for (const std::size_t v : taken)
      capacity.push_back(vessel_capacity_ml(*problem.recipe, problem.season->vessels[v]) /
                         lots.unit_ml);
    const std::vector<std::int64_t> units =
        as_told(problem, lots, pinned.fill_day, taken, spread(h.units, capacity));
    for (std::size_t i = 0; i < taken.size(); ++i)
      if (units[i] > 0)
        made.batches.push_back({taken[i], units[i] * lots.unit_ml, chain, chain.back().to,
                                chain.back().to + problem.serum_life_days(), false});
  }
  std::stable_sort(made.batches.begin(), made.batches.end(),
                   [](const Batch& a, const Batch& b) { return a.start() < b.start(); });

  serve_exactly(problem, lots, made);
  if (made.total_short() == 0) return made;
  BatchPlan fuller = made;
  fill_up(problem, lots.unit_ml, fuller);
  serve_exactly(problem, lots, fuller);
  if (fuller.total_short() >= made.total_short()) return made;
  std::vector<std::int64_t> drawn(fuller.batches.size(), 0);
  for (const auto& draws : fuller.draws)
    for (const Draw& draw : draws)
      if (draw.lot >= problem.opening.size()) drawn[draw.lot - problem.opening.size()] += draw.ml;
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const std::int64_t wanted = (drawn[i] + lots.unit_ml - 1) / lots.unit_ml * lots.unit_ml;
    fuller.batches[i].stored_ml =
        std::clamp(wanted, made.batches[i].stored_ml, fuller.batches[i].stored_ml);
  }
  return fuller;
}

std::int64_t least_short_ml(const BatchProblem& problem, const lot_sizing::Effort& effort) {
  BatchProblem free = problem;
  free.storage.reset();
  free.least_batch_ml = 0;
  ChainTable chains(free);
  LotProblem lots = to_lots(free, chains, Rounding::in_favour);
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
  return lot_sizing::plan(lots.problem, effort).bound * lots.unit_ml;
}

lot_sizing::Plan to_lot_plan(const BatchProblem& problem, const BatchPlan& plan, LotProblem& lots) {
  const auto stands = static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()));
  std::map<std::size_t, std::size_t> kind_of;
  for (std::size_t k = 0; k < lots.kinds.size(); ++k)
    for (const std::size_t v : lots.kinds[k]) kind_of[v] = k;
  struct Together {
    std::int64_t ml = 0;
    std::map<std::size_t, int> kinds;
  };
  std::map<std::size_t, Together> sessions;
  for (const Batch& b : plan.batches) {
    if (b.spare || b.announced) continue;
    const std::size_t place = problem.season->vessels[b.vessel].place;
    for (std::size_t s = 0; s < lots.sessions.size(); ++s)
      if (lots.sessions[s].place == place && lots.sessions[s].fill_day == b.steps[stands].from) {
        sessions[s].ml += b.stored_ml;
        ++sessions[s].kinds[kind_of[b.vessel]];
      }
  }
  lot_sizing::Plan held;
  for (const auto& [s, together] : sessions) {
    std::vector<lot_sizing::Setup>& setups = lots.problem.products.front().sessions[s].setups;
    lot_sizing::Setup wanted = setups.front();
    const lot_sizing::Take days = wanted.takes.front();
    int vessels = 0, vessels_before = 0;
    for (const lot_sizing::Take& take : wanted.takes) vessels_before += take.amount;
    wanted.takes.clear();
    for (const auto& [kind, count] : together.kinds) {
      wanted.takes.push_back({static_cast<int>(kind), days.from, days.to, count});
      vessels += count;
    }
    wanted.cost = wanted.cost / vessels_before * vessels;
    wanted.least = 1;
    wanted.most = static_cast<Units>(together.ml / lots.unit_ml);
    held.held.push_back({0, s, setups.size(), wanted.most});
    setups.push_back(std::move(wanted));
  }
  return held;
}

}  // namespace wheyfield::season
