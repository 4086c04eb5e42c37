#include "lot_sizing/label_steps.h"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace wheyfield::lot_sizing {
namespace {

constexpr int supply_shares = 4;  // by which a plan that keeps to a supply is looked for

Units units_from(std::int64_t supply, std::int64_t per_unit) {
  return static_cast<Units>(std::min<std::int64_t>(supply / per_unit, 1 << 30));
}

void drop_dominated(std::vector<LabelOption>& options) {
  std::vector<LabelOption> kept;
  for (std::size_t i = 0; i < options.size(); ++i) {
    bool dominated = false;
    for (std::size_t j = 0; j < options.size() && !dominated; ++j) {
      if (i == j) continue;
      const LabelOption &a = options[j], &b = options[i];
      const bool as_good =
          a.cost <= b.cost && a.most >= b.most && a.least <= b.least && contains(b.cells, a.cells);
      const bool same =
          a.cost == b.cost && a.most == b.most && a.least == b.least && a.cells == b.cells;
      dominated = as_good && (!same || j < i);
    }
    if (!dominated) kept.push_back(options[i]);
  }
  options = std::move(kept);
}

}  // namespace

bool contains(const Label& all, const Label& some) {
  auto at = all.begin();
  for (const Cell& cell : some) {
    while (at != all.end() && at->key < cell.key) ++at;
    if (at == all.end() || at->key != cell.key || at->amount < cell.amount) return false;
  }
  return true;
}

LabelSteps::LabelSteps(const Problem& problem, std::size_t product, const Left& left,
                       const Prices* prices, const Carried& carried, Strictness strictness)
    : p_(problem),
      product_(problem.products[product]),
      left_(left),
      prices_(prices),
      carried_(carried),
      strict_(strictness) {
  line_up();
  for (const Lot& lot : product_.stock) add_stock(lot);
  for (std::size_t s = 0; s < product_.sessions.size(); ++s) add_session(s);
  std::stable_sort(steps_.begin(), steps_.end(), [](const LabelStep& a, const LabelStep& b) {
    return a.ready != b.ready ? a.ready < b.ready : a.use_by < b.use_by;
  });
  tell_draws_apart();
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (steps_[i].supply_key >= 0) last_step_[steps_[i].supply_key] = static_cast<int>(i);
    for (const LabelOption& option : steps_[i].options)
      for (const Cell& cell : option.cells) last_step_[cell.key] = static_cast<int>(i);
  }
}

void LabelSteps::line_up() {
  std::vector<std::size_t> order(product_.due.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const Due &x = product_.due[a], &y = product_.due[b];
    if (x.collect != y.collect) return x.collect < y.collect;
    return x.last_use != y.last_use ? x.last_use < y.last_use : x.miss < y.miss;
  });
  for (const std::size_t d : order) {
    const Due& due = product_.due[d];
    if (due.units == 0) continue;
    due_.push_back(due);
    which_.push_back(d);
    first_unit_.push_back(static_cast<Units>(miss_.size()));
    miss_.insert(miss_.end(), static_cast<std::size_t>(due.units), due.miss);
    cheapest_ = std::min(cheapest_, due.miss);
  }
  first_unit_.push_back(static_cast<Units>(miss_.size()));
  if (strict_.windows) return;
  int earliest = std::numeric_limits<int>::max();
  for (std::size_t d = due_.size(); d-- > 0;) {
    if (carried_.late.count(which_[d]) > 0) continue;
    earliest = std::min(earliest, due_[d].last_use);
    due_[d].last_use = earliest;
  }
}

std::size_t LabelSteps::due_at(Units position) const {
  const auto after = std::upper_bound(first_unit_.begin(), first_unit_.end(), position);
  return static_cast<std::size_t>(after - first_unit_.begin()) - 1;
}

Cost LabelSteps::waiting(std::size_t d, const LabelStep& step) const {
  return strict_.only_missed ? 0 : product_.waiting(due_[d].collect - step.ready);
}

