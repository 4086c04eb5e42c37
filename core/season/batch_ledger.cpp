#include "season/batch_ledger.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace wheyfield::season {
namespace {

using calendar::Date;

constexpr std::int64_t grid_ml = 500;
constexpr std::int64_t without_limit = std::numeric_limits<std::int64_t>::max() / 4;

bool later_or_larger(const Candidate& a, const std::optional<Candidate>& b) {
  if (!b) return true;
  if (a.start() != b->start()) return a.start() > b->start();
  return a.most_ml > b->most_ml;
}

}  // namespace

std::int64_t rounded_up(std::int64_t ml) { return (ml + grid_ml - 1) / grid_ml * grid_ml; }

BatchLedger::BatchLedger(const BatchProblem& problem, ChainTable& chains)
    : p_(&problem),
      chains_(&chains),
      milk_share_(milk_per_product(*problem.recipe)),
      vessel_step_(static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()))),
      least_ml_(least_working_ml(*problem.recipe)) {
  for (Lot lot : p_->opening) {
    if (p_->life_without_limit) lot.use_by = lot.from + p_->life_days();
    add_lot(lot, -1);
  }
  for (const Vessel& v : p_->season->vessels)
    capacity_.push_back(vessel_capacity_ml(*p_->recipe, v));
  for (const Stand& stand : p_->taken) {
    if (milk_share_ > 0.0)
      milk_used_[stand.from.days()] +=
          std::llround(static_cast<double>(stand.milk_ml) / milk_share_);
    for (const auto& [day, hours] : stand.hours) hours_used_[day] += hours;
  }
  plan_.draws.resize(p_->demand.size());
  plan_.short_ml.assign(p_->demand.size(), 0);
}

std::int64_t BatchLedger::milk_left(Date day) const {
  if (milk_share_ <= 0.0) return without_limit;
  if (p_->milk_without_limit) return without_limit;
  const MilkRule* rule = p_->season->milk_on(day);
  if (!rule) return 0;
  const auto used = milk_used_.find(day.days());
  const auto limit =
      static_cast<std::int64_t>(quantity::in_millilitres(rule->most) / milk_share_ + 1e-6);
  return limit - (used == milk_used_.end() ? 0 : used->second);
}

bool BatchLedger::vessel_free(std::size_t vessel, const BatchStep& stands, const Batch* but) const {
  if (p_->vessels_without_limit) return true;
  const bool taken = std::any_of(p_->taken.begin(), p_->taken.end(), [&](const Stand& other) {
    return other.vessel == vessel && stands.from < other.to && other.from < stands.to;
  });
  return !taken && std::none_of(made_.begin(), made_.end(), [&](const Batch& b) {
    const BatchStep& other = b.steps[vessel_step_];
    return &b != but && b.vessel == vessel && stands.from < other.to && other.from < stands.to;
  });
}

bool BatchLedger::hands_free(const std::map<int, double>& hours,
                             const std::map<int, double>& but) const {
  if (!p_->season->hands || p_->hands_without_limit) return true;
  return std::all_of(hours.begin(), hours.end(), [&](const auto& of) {
    const auto used = hours_used_.find(of.first), less = but.find(of.first);
    const double before =
        (used == hours_used_.end() ? 0.0 : used->second) - (less == but.end() ? 0.0 : less->second);
    return before + of.second <= *hours_on(*p_->season, Date::from_days(of.first)) + 1e-9;
  });
}

void BatchLedger::count_hours(const std::vector<BatchStep>& steps, double sign) {
  if (!p_->season->hands) return;
  for (const auto& [day, hours] : work_days(*p_->recipe, steps)) hours_used_[day] += sign * hours;
}

std::optional<Candidate> BatchLedger::candidate(std::size_t vessel, Date fill_day) {
  const std::int64_t most = std::min(capacity_[vessel], milk_left(fill_day));
  if (most <= 0 || most < least_ml_) return std::nullopt;
  const auto& chain =
      chains_->at(p_->season->vessels[vessel].place, p_->season->vessels[vessel].milk, fill_day);
  if (!chain || chain->front().from < p_->first_start()) return std::nullopt;
  if (!vessel_free(vessel, (*chain)[vessel_step_], nullptr)) return std::nullopt;
  if (p_->season->hands && !hands_free(work_days(*p_->recipe, *chain), {})) return std::nullopt;
  return Candidate{vessel, fill_day, &*chain, most};
}

