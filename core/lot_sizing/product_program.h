// The exact dynamic programme of one product.
//
// What is due stands in a row by collecting day, unit after unit; position p means: the first p
// units are served or given up. Sessions are taken in the order of their ready days, and a session
// moves the position on by what it makes:
//
//   V(p') = setup + F(p') + min { V(p) - F(p) : p' - most <= p <= p' - least }
//
// with F the running sum of unit price and waiting allowance from that ready day, so that the
// minimum over a window is a sliding one and a session costs O(positions). A unit that is given up
// costs its miss. First in, first out is the best sharing out when lots keep equally long, so the
// row loses nothing. Lots below `least` are made at `least` and the rest is over.
//
// Which vessels are in use is carried in labels: for the resource days that matter, how much is
// taken. At first none is carried, which can only be too good: a lower bound. What the best plan
// then takes too much of is carried in the next round (state space relaxation), until a plan keeps
// every limit: that plan is proven best. Too many labels: the best ones are kept (a beam) and the
// bound of the round before stands.
//
// Where some dues are dearer to miss than others, a lot may pass over cheap units to serve later
// ones: for two levels the row says that too (row_view.h), as long as waiting longer never costs
// more. With further levels, or where it does, the row only looks for plans, and the bound is that
// of the row with the dearer dues as cheap to miss as those it tells apart, and for each level
// above what no plan can leave less short of the dues that cost at least so much.
//
// Supplies that several sessions share, and dues that are used longer than later ones, are carried
// in labels as well once they are found to bind.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "lot_sizing/limits.h"
#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

// Prices of shared things, to find bounds; all >= 0.
struct Prices {
  std::vector<std::vector<Cost>> resource;  // [resource][day], for one of it
  std::vector<Cost> supply;                 // a thousandth of it for one of each supply's measure
};

struct Effort {
  int rounds = 80;               // of carrying more resource days, for one product
  int labels = 600;              // carried side by side
  int beam = 200;                // labels kept when there are more
  int price_steps = 25;          // of Lagrangian prices
  std::int64_t work = 10000000;  // positions looked at in one pass, by which labels are limited
  std::int64_t most_work = 60000000;  // in all, after which nothing more is tried
};

// Positions looked at so far.
struct Work {
  std::int64_t done = 0;
};

// Resource days carried in labels, and what else was found to bind. Handed from one solution to
// the next of the same product it saves rounds; it never changes what is true of the answer.
struct Carried {
  std::set<std::pair<int, int>> days;  // (resource, day)
  // By supply, from which amounts on what lots draw is told apart.
  std::map<int, std::set<std::int64_t>> supplies;
  std::set<std::size_t> late;  // dues whose own last use is looked at
  std::map<int, int> times;    // how often a resource was found to bind
};

struct ProductAnswer {
  std::vector<Held> held;     // by session; keeps every limit of `left`
  Cost cost = 0;              // of `held`, prices included, packs not
  Cost bound = 0;             // no plan of this product within `left` costs less
  std::vector<Held> relaxed;  // the plan behind `bound`; may take too much
  bool proven() const { return cost <= bound; }
};

class ProductProgram {
 public:
  // `problem` outlives the programme.
  ProductProgram(const Problem& problem, std::size_t product);

  ProductAnswer solve(const Left& left, const Prices* prices, const Effort& effort,
                      Carried& carried, Work& work);

  // Only the bound, of the days carried so far: no limit beyond them is kept.
  ProductAnswer bound(const Left& left, const Prices* prices, const Effort& effort,
                      const Carried& carried, Work& work);

  // No plan within `left` misses less.
  Cost least_missed(const Left& left, const Effort& effort, const Carried& carried, Work& work);

 private:
  bool unequal() const { return even_ != nullptr; }
  ProductAnswer even_bound(const Left& left, const Prices* prices, const Effort& effort,
                           const Carried& carried, Work& work);
  Cost above_even(const Effort& effort, const Carried& carried, Work& work);

  const Problem* problem_;
  std::size_t product_;
  std::vector<Cost> levels_;             // what a unit left short costs, the dearest first
  std::size_t told_apart_ = 1;           // of them, the cheapest, by the row
  std::shared_ptr<const Problem> even_;  // those above as cheap to miss as the dearest of these
  std::optional<Cost> above_even_;
};

}  // namespace wheyfield::lot_sizing
