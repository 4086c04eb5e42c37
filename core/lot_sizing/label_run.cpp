#include "lot_sizing/label_run.h"

#include <algorithm>
#include <numeric>
#include <unordered_map>

#include "lot_sizing/sliding_minimum.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr int supply_shares = 4;  // a supply that binds is shared out by quarters

// A resource on a day, or a shared supply, and how much of it.
struct Cell {
  int key;
  int amount;
  friend bool operator==(const Cell& a, const Cell& b) {
    return a.key == b.key && a.amount == b.amount;
  }
};
using Label = std::vector<Cell>;  // by key

struct Option {
  std::size_t setup = 0;
  Cost cost = 0;
  Units least = 0;
  Units most = 0;
  Label cells;
};

// A session, or a lot of the stock, which costs nothing and takes nothing.
struct Step {
  int session = -1;
  int ready = 0;
  int use_by = 0;
  Cost per_unit = 0;
  Units low = 0, high = 0;  // positions it may serve from and to
  std::vector<Option> options;
};

struct Record {
  int step;
  int option;
  Units made;
  int before;  // record, -1: none
};

// By position: the cheapest value, and how it was reached. What the step under way has reached is
// written down as a record only when its state is kept.
struct State {
  Label label;
  std::vector<Cost> value;
  std::vector<int> record;
  struct Reached {
    int option = -1;  // -1: written down already
    Units made = 0;
  };
  std::vector<Reached> reached;

  void take(std::size_t p, const State& other, std::size_t q, Cost cost) {
    value[p] = cost;
    record[p] = other.record[q];
    reached[p] = other.reached[q];
  }
};

bool contains(const Label& all, const Label& some) {
  auto at = all.begin();
  for (const Cell& cell : some) {
    while (at != all.end() && at->key < cell.key) ++at;
    if (at == all.end() || at->key != cell.key || at->amount < cell.amount) return false;
  }
  return true;
}

class LabelRun {
 public:
  LabelRun(const Problem& problem, std::size_t product, const Left& left, const Prices* prices,
           const Effort& effort, const Carried& carried, Strictness strictness, Work& work)
      : p_(problem),
        product_(problem.products[product]),
        index_(product),
        left_(left),
        prices_(prices),
        effort_(effort),
        carried_(carried),
        strict_(strictness),
        work_(work) {
    line_up();
    for (std::size_t s = 0; s < product_.stock.size(); ++s) add_stock(product_.stock[s]);
    for (std::size_t s = 0; s < product_.sessions.size(); ++s) add_session(s);
    std::stable_sort(steps_.begin(), steps_.end(), [](const Step& a, const Step& b) {
      return a.ready != b.ready ? a.ready < b.ready : a.use_by < b.use_by;
    });
    for (std::size_t i = 0; i < steps_.size(); ++i)
      for (const Option& option : steps_[i].options)
        for (const Cell& cell : option.cells) last_step_[cell.key] = static_cast<int>(i);
    limit_labels();
  }

