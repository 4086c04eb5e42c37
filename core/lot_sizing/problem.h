// The season's batches as a lot-sizing problem: dated demand, candidate sessions, shared resources.
//
// Knows no farming. Days are whole days from day 0 of the problem, amounts are whole units of each
// product's own grid, money is whole thousandths: every decision rests on integers and is the same
// on every machine. docs/models/lot-sizing.md has the symbols.
#pragma once

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace wheyfield::lot_sizing {

using Cost = std::int64_t;
using Units = std::int32_t;

constexpr Cost never = std::numeric_limits<Cost>::max() / 4;  // costs more than any plan

// What is collected on one day. A lot serves it when it is ready by `collect` and keeps until
// `last_use`.
struct Due {
  int collect = 0;
  int last_use = 0;  // >= collect
  Units units = 0;   // >= 0
  Cost miss = 0;     // for each unit that stays short; > 0
};

// What is there without any session: stock in hand, batches already under way.
struct Lot {
  int ready = 0;
  int use_by = 0;
  Units units = 0;
};

// So much of a resource on each day from..to-1.
struct Take {
  int resource = 0;  // index into Problem::resources
  int from = 0;
  int to = 0;
  int amount = 1;

  friend bool operator==(const Take& a, const Take& b) {
    return a.resource == b.resource && a.from == b.from && a.to == b.to && a.amount == b.amount;
  }
};

// One way to hold a session: the vessels it stands in, the hours it asks for.
struct Setup {
  std::vector<Take> takes;
  Units least = 1;  // smallest lot worth starting, 1 <= least <= most
  Units most = 0;   // largest lot it holds
  Cost cost = 0;    // for holding it at all, >= 0
};

// A chain of steps pinned to days.
struct Session {
  int start = 0;  // first day of work
  int ready = 0;
  int use_by = 0;                    // last day of use
  Cost per_unit = 0;                 // >= 0
  int supply = -1;                   // index into Problem::supplies, -1: none
  std::int64_t supply_per_unit = 0;  // > 0 when it draws on a supply
  std::vector<Setup> setups;         // it is held in at most one of them
};

struct Product {
  std::string name;
  std::vector<Due> due;
  std::vector<Lot> stock;
  std::vector<Session> sessions;
  // Allowance for each unit that is ready `slack` days before it is collected; convex, the last
  // entry holds for all longer slacks. Empty: none.
  std::vector<Cost> wait;
  Units units_per_can = 0;  // that one storage can holds; 0: not stored in cans

  Cost waiting(int slack) const;
  Units total_due() const;
};

// Bought in packs that keep for the season. `price` of the pack, `size` in the material's measure.
struct Pack {
  std::int64_t size = 0;  // > 0
  Cost price = 0;         // >= 0
};

struct Material {
  std::string name;
  std::vector<std::int64_t> per_unit;  // one for each product
  std::int64_t in_hand = 0;
  std::vector<Pack> packs;
};

// Capacity of a resource on each day 0..days-1; days outside have none.
struct Resource {
  std::string name;
  std::vector<int> capacity;
};

struct Problem {
  int days = 0;
  std::vector<Resource> resources;
  std::vector<std::int64_t> supplies;  // what can be had, one for each supply and day it comes
  std::vector<Product> products;
  std::vector<Material> materials;
  int cans = -1;  // for storage, of all products together; -1: no limit
};

// A session that is held.
struct Held {
  std::size_t product = 0;
  std::size_t session = 0;
  std::size_t setup = 0;
  Units units = 0;  // made, setup.least <= units <= setup.most
};

struct Plan {
  std::vector<Held> held;  // by product, then session
};

// Who is served from what: `from_lot[d]` are (lot, units) of due d; lots are the product's stock,
// then its held sessions in the plan's order.
struct Served {
  struct Draw {
    std::size_t lot = 0;
    Units units = 0;
  };
  std::vector<std::vector<Draw>> draws;  // one list for each due
  std::vector<Units> short_units;        // one for each due
};

}  // namespace wheyfield::lot_sizing