bool LabelSteps::left_to_later(std::size_t d, const LabelStep& step) const {
  return !strict_.windows && due_[d].last_use > step.use_by && carried_.late.count(which_[d]) > 0;
}

int LabelSteps::late_key(std::size_t d) const {
  return static_cast<int>(p_.resources.size()) * p_.days + static_cast<int>(p_.supplies.size() + d);
}

int LabelSteps::late_due(int key) const { return std::max(-1, key - late_key(0)); }

int LabelSteps::last_step(int key) const {
  return late_due(key) >= 0 ? static_cast<int>(steps_.size()) : last_step_.at(key);
}

void LabelSteps::find_span(LabelStep& step) const {
  std::size_t d = 0;
  while (d < due_.size() && due_[d].collect < step.ready) ++d;
  step.low = first_unit_[d];
  std::size_t end = due_.size();
  while (end > d && due_[end - 1].last_use > step.use_by) --end;
  step.high = first_unit_[end];
  if (left_.cans.empty() || product_.units_per_can == 0) return;
  while (d < due_.size() && due_[d].collect <= step.ready) ++d;
  std::int64_t room = std::int64_t{free_cans(step.ready)} * product_.units_per_can;
  for (std::size_t later = d; later < due_.size(); ++later)  // what is passed over stands in none
    if (left_to_later(later, step)) room += due_[later].units;
  step.high = static_cast<Units>(std::min<std::int64_t>(step.high, first_unit_[d] + room));
}

int LabelSteps::free_cans(int day) const {
  const auto from = left_.cans.begin() + std::clamp(day, 0, p_.days);
  return std::max(0, strict_.cans ? *std::min_element(from, left_.cans.end()) : *from);
}

void LabelSteps::add_stock(const Lot& lot) {
  if (lot.units == 0) return;
  LabelStep step;
  step.ready = lot.ready;
  step.use_by = lot.use_by;
  find_span(step);
  step.options.push_back({0, 0, 1, lot.units, {}});
  steps_.push_back(std::move(step));
}

void LabelSteps::add_session(std::size_t s) {
  const Session& session = product_.sessions[s];
  LabelStep step;
  step.session = static_cast<int>(s);
  step.ready = session.ready;
  step.use_by = session.use_by;
  step.per_unit = strict_.only_missed ? 0 : session.per_unit;
  Units most = std::numeric_limits<Units>::max();
  if (session.supply >= 0) {
    const auto supply = static_cast<std::size_t>(session.supply);
    most = units_from(left_.supply[supply], session.supply_per_unit);
    if (prices_) step.per_unit += prices_->supply[supply] * session.supply_per_unit / 1000;
  }
  find_span(step);
  if (step.high <= step.low) return;
  for (std::size_t k = 0; k < session.setups.size(); ++k) add_option(step, session, k, most);
  drop_dominated(step.options);
  if (!step.options.empty()) steps_.push_back(std::move(step));
}