  std::optional<RunAnswer> run() {
    State first;
    first.value.resize(positions() + 1, 0);
    first.record.assign(positions() + 1, -1);
    first.reached.resize(positions() + 1);
    for (std::size_t u = 0; u < positions(); ++u) first.value[u + 1] = first.value[u] + miss_[u];
    states_.push_back(std::move(first));
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      low_ = static_cast<std::size_t>(steps_[i].low);
      forget_past(static_cast<int>(i));
      take_step(static_cast<int>(i));
      if (states_.size() > most_labels_) {
        if (!strict_.beam) return std::nullopt;
        keep_best(states_, most_labels_);
      }
      drop_dominated_states();
      for (State& state : states_) write_down(state, static_cast<int>(i));
    }
    return answer();
  }

 private:
  std::size_t positions() const { return miss_.size(); }

  // The units due, in a row by collecting day.
  void line_up() {
    std::vector<std::size_t> order(product_.due.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      const Due &x = product_.due[a], &y = product_.due[b];
      return x.collect != y.collect ? x.collect < y.collect : x.last_use < y.last_use;
    });
    for (const std::size_t d : order) {
      const Due& due = product_.due[d];
      if (due.units == 0) continue;
      due_.push_back(due);
      first_unit_.push_back(static_cast<Units>(miss_.size()));
      miss_.insert(miss_.end(), static_cast<std::size_t>(due.units), due.miss);
    }
    first_unit_.push_back(static_cast<Units>(miss_.size()));
    if (strict_.windows) return;
    for (std::size_t d = due_.size(); d-- > 1;)
      due_[d - 1].last_use = std::min(due_[d - 1].last_use, due_[d].last_use);
  }

  void limit_labels() {
    std::int64_t each = 1;
    for (const Step& step : steps_)
      each += static_cast<std::int64_t>(step.options.size()) * (step.high - step.low);
    most_labels_ = static_cast<std::size_t>(std::clamp<std::int64_t>(
        effort_.work / each, 4, strict_.beam ? effort_.beam : effort_.labels));
  }

  void find_span(Step& step) const {
    std::size_t d = 0;
    while (d < due_.size() && due_[d].collect < step.ready) ++d;
    step.low = first_unit_[d];
    std::size_t end = due_.size();
    while (end > d && due_[end - 1].last_use > step.use_by) --end;
    step.high = first_unit_[end];
    if (left_.cans.empty() || product_.units_per_can == 0) return;
    while (d < due_.size() && due_[d].collect <= step.ready) ++d;
    const std::int64_t room = std::int64_t{free_cans(step.ready)} * product_.units_per_can;
    step.high = static_cast<Units>(std::min<std::int64_t>(step.high, first_unit_[d] + room));
  }

  int free_cans(int day) const {
    const auto from = left_.cans.begin() + std::clamp(day, 0, p_.days);
    return std::max(0, strict_.cans ? *std::min_element(from, left_.cans.end()) : *from);
  }

  void add_stock(const Lot& lot) {
    if (lot.units == 0) return;
    Step step;
    step.ready = lot.ready;
    step.use_by = lot.use_by;
    find_span(step);
    step.options.push_back({0, 0, 1, lot.units, {}});
    steps_.push_back(std::move(step));
  }

  void add_session(std::size_t s) {
    const Session& session = product_.sessions[s];
    Step step;
    step.session = static_cast<int>(s);
    step.ready = session.ready;
    step.use_by = session.use_by;
    step.per_unit = strict_.only_missed ? 0 : session.per_unit;
    Units most = std::numeric_limits<Units>::max();
    if (session.supply >= 0) {
      const auto supply = static_cast<std::size_t>(session.supply);
      most = units_from(left_.supply[supply], session);
      if (prices_) step.per_unit += prices_->supply[supply] * session.supply_per_unit / 1000;
    }
    find_span(step);
    if (step.high <= step.low) return;
    for (std::size_t k = 0; k < session.setups.size(); ++k) add_options(step, session, k, most);
    drop_dominated(step.options);
    if (!step.options.empty()) steps_.push_back(std::move(step));
  }

  static Units units_from(std::int64_t supply, const Session& session) {
    return static_cast<Units>(std::min<std::int64_t>(supply / session.supply_per_unit, 1 << 30));
  }

  void add_options(Step& step, const Session& session, std::size_t k, Units supply_most) const {
    const Setup& setup = session.setups[k];
    Option option{k,
                  strict_.only_missed ? 0 : setup.cost,
                  setup.least,
                  std::min(setup.most, supply_most),
                  {}};
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
    if (!strict_.supplies || session.supply < 0 ||
        (!strict_.all_days && carried_.supplies.count(session.supply) == 0)) {
      if (option.most >= option.least) step.options.push_back(std::move(option));
      return;
    }
    const std::int64_t supply = left_.supply[static_cast<std::size_t>(session.supply)];
    for (int share = 1; share <= supply_shares; ++share) {
      Option part = option;
      part.most = std::min(option.most, units_from(supply * share / supply_shares, session));
      part.cells.push_back({supply_key(session.supply), share});
      if (part.most >= part.least) step.options.push_back(std::move(part));
    }
  }

  // False when there is not so much of it. Adds its price and the cells carried.
  bool take_fits(const Take& take, Option& option) const {
    const auto k = static_cast<std::size_t>(take.resource);
    if (take.from < 0 || take.to > p_.days) return false;
    for (int day = take.from; day < take.to; ++day) {
      if (take.amount > left_.resource[k][static_cast<std::size_t>(day)]) return false;
      if (prices_) option.cost += prices_->resource[k][static_cast<std::size_t>(day)] * take.amount;
      if (carries(take.resource, day))
        option.cells.push_back({key(take.resource, day), take.amount});
    }
    return true;
  }

  bool carries(int resource, int day) const {
    return (strict_.all_days && carried_.times.count(resource) > 0) ||
           carried_.days.count({resource, day}) > 0;
  }

  static void drop_dominated(std::vector<Option>& options) {
    std::vector<Option> kept;
    for (std::size_t i = 0; i < options.size(); ++i) {
      bool dominated = false;
      for (std::size_t j = 0; j < options.size() && !dominated; ++j) {
        if (i == j) continue;
        const Option &a = options[j], &b = options[i];
        const bool as_good = a.cost <= b.cost && a.most >= b.most && a.least <= b.least &&
                             contains(b.cells, a.cells);
        const bool same =
            a.cost == b.cost && a.most == b.most && a.least == b.least && a.cells == b.cells;
        dominated = as_good && (!same || j < i);
      }
      if (!dominated) kept.push_back(options[i]);
    }
    options = std::move(kept);
  }

  int key(int resource, int day) const { return resource * p_.days + day; }
  int supply_key(int supply) const {
    return static_cast<int>(p_.resources.size()) * p_.days + supply;
  }
  int capacity(int key) const {
    const int resource = key / p_.days;
    if (resource >= static_cast<int>(p_.resources.size())) return supply_shares;
    return left_
        .resource[static_cast<std::size_t>(resource)][static_cast<std::size_t>(key % p_.days)];
  }

  // Drops cells that no later step touches; labels that are then equal become one.
  void forget_past(int step) {
    bool changed = false;
    for (State& state : states_) changed |= drop_cells(state.label, step);
    if (!changed) return;
    std::vector<State> merged;
    for (State& state : states_) merge(merged, std::move(state));
    states_ = std::move(merged);
  }

  // Those whose last step comes before `step`.
  bool drop_cells(Label& label, int step) const {
    const auto gone = std::remove_if(label.begin(), label.end(), [&](const Cell& cell) {
      return last_step_.at(cell.key) < step;
    });
    const bool changed = gone != label.end();
    label.erase(gone, label.end());
    return changed;
  }

  // Positions before the step's are of no more use to it or to any later one.
  void merge(std::vector<State>& states, State&& state) {
    for (State& other : states) {
      if (other.label != state.label) continue;
      for (std::size_t p = low_; p < state.value.size(); ++p)
        if (state.value[p] < other.value[p]) other.take(p, state, p, state.value[p]);
      gone_.push_back(std::move(state));
      return;
    }
    states.push_back(std::move(state));
  }

  // The label after `option` is taken, or none when there is not so much.
  std::optional<Label> joined(const Label& label, const Option& option) const {
    Label sum;
    sum.reserve(label.size() + option.cells.size());
    auto a = label.begin();
    for (const Cell& cell : option.cells) {
      while (a != label.end() && a->key < cell.key) sum.push_back(*a++);
      Cell both = cell;
      if (a != label.end() && a->key == cell.key) both.amount += (a++)->amount;
      if (both.amount > capacity(cell.key)) return std::nullopt;
      sum.push_back(both);
    }
    sum.insert(sum.end(), a, label.end());
    return sum;
  }

  void take_step(int i) {
    const Step& step = steps_[static_cast<std::size_t>(i)];
    sum_up(step);
    std::vector<State> reached;
    for (const State& state : states_)
      for (std::size_t o = 0; o < step.options.size(); ++o) {
        auto label = joined(state.label, step.options[o]);
        if (!label) continue;
        drop_cells(*label, i + 1);
        if (reached.size() > 2 * most_labels_ && !strict_.beam) break;
        State& to = state_of(reached, std::move(*label));
        slide(state, step, static_cast<int>(o), to);
      }
    if (strict_.beam && reached.size() > 4 * most_labels_) keep_best(reached, 2 * most_labels_);
    for (State& state : reached) merge(states_, std::move(state));
    for (State& state : states_) close(state);
  }

  State& state_of(std::vector<State>& states, Label&& label) {
    for (State& state : states)
      if (state.label == label) return state;
    states.push_back(fresh(std::move(label)));
    return states.back();
  }

  // A state that nothing has reached, in the memory of one that is gone.
  State fresh(Label&& label) {
    State state;
    if (!gone_.empty()) {
      state = std::move(gone_.back());
      gone_.pop_back();
    }
    state.label = std::move(label);
    state.value.resize(positions() + 1);
    state.record.resize(positions() + 1);
    state.reached.resize(positions() + 1);
    std::fill(state.value.begin() + static_cast<std::ptrdiff_t>(low_), state.value.end(), never);
    return state;
  }

  // The running sums of waiting allowance and of all that a unit costs, from the first unit on.
  void sum_up(const Step& step) {
    waiting_.resize(positions() + 1);
    running_.resize(positions() + 1);
    waiting_[static_cast<std::size_t>(step.low)] = 0;
    std::size_t d = 0;
    for (Units u = step.low; u < step.high; ++u) {
      while (first_unit_[d + 1] <= u) ++d;
      const auto at = static_cast<std::size_t>(u);
      const bool keeps = due_[d].last_use <= step.use_by;
      const Cost one = !keeps                ? miss_[at]
                       : strict_.only_missed ? 0
                                             : product_.waiting(due_[d].collect - step.ready);
      waiting_[at + 1] = waiting_[at] + one;
    }
    for (Units u = step.low; u <= step.high; ++u) {
      const auto at = static_cast<std::size_t>(u);
      running_[at] = waiting_[at] + step.per_unit * u;
    }
  }

  void slide(const State& from, const Step& step, int o, State& to) {
    const Option& option = step.options[static_cast<std::size_t>(o)];
    work_.done += step.high - step.low;
    window_.reset(positions() + 1);
    for (Units p = step.low + option.least; p <= step.high; ++p) {
      const auto enters = static_cast<std::size_t>(p - option.least);
      window_.push(p - option.least, from.value[enters] - running_[enters]);
      window_.drop_before(p - option.most);
      const auto at = static_cast<std::size_t>(p);
      offer(to, at, window_.key() + running_[at] + option.cost, o, p - window_.position(),
            from.record[static_cast<std::size_t>(window_.position())]);
    }
    if (option.least > 1) slide_small(from, step, o, to);
  }

  // Lots smaller than the least are made at the least; the rest is over.
  void slide_small(const State& from, const Step& step, int o, State& to) {
    const Option& option = step.options[static_cast<std::size_t>(o)];
    window_.reset(positions() + 1);
    for (Units p = step.low + 1; p <= step.high; ++p) {
      const auto enters = static_cast<std::size_t>(p - 1);
      window_.push(p - 1, from.value[enters] - waiting_[enters]);
      window_.drop_before(p - option.least + 1);
      const auto at = static_cast<std::size_t>(p);
      offer(to, at, window_.key() + waiting_[at] + option.cost + step.per_unit * option.least, o,
            option.least, from.record[static_cast<std::size_t>(window_.position())]);
    }
  }

  static void offer(State& to, std::size_t at, Cost value, int option, Units made, int before) {
    if (value >= to.value[at]) return;
    to.value[at] = value;
    to.record[at] = before;
    to.reached[at] = {option, made};
  }

  void write_down(State& state, int step) {
    for (std::size_t p = low_; p <= positions(); ++p) {
      if (state.reached[p].option < 0) continue;
      records_.push_back({step, state.reached[p].option, state.reached[p].made, state.record[p]});
      state.record[p] = static_cast<int>(records_.size()) - 1;
      state.reached[p] = {};
    }
  }

  // Any unit may be given up.
  void close(State& state) const {
    for (std::size_t u = low_; u < positions(); ++u)
      if (state.value[u] + miss_[u] < state.value[u + 1])
        state.take(u + 1, state, u, state.value[u] + miss_[u]);
  }

  // A state that takes as much and is nowhere cheaper.
  void drop_dominated_states() {
    if (states_.size() < 2) return;
    const auto no_cheaper = [&](const State& a, const State& b) {
      for (std::size_t p = low_; p <= positions(); ++p)
        if (a.value[p] < b.value[p]) return false;
      return true;
    };
    std::vector<State> kept;
    std::vector<bool> gone(states_.size(), false);
    for (std::size_t i = 0; i < states_.size(); ++i)
      for (std::size_t j = 0; j < states_.size() && !gone[i]; ++j)
        if (i != j && !gone[j] && contains(states_[i].label, states_[j].label) &&
            no_cheaper(states_[i], states_[j]))
          gone[i] = true;
    for (std::size_t i = 0; i < states_.size(); ++i)
      (gone[i] ? gone_ : kept).push_back(std::move(states_[i]));
    states_ = std::move(kept);
  }

  // The labels that come nearest to the cheapest at some position.
  void keep_best(std::vector<State>& states, std::size_t count) {
    std::vector<Cost> cheapest(positions() + 1, never);
    for (const State& state : states)
      for (std::size_t p = low_; p <= positions(); ++p)
        cheapest[p] = std::min(cheapest[p], state.value[p]);
    std::vector<std::pair<Cost, std::size_t>> behind;
    for (std::size_t i = 0; i < states.size(); ++i) {
      Cost least = never;
      for (std::size_t p = low_; p <= positions(); ++p)
        least = std::min(least, states[i].value[p] - cheapest[p]);
      behind.emplace_back(least, i);
    }
    std::stable_sort(behind.begin(), behind.end());
    std::vector<State> kept;
    for (const auto& [least, i] : behind)
      (kept.size() < count ? kept : gone_).push_back(std::move(states[i]));
    states = std::move(kept);
  }

  RunAnswer answer() const {
    const State* best = &states_.front();
    for (const State& state : states_)
      if (state.value.back() < best->value.back()) best = &state;
    RunAnswer answer;
    answer.value = best->value.back();
    for (int r = best->record.back(); r >= 0; r = records_[static_cast<std::size_t>(r)].before) {
      const Record& record = records_[static_cast<std::size_t>(r)];
      const Step& step = steps_[static_cast<std::size_t>(record.step)];
      if (step.session < 0) continue;
      answer.held.push_back({index_, static_cast<std::size_t>(step.session),
                             step.options[static_cast<std::size_t>(record.option)].setup,
                             record.made});
    }
    std::stable_sort(answer.held.begin(), answer.held.end(),
                     [](const Held& a, const Held& b) { return a.session < b.session; });
    return answer;
  }

  const Problem& p_;
  const Product& product_;
  std::size_t index_;
  const Left& left_;
  const Prices* prices_;
  const Effort& effort_;
  const Carried& carried_;
  Strictness strict_;
  Work& work_;

  std::vector<Due> due_;           // by collecting day, with units
  std::vector<Units> first_unit_;  // of each due, and one past the last
  std::vector<Cost> miss_;         // by unit
  std::vector<Step> steps_;
  std::unordered_map<int, int> last_step_;  // that touches a cell
  std::size_t most_labels_ = 1;
  std::size_t low_ = 0;  // the first position that the step may serve from
  std::vector<State> states_;
  std::vector<State> gone_;  // whose memory can be used again
  std::vector<Record> records_;
  std::vector<Cost> waiting_, running_;  // by position
  SlidingMinimum window_;
};

}  // namespace

std::optional<RunAnswer> run_labels(const Problem& problem, std::size_t product, const Left& left,
                                    const Prices* prices, const Effort& effort,
                                    const Carried& carried, Strictness strictness, Work& work) {
  return LabelRun(problem, product, left, prices, effort, carried, strictness, work).run();
}

}  // namespace wheyfield::lot_sizing