std::optional<Candidate> BatchLedger::latest_start(const Demand& demand, Date last) {
  std::optional<Candidate> best;
  for (Date day = last; day >= p_->first_start(); day = day - 1) {
    if (best && day < best->start()) break;
    for (std::size_t v = 0; v < p_->season->vessels.size(); ++v) {
      const auto c = candidate(v, day);
      if (!c || c->ready() > demand.collect) continue;
      if (c->ready() + p_->life_days() < demand.last_use) continue;
      if (later_or_larger(*c, best)) best = c;
    }
  }
  return best;
}

void BatchLedger::brew(const Candidate& c, std::int64_t wanted) {
  const std::int64_t ml = std::max(wanted, least_ml_);
  const Date ready = c.ready(), use_by = ready + p_->life_days();
  made_.push_back({c.vessel, ml, *c.chain, ready, use_by, false});
  milk_used_[c.fill_day.days()] += ml;
  count_hours(*c.chain, 1.0);
  add_lot({ready, use_by, ml}, static_cast<int>(made_.size()) - 1);
}

void BatchLedger::hold(const Batch& batch) {
  made_.push_back(batch);
  milk_used_[batch.steps[vessel_step_].from.days()] += batch.stored_ml;
  count_hours(batch.steps, 1.0);
  add_lot({batch.ready, batch.use_by, batch.stored_ml}, static_cast<int>(made_.size()) - 1);
}

void BatchLedger::take_back(const Candidate& c) {
  milk_used_[c.fill_day.days()] -= made_.back().stored_ml;
  count_hours(*c.chain, -1.0);
  made_.pop_back();
  lots_.pop_back();
  by_use_by_.erase(std::find(by_use_by_.begin(), by_use_by_.end(), lots_.size()));
}

Date BatchLedger::fill_day(std::size_t lot) const { return batch_of(lot).steps[vessel_step_].from; }

std::int64_t BatchLedger::headroom(std::size_t lot) const {
  const Batch& b = batch_of(lot);
  const std::int64_t most = std::min(capacity_[b.vessel], b.stored_ml + milk_left(fill_day(lot)));
  return std::max<std::int64_t>(0, most - b.stored_ml);
}

void BatchLedger::add_to(std::size_t lot, std::int64_t ml) {
  lots_[lot].lot.ml += ml;
  lots_[lot].left += ml;
  batch_of(lot).stored_ml += ml;
  milk_used_[fill_day(lot).days()] += ml;
}

bool BatchLedger::refill(std::size_t lot, Date fill_day) {
  Batch& b = batch_of(lot);
  const auto& chain = chains_->at(p_->season->vessels[b.vessel].place,
                                  p_->season->vessels[b.vessel].milk, fill_day);
  if (!chain || chain->front().from < p_->first_start()) return false;
  if (milk_left(fill_day) < b.stored_ml) return false;
  if (!vessel_free(b.vessel, (*chain)[vessel_step_], &b)) return false;
  if (p_->season->hands &&
      !hands_free(work_days(*p_->recipe, *chain), work_days(*p_->recipe, b.steps)))
    return false;
  count_hours(b.steps, -1.0);
  count_hours(*chain, 1.0);
  milk_used_[this->fill_day(lot).days()] -= b.stored_ml;
  milk_used_[fill_day.days()] += b.stored_ml;
  b.steps = *chain;
  b.ready = chain->back().to;
  b.use_by = b.ready + p_->life_days();
  lots_[lot].lot.from = b.ready;
  lots_[lot].lot.use_by = b.use_by;
  by_use_by_.erase(std::find(by_use_by_.begin(), by_use_by_.end(), lot));
  place_by_use_by(lot);
  return true;
}

