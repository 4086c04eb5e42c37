// What a pass of the dynamic programme goes along: the row of units due, and the steps, each a lot
// of the stock or a session with the ways to hold it.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "lot_sizing/label_run.h"

namespace wheyfield::lot_sizing {

// A resource on a day, or a supply, and how much of it.
struct Cell {
  int key;
  std::int64_t amount;
  friend bool operator==(const Cell& a, const Cell& b) {
    return a.key == b.key && a.amount == b.amount;
  }
};
using Label = std::vector<Cell>;  // by key

// True when `all` takes at least as much of everything as `some`.
bool contains(const Label& all, const Label& some);

struct LabelOption {
  std::size_t setup = 0;
  Cost cost = 0;
  Units least = 0;
  Units most = 0;
  Label cells;
  bool smallest = true;  // lots below `least` are made at `least`
};

// A session, or a lot of the stock, which costs nothing and takes nothing.
struct LabelStep {
  int session = -1;
  int ready = 0;
  int use_by = 0;
  Cost per_unit = 0;
  Units low = 0, high = 0;  // positions it may serve from and to
  int supply_key = -1;      // of the supply that earlier steps may have drawn on
  std::int64_t supply = 0;  // of it in all
  std::int64_t supply_per_unit = 0;
  std::vector<LabelOption> options;
};

class LabelSteps {
 public:
  LabelSteps(const Problem& problem, std::size_t product, const Left& left, const Prices* prices,
             const Carried& carried, Strictness strictness);

  std::size_t positions() const { return miss_.size(); }
  // The row: dues with units by collecting day, the first unit of each and one past the last.
  const std::vector<Due>& due() const { return due_; }
  const std::vector<Units>& first_unit() const { return first_unit_; }
  const std::vector<Cost>& miss() const { return miss_; }  // by unit
  Cost cheapest() const { return cheapest_; }              // miss of a unit
  std::size_t due_at(Units position) const;                // whose unit it is, or past the last
  Cost waiting(std::size_t d, const LabelStep& step) const;

  // A due told apart that the step's lots would serve in time but do not keep for.
  bool left_to_later(std::size_t d, const LabelStep& step) const;
  int late_key(std::size_t d) const;  // of the cell that says it was passed over
  int late_due(int key) const;        // the due of such a cell, -1: another cell

  const std::vector<LabelStep>& steps() const { return steps_; }
  // The last that touches the cell; past the end for dues passed over.
  int last_step(int key) const;
  std::int64_t capacity(int key) const;

 private:
  void line_up();
  void find_span(LabelStep& step) const;
  int free_cans(int day) const;
  void add_stock(const Lot& lot);
  void add_session(std::size_t s);
  void add_option(LabelStep& step, const Session& session, std::size_t k, Units supply_most) const;
  bool take_fits(const Take& take, LabelOption& option) const;
  bool carries(int resource, int day) const;
  bool carries_supply(int supply) const;
  void tell_draws_apart();
  std::vector<std::int64_t> marks(int supply) const;
  std::vector<LabelOption> by_marks(const LabelStep& step, int supply) const;

  const Problem& p_;
  const Product& product_;
  const Left& left_;
  const Prices* prices_;
  const Carried& carried_;
  Strictness strict_;

  std::vector<Due> due_;
  std::vector<Units> first_unit_;
  std::vector<Cost> miss_;
  Cost cheapest_ = never;
  std::vector<std::size_t> which_;  // due of the product, of each of the row
  std::vector<LabelStep> steps_;
  std::unordered_map<int, int> last_step_;
};

}  // namespace wheyfield::lot_sizing