void LabelSteps::add_option(LabelStep& step, const Session& session, std::size_t k,
                            Units supply_most) const {
  const Setup& setup = session.setups[k];
  LabelOption option{
      k, strict_.only_missed ? 0 : setup.cost, setup.least, std::min(setup.most, supply_most), {}};
  if (option.most < option.least) return;
  for (const Take& take : setup.takes)
    if (!take_fits(take, option)) return;
  std::sort(option.cells.begin(), option.cells.end(),
            [](const Cell& a, const Cell& b) { return a.key < b.key; });
  for (std::size_t i = 0; i + 1 < option.cells.size();)  // takes of one setup may overlap
    if (option.cells[i].key == option.cells[i + 1].key) {
      option.cells[i].amount += option.cells[i + 1].amount;
      option.cells.erase(option.cells.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    } else {
      ++i;
    }
  step.options.push_back(std::move(option));
}

// False when there is not so much of it. Adds its price and the cells carried.
bool LabelSteps::take_fits(const Take& take, LabelOption& option) const {
  const auto k = static_cast<std::size_t>(take.resource);
  if (take.from < 0 || take.to > p_.days) return false;
  for (int day = take.from; day < take.to; ++day) {
    if (take.amount > left_.resource[k][static_cast<std::size_t>(day)]) return false;
    if (prices_) option.cost += prices_->resource[k][static_cast<std::size_t>(day)] * take.amount;
    if (carries(take.resource, day))
      option.cells.push_back({take.resource * p_.days + day, take.amount});
  }
  return true;
}

bool LabelSteps::carries(int resource, int day) const {
  return (strict_.all_days && carried_.times.count(resource) > 0) ||
         carried_.days.count({resource, day}) > 0;
}

bool LabelSteps::carries_supply(int supply) const {
  return (strict_.supplies && strict_.all_days) || carried_.supplies.count(supply) > 0;
}

std::int64_t LabelSteps::capacity(int key) const {
  if (late_due(key) >= 0) return 1;
  const auto resource = static_cast<std::size_t>(key / p_.days);
  if (resource < p_.resources.size())
    return left_.resource[resource][static_cast<std::size_t>(key % p_.days)];
  return left_.supply[static_cast<std::size_t>(key) -
                      p_.resources.size() * static_cast<std::size_t>(p_.days)];
}

// A step that draws on a supply carried takes no more than the steps before it left, and where
// later ones draw on it too, its lots are told apart by what they draw.
void LabelSteps::tell_draws_apart() {
  std::map<int, std::size_t> last;
  const auto supply_of = [&](const LabelStep& step) {
    const int supply =
        step.session < 0 ? -1 : product_.sessions[static_cast<std::size_t>(step.session)].supply;
    return supply >= 0 && carries_supply(supply) ? supply : -1;
  };
  for (std::size_t i = 0; i < steps_.size(); ++i)
    if (const int supply = supply_of(steps_[i]); supply >= 0) last[supply] = i;
  std::set<int> drawn;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    LabelStep& step = steps_[i];
    const int supply = supply_of(step);
    if (supply < 0) continue;
    step.supply_per_unit =
        product_.sessions[static_cast<std::size_t>(step.session)].supply_per_unit;
    step.supply = left_.supply[static_cast<std::size_t>(supply)];
    if (last[supply] != i) step.options = by_marks(step, supply);
    if (!drawn.insert(supply).second)
      step.supply_key = static_cast<int>(p_.resources.size()) * p_.days + supply;
  }
}

// Rising, from 0 to one more than there is.
std::vector<std::int64_t> LabelSteps::marks(int supply) const {
  const std::int64_t all = left_.supply[static_cast<std::size_t>(supply)];
  std::set<std::int64_t> marks{0, all + 1};
  const auto at = carried_.supplies.find(supply);
  if (at != carried_.supplies.end() && !strict_.by_quarters)
    marks.insert(at->second.begin(), at->second.end());
  if (strict_.supplies)
    for (int share = 1; share < supply_shares; ++share)
      marks.insert(all * share / supply_shares + 1);
  marks.erase(marks.upper_bound(all + 1), marks.end());
  return {marks.begin(), marks.end()};
}

// Each option between one mark and the next, where it counts for the least that it draws, which can
// only be too good, or when supplies are strict for the most.
std::vector<LabelOption> LabelSteps::by_marks(const LabelStep& step, int supply) const {
  std::vector<LabelOption> options;
  const std::vector<std::int64_t> marks = this->marks(supply);
  const std::int64_t each = step.supply_per_unit;
  for (const LabelOption& option : step.options)
    for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
      LabelOption part = option;
      part.least = std::max(option.least, units_from(marks[i] + each - 1, each));
      part.most = std::min(option.most, units_from(marks[i + 1] - 1, each));
      if (part.most < part.least) continue;
      part.smallest = option.smallest && part.least == option.least;
      part.cells.push_back({static_cast<int>(p_.resources.size()) * p_.days + supply,
                            each * (strict_.supplies ? part.most : part.least)});
      options.push_back(std::move(part));
    }
  return options;
}

}  // namespace wheyfield::lot_sizing