Date BatchLedger::empty_since(std::size_t lot) const {
  const Batch& b = batch_of(lot);
  Date since = p_->first_start();
  for (const Batch& other : made_) {
    const Date emptied = other.steps[vessel_step_].to;
    if (other.vessel == b.vessel && emptied <= fill_day(lot)) since = std::max(since, emptied);
  }
  return since;
}

void BatchLedger::trim() {
  std::vector<OpenLot> lots;
  std::vector<Batch> made;
  std::vector<std::size_t> place(lots_.size());
  for (std::size_t lot = 0; lot < lots_.size(); ++lot) {
    place[lot] = lots.size();
    OpenLot open = lots_[lot];
    if (brewed(lot)) {
      const std::int64_t drawn = open.lot.ml - open.left;
      const std::int64_t wanted = drawn == 0 ? 0 : std::max(rounded_up(drawn), least_ml_);
      const std::int64_t idle = open.lot.ml - std::min(open.lot.ml, wanted);
      milk_used_[fill_day(lot).days()] -= idle;
      if (idle == open.lot.ml) {
        count_hours(batch_of(lot).steps, -1.0);
        continue;
      }
      open.lot.ml -= idle;
      open.left -= idle;
      made.push_back(batch_of(lot));
      made.back().stored_ml -= idle;
      open.batch = static_cast<int>(made.size()) - 1;
    }
    lots.push_back(open);
  }
  for (auto& draws : plan_.draws)
    for (Draw& draw : draws) draw.lot = place[draw.lot];
  lots_ = std::move(lots);
  made_ = std::move(made);
  by_use_by_.clear();
  for (std::size_t lot = 0; lot < lots_.size(); ++lot) place_by_use_by(lot);
}

void BatchLedger::add_lot(const Lot& lot, int batch) {
  lots_.push_back({lot, lot.ml, batch});
  place_by_use_by(lots_.size() - 1);
}

void BatchLedger::place_by_use_by(std::size_t lot) {
  const auto later = std::find_if(by_use_by_.begin(), by_use_by_.end(), [&](std::size_t other) {
    return lots_[other].lot.use_by > lots_[lot].lot.use_by;
  });
  by_use_by_.insert(later, lot);
}

bool BatchLedger::serves(std::size_t lot, const Demand& demand) const {
  return lots_[lot].lot.from <= demand.collect && lots_[lot].lot.use_by >= demand.last_use;
}

std::vector<std::size_t> BatchLedger::usable(const Demand& demand) const {
  std::vector<std::size_t> found;
  for (const std::size_t lot : by_use_by_)
    if (serves(lot, demand)) found.push_back(lot);
  return found;
}

std::int64_t BatchLedger::draw(std::size_t demand, std::int64_t need) {
  for (const std::size_t lot : by_use_by_) {
    if (need == 0) break;
    OpenLot& open = lots_[lot];
    if (open.left == 0 || !serves(lot, p_->demand[demand])) continue;
    const std::int64_t ml = std::min(need, open.left);
    open.left -= ml;
    need -= ml;
    plan_.draws[demand].push_back({lot, ml});
  }
  return need;
}

std::int64_t BatchLedger::share_anew(std::size_t last) {
  for (OpenLot& open : lots_) open.left = open.lot.ml;
  for (std::size_t i = 0; i <= last; ++i) {
    plan_.draws[i].clear();
    plan_.short_ml[i] = draw(i, p_->demand[i].ml);
  }
  return short_up_to(last);
}

std::int64_t BatchLedger::short_up_to(std::size_t last) const {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i <= last; ++i) sum += plan_.short_ml[i];
  return sum;
}

BatchPlan BatchLedger::finished() {
  std::vector<std::size_t> order(made_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return made_[a].start() < made_[b].start();
  });
  std::vector<std::size_t> place(made_.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    place[order[i]] = i;
    plan_.batches.push_back(made_[order[i]]);
  }
  for (auto& draws : plan_.draws)
    for (Draw& draw : draws)
      if (const int batch = lots_[draw.lot].batch; batch >= 0)
        draw.lot = p_->opening.size() + place[static_cast<std::size_t>(batch)];
  return std::exchange(plan_, BatchPlan());
}

}  // namespace wheyfield::season
