// How a plan fares when lots fail or come late: many seasons of chance, and the re-brew rule.
//
// Each planned lot draws its delay and, on the day it is ready at last, whether it has failed. A
// failed lot is brewed again by the re-brew rule: of the product's sessions that the plan does not
// hold and that start after that day, the one ready earliest in which something fits into what the
// plan and the season's other re-brews leave free of resources and supplies; as much again, up to
// the setup's most. A re-brew may fail too. Nothing is brewed that would be ready after the
// product's last day of use.
//
// Sharing out goes day by day: who waits longest first, from what would spoil first. What is there
// on its collecting day is on time; what comes by the last use is late; the rest is missed. What
// the plan itself leaves short (serve.h) is missed in every season and asks for nothing.
//
// Not in it: stock never fails; a late lot keeps its days of life and blocks nobody's vessels
// longer than planned; a re-brew asks neither for meeting days nor for cans beyond its session's.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include "lot_sizing/problem.h"
#include "lot_sizing/waiting.h"

namespace wheyfield::lot_sizing {

// Counts over seasons. Whole numbers: parts of the work add up to the same whole in any order.
struct DueTally {
  std::int64_t in_full = 0;  // seasons in which all of it was there on its day
  std::int64_t on_time = 0;  // units, of all seasons
  std::int64_t late = 0;
  std::int64_t missed = 0;
};

struct ProductTally {
  std::vector<DueTally> due;
  std::int64_t all_on_time = 0;                 // seasons
  std::map<Units, std::int64_t> units_on_time;  // units on time -> seasons with so many
  std::int64_t failed = 0;                      // lots, re-brews among them
  std::int64_t rebrewed = 0;
};

struct Tally {
  std::int64_t seasons = 0;
  std::int64_t all_on_time = 0;  // seasons in which every product was
  std::vector<ProductTally> products;

  void add(const Tally& more);  // of the same plan, other seasons
};

// Of a tally of at least one season; units of one product only, for each has its own grid. A due of
// nothing is on time.
double share_in_full(const Tally& tally, std::size_t product, std::size_t due);  // seasons
double share_on_time(const Tally& tally, std::size_t product, std::size_t due);  // units
double share_on_time(const Tally& tally, std::size_t product);
double share_all_on_time(const Tally& tally, std::size_t product);
double share_all_on_time(const Tally& tally);
double mean_on_time(const Tally& tally, std::size_t product);  // units a season
double mean_missed(const Tally& tally, std::size_t product);
// Mean share of units on time over the worst twentieth of the seasons, rounded up to whole ones.
double share_on_time_worst(const Tally& tally, std::size_t product);

// What became of one lot of a season.
struct Attempt {
  Held held;
  std::size_t chain = 0;  // the planned lot it stands for, as Plan::held counts
  int ready = 0;          // in fact
  bool failed = false;
};

class Seasons {
 public:
  // Preconditions: the sessions of the plan are there; one entry of `chances` for each product;
  // `problem` outlives this.
  Seasons(const Problem& problem, Plan plan, std::vector<Chances> chances);

  // Seasons first .. first + count - 1 of `seed`. Each lot of each season has its own stream: the
  // same season whoever works it out, and a lot meets the same luck in another plan.
  Tally run(std::uint64_t seed, std::int64_t first, std::int64_t count) const;

  // One season told: the planned lots, then the re-brews as they were decided.
  std::vector<Attempt> attempts(std::uint64_t seed, std::int64_t season) const;

 private:
  class OneSeason;  // plays one after another in the same memory

  struct Option {  // a session and the setups of it that fit beside the plan
    std::size_t session = 0;
    std::vector<std::size_t> setups;
  };
  struct Ask {  // a due as the plan serves it
    std::size_t due = 0;
    int collect = 0;
    int last_use = 0;
    Units units = 0;
    Units short_units = 0;  // beside them
  };
  struct Side {                   // what does not change from season to season, of one product
    std::vector<Ask> asks;        // by collecting day
    std::vector<Option> options;  // by ready day
    int last_use = -1;
  };

  void add_asks(std::size_t product);
  void add_options(std::size_t product, const std::vector<bool>& held);

  const Problem& problem_;
  Plan plan_;
  std::vector<Chances> chances_;
  std::vector<Side> sides_;
  std::vector<std::vector<int>> free_;  // [resource][day], beside the plan
  std::vector<std::int64_t> supplies_;
};

}  // namespace wheyfield::lot_sizing
