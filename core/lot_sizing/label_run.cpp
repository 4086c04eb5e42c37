#include "lot_sizing/label_run.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <utility>

#include "lot_sizing/label_steps.h"
#include "lot_sizing/row_view.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr std::size_t least_labels = 24;  // kept however much work they are

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

class LabelRun {
 public:
  LabelRun(const Problem& problem, std::size_t product, const Left& left, const Prices* prices,
           const Effort& effort, const Carried& carried, Strictness strictness, Work& work)
      : product_(problem.products[product]),
        index_(product),
        effort_(effort),
        strict_(strictness),
        work_(work),
        row_(problem, product, left, prices, carried, strictness),
        miss_(row_.miss()),
        steps_(row_.steps()),
        begun_(work.done),
        most_labels_(static_cast<std::size_t>(strictness.beam ? effort.beam : effort.labels)) {}

  std::optional<RunAnswer> run() {
    State first;
    first.value.resize(positions() + 1, 0);
    first.record.assign(positions() + 1, -1);
    first.reached.resize(positions() + 1);
    states_.push_back(std::move(first));
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      settle(static_cast<std::size_t>(steps_[i].low));
      give_up_late(steps_[i].ready);
      forget_past(static_cast<int>(i));
      take_step(static_cast<int>(i));
      drop_dominated_states();
      if (!limit_labels(static_cast<int>(i))) return std::nullopt;
      for (State& state : states_) write_down(state, static_cast<int>(i));
    }
    settle(positions());
    give_up_late(std::numeric_limits<int>::max());
    settle(positions() + 1);
    return answer();
  }

 private:
  // Beyond what lots have reached all is given up; written out only as far as it is looked at.
  void reach(std::size_t top) {
    if (top <= top_) return;
    for (State& state : states_)
      for (std::size_t u = top_; u < top; ++u)
        state.take(u + 1, state, u, std::min(never, state.value[u] + miss_[u]));
    top_ = top;
  }

  // What no later step changes.
  void settle(std::size_t low) {
    reach(std::min(low, positions()));
    for (std::size_t p = least_.size(); p < low; ++p) {
      Cost least = never;
      for (const State& state : states_) least = std::min(least, state.value[p]);
      least_.push_back(least);
    }
    low_ = low;
  }

  std::size_t positions() const { return row_.positions(); }
  Units whole_row() const { return static_cast<Units>(positions()); }

  // Too much work for a pass, at this rate.
  bool too_slow(int step) const {
    const auto steps = static_cast<std::int64_t>(steps_.size());
    return (work_.done - begun_) / (step + 1) > effort_.work / steps;
  }

  // Keeps the best labels when there are too many and a beam is wanted, fewer when work runs out;
  // false when none may be dropped.
  bool limit_labels(int step) {
    const bool many = states_.size() > most_labels_;
    if (!strict_.beam) return !many && work_.done - begun_ <= effort_.work;
    if (too_slow(step)) most_labels_ = std::max<std::size_t>(least_labels, most_labels_ / 2);
    if (states_.size() > most_labels_) keep_best(states_, most_labels_);
    return true;
  }

  // Drops cells that no later step touches; labels that are then equal become one.
  void forget_past(int step) {
    bool changed = false;
    for (State& state : states_) changed |= drop_cells(state.label, step);
    if (changed) merge_equal();
  }

  void merge_equal() {
    std::vector<State> merged;
    for (State& state : states_) merge(merged, std::move(state));
    states_ = std::move(merged);
  }

  // Those whose last step comes before `step`.
  bool drop_cells(Label& label, int step) const {
    const auto gone = std::remove_if(label.begin(), label.end(), [&](const Cell& cell) {
      return row_.last_step(cell.key) < step;
    });
    const bool changed = gone != label.end();
    label.erase(gone, label.end());
    return changed;
  }

  // Positions before the step's are of no more use to it or to any later one.
  void merge(std::vector<State>& states, State&& state) {
    for (State& other : states) {
      if (other.label != state.label) continue;
      for (std::size_t p = low_; p <= top_; ++p)
        if (state.value[p] < other.value[p]) other.take(p, state, p, state.value[p]);
      gone_.push_back(std::move(state));
      return;
    }
    states.push_back(std::move(state));
  }

  // The label after `option` is taken, or none when there is not so much.
  std::optional<Label> joined(const Label& label, const LabelOption& option) const {
    Label sum;
    sum.reserve(label.size() + option.cells.size());
    auto a = label.begin();
    for (const Cell& cell : option.cells) {
      while (a != label.end() && a->key < cell.key) sum.push_back(*a++);
      Cell both = cell;
      if (a != label.end() && a->key == cell.key) both.amount += (a++)->amount;
      if (both.amount > row_.capacity(cell.key)) return std::nullopt;
      sum.push_back(both);
    }
    sum.insert(sum.end(), a, label.end());
    return sum;
  }

  void take_step(int i) {
    const LabelStep& step = steps_[static_cast<std::size_t>(i)];
    reach(static_cast<std::size_t>(step.high));
    views_ = views_of(row_, step);
    const std::int64_t before = slide_.work();
    std::vector<State> reached;
    for (const State& state : states_)
      for (std::size_t o = 0; o < step.options.size(); ++o) {
        auto label = joined(state.label, step.options[o]);
        if (!label) continue;
        drop_cells(*label, i + 1);
        if (reached.size() > 2 * most_labels_ && !strict_.beam) break;
        take_option(state, step, static_cast<int>(o), *label, reached);
      }
    work_.done += slide_.work() - before;
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
    std::fill(state.value.begin() + static_cast<std::ptrdiff_t>(low_),
              state.value.begin() + static_cast<std::ptrdiff_t>(top_) + 1, never);
    return state;
  }

  // What the label leaves of the step's supply, in units.
  static Units left_for(const LabelStep& step, const Label& label, Units most) {
    if (step.supply_key < 0) return most;
    for (const Cell& cell : label)
      if (cell.key == step.supply_key)
        return static_cast<Units>(
            std::min<std::int64_t>(most, (step.supply - cell.amount) / step.supply_per_unit));
    return most;
  }

  // All lots of an option on a view, after a state.
  void slide(const State& from, const LabelStep& step, int o, const RowView& view, LotRange lot,
             State& to) {
    const LabelOption& option = step.options[static_cast<std::size_t>(o)];
    lot.extra += option.cost;
    lot.least = option.least;
    lot.smallest = option.smallest;
    slide_.run(view, lot, step.per_unit, from.value,
               [&](std::size_t start, std::size_t end, Cost value, Units made) {
                 offer(to, end, value, o, made, from.record[start]);
               });
  }

  // What an option leads to: the lots of every view, dues passed over noted, and where the label
  // holds such dues also lots that serve some of them.
  void take_option(const State& from, const LabelStep& step, int o, const Label& label,
                   std::vector<State>& reached) {
    const LabelOption& option = step.options[static_cast<std::size_t>(o)];
    const Units most =
        std::min(left_for(step, from.label, option.most), std::max(option.least, whole_row()));
    if (most < option.least) return;
    const PassedOver over = passed_over(from.label, step);
    for (const RowView& view : views_) {
      if (!view.passed.empty() && contains_any(label, view.passed)) continue;
      Label sum = label;
      sum.insert(sum.end(), view.passed.begin(), view.passed.end());
      std::sort(sum.begin(), sum.end(), [](const Cell& a, const Cell& b) { return a.key < b.key; });
      LotRange lot;
      lot.most = most;
      slide(from, step, o, view, lot, state_of(reached, Label(sum)));
      if (over.cost.empty()) continue;
      const auto gone = std::remove_if(sum.begin(), sum.end(), [&](const Cell& cell) {
        return std::find(over.keys.begin(), over.keys.end(), cell.key) != over.keys.end();
      });
      sum.erase(gone, sum.end());
      State& served = state_of(reached, std::move(sum));
      const auto all = static_cast<Units>(over.cost.size());
      for (lot.beside = 1; lot.beside <= std::min(all, most); ++lot.beside) {
        lot.extra = over.cost[static_cast<std::size_t>(lot.beside) - 1];
        lot.most = most - lot.beside;
        slide(from, step, o, view, lot, served);
      }
      // A lot of nothing else may leave some of them to later ones. Here all cost what the cheapest
      // session takes then: too good rather than too bad.
      if (view.passed.empty())
        for (Units v = 0; v <= view.size(); ++v)
          offer(served, view.position(v),
                from.value[view.position(v)] + option.cost + over.cheapest, o,
                std::max(option.least, std::min(all, most)), from.record[view.position(v)]);
    }
  }

  static bool contains_any(const Label& label, const Label& cells) {
    return std::any_of(cells.begin(), cells.end(), [&](const Cell& cell) {
      return std::any_of(label.begin(), label.end(),
                         [&](const Cell& other) { return other.key == cell.key; });
    });
  }

  // Dues that earlier lots passed over and the step's may serve: what it costs to serve the first,
  // the first two units of them, and so on, and to give up the others.
  struct PassedOver {
    std::vector<int> keys;
    std::vector<Cost> cost;
    Cost cheapest = 0;  // of serving all, by whichever sessions can
  };
  PassedOver passed_over(const Label& label, const LabelStep& step) const {
    PassedOver over;
    std::vector<Cost> gains;
    Cost cost = 0;
    for (const Cell& cell : label) {
      const int d = row_.late_due(cell.key);
      if (d < 0) continue;
      const Due& due = row_.due()[static_cast<std::size_t>(d)];
      if (due.collect < step.ready || due.last_use > step.use_by) continue;
      over.keys.push_back(cell.key);
      cost += due.miss * due.units;
      over.cheapest += cheapest_service(static_cast<std::size_t>(d)) * due.units;
      const Cost one = row_.waiting(static_cast<std::size_t>(d), step) + step.per_unit;
      gains.insert(gains.end(), static_cast<std::size_t>(due.units), due.miss - one);
    }
    std::stable_sort(gains.begin(), gains.end(), std::greater<>());
    for (const Cost gain : gains) over.cost.push_back(cost -= gain);
    return over;
  }

  // Of a unit, by any session that keeps for the due.
  Cost cheapest_service(std::size_t d) const {
    Cost cheapest = never;
    for (const LabelStep& step : steps_)
      if (step.ready <= row_.due()[d].collect && step.use_by >= row_.due()[d].last_use)
        cheapest = std::min(cheapest, step.per_unit + row_.waiting(d, step));
    return cheapest;
  }

  // Dues passed over that no lot from that day on can serve are given up.
  void give_up_late(int day) {
    bool changed = false;
    for (State& state : states_) {
      Cost cost = 0;
      const auto gone =
          std::remove_if(state.label.begin(), state.label.end(), [&](const Cell& cell) {
            const int d = row_.late_due(cell.key);
            if (d < 0 || row_.due()[static_cast<std::size_t>(d)].collect >= day) return false;
            const Due& due = row_.due()[static_cast<std::size_t>(d)];
            cost += due.miss * due.units;
            return true;
          });
      state.label.erase(gone, state.label.end());
      if (cost == 0) continue;
      changed = true;
      for (std::size_t p = low_; p <= top_; ++p)
        if (state.value[p] < never) state.value[p] += cost;
    }
    if (changed) merge_equal();
  }

  static void offer(State& to, std::size_t at, Cost value, int option, Units made, int before) {
    if (value >= to.value[at]) return;
    to.value[at] = value;
    to.record[at] = before;
    to.reached[at] = {option, made};
  }

  void write_down(State& state, int step) {
    for (std::size_t p = low_; p <= top_; ++p) {
      if (state.reached[p].option < 0) continue;
      records_.push_back({step, state.reached[p].option, state.reached[p].made, state.record[p]});
      state.record[p] = static_cast<int>(records_.size()) - 1;
      state.reached[p] = {};
    }
  }

  // Any unit may be given up.
  void close(State& state) const {
    for (std::size_t u = low_; u < top_; ++u)
      if (state.value[u] + miss_[u] < state.value[u + 1])
        state.take(u + 1, state, u, state.value[u] + miss_[u]);
  }

  // A state that takes as much and is nowhere cheaper.
  void drop_dominated_states() {
    if (states_.size() < 2) return;
    const auto no_cheaper = [&](const State& a, const State& b) {
      for (std::size_t p = top_ + 1; p-- > low_;)  // what a lot gains shows at the end
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
    std::vector<Cost> cheapest(top_ + 1, never);
    for (const State& state : states)
      for (std::size_t p = low_; p <= top_; ++p)
        cheapest[p] = std::min(cheapest[p], state.value[p]);
    std::vector<std::pair<Cost, std::size_t>> behind;
    for (std::size_t i = 0; i < states.size(); ++i) {
      Cost least = never;
      for (std::size_t p = low_; p <= top_; ++p)
        least = std::min(least, states[i].value[p] - cheapest[p]);
      behind.emplace_back(least, i);
    }
    std::stable_sort(behind.begin(), behind.end());
    std::vector<State> kept;
    for (const auto& [least, i] : behind)
      (kept.size() < count ? kept : gone_).push_back(std::move(states[i]));
    states = std::move(kept);
  }

  RunAnswer answer() {
    const State* best = &states_.front();
    for (const State& state : states_)
      if (state.value.back() < best->value.back()) best = &state;
    RunAnswer answer;
    answer.value = best->value.back();
    answer.least = std::move(least_);
    for (int r = best->record.back(); r >= 0; r = records_[static_cast<std::size_t>(r)].before) {
      const Record& record = records_[static_cast<std::size_t>(r)];
      const LabelStep& step = steps_[static_cast<std::size_t>(record.step)];
      if (step.session < 0) continue;
      answer.held.push_back({index_, static_cast<std::size_t>(step.session),
                             step.options[static_cast<std::size_t>(record.option)].setup,
                             record.made});
    }
    std::stable_sort(answer.held.begin(), answer.held.end(),
                     [](const Held& a, const Held& b) { return a.session < b.session; });
    return answer;
  }

  const Product& product_;
  std::size_t index_;
  const Effort& effort_;
  Strictness strict_;
  Work& work_;

  LabelSteps row_;
  const std::vector<Cost>& miss_;
  const std::vector<LabelStep>& steps_;
  std::int64_t begun_;  // work done before
  std::size_t most_labels_;
  std::vector<Cost> least_;
  std::size_t top_ = 0;  // the last position written out
  std::size_t low_ = 0;  // the first position that the step may serve from
  std::vector<State> states_;
  std::vector<State> gone_;  // whose memory can be used again
  std::vector<Record> records_;
  std::vector<RowView> views_;  // of the step under way
  LotSlide slide_;
};

}  // namespace

std::optional<RunAnswer> run_labels(const Problem& problem, std::size_t product, const Left& left,
                                    const Prices* prices, const Effort& effort,
                                    const Carried& carried, Strictness strictness, Work& work) {
  return LabelRun(problem, product, left, prices, effort, carried, strictness, work).run();
}

}  // namespace wheyfield::lot_sizing
