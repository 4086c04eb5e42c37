// An independent judge of plans: knows the limits of a problem, not how a plan was found.
#pragma once

#include <vector>

#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

enum class Limit {
  no_such_session,  // product, session or setup that is not there
  held_twice,       // one session in two setups
  lot_size,         // units below the setup's least or above its most
  resource,         // more of a resource taken on a day than there is
  supply,           // more drawn on a supply than can be had
  cans              // more cans in use at the end of a day than there are
};

struct Broken {
  Limit limit;
  std::size_t index = 0;  // of the held session, resource or supply
  int day = 0;            // resource and cans

  friend bool operator==(const Broken& a, const Broken& b) {
    return a.limit == b.limit && a.index == b.index && a.day == b.day;
  }
};

// Empty when the plan keeps every limit; by limit, index and day.
std::vector<Broken> broken_limits(const Problem& problem, const Plan& plan);

// What may be taken.
struct Left {
  std::vector<std::vector<int>> resource;  // [resource][day]
  std::vector<std::int64_t> supply;
  std::vector<int> cans;  // at the end of each day 0..days; empty: no limit
};
Left all_of(const Problem& problem);

// The same without what the plan takes.
Left without(const Problem& problem, Left left, const Plan& plan);

// Empty when the plan takes no more than that. Precondition: its sessions are there.
std::vector<Broken> broken_within(const Problem& problem, const Left& left, const Plan& plan);

}  // namespace wheyfield::lot_sizing
