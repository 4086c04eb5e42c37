// When the lorry comes and with how many cans: lot sizing over its trips, exact.
//
// Cans stand in a row by the day on which they are needed. V(p) is the least cost of bringing, or
// giving up, the first p of them by the trips looked at so far:
//     V'(p') = trip + keeping of the cans p+1..p' + min { V(p) : p' - holds <= p < p' }
// a minimum over a sliding window, so a trip costs as many steps as there are cans. A can may come
// early, never late: those needed before a day on which the lorry may come, and not brought, are
// given up. What cannot be brought in time counts before money; of two answers that cost the same
// the one is better that brings cans later. Without a limit of cans it is the problem of Wagner and
// Whitin (1958).
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "calendar/date.h"
#include "quantity/money.h"

namespace wheyfield::programme {

// A full can that a group must have on the day.
struct Can {
  calendar::Date needed;
  std::size_t group = 0;
};

struct Lorry {
  quantity::Money trip;                  // > 0
  std::size_t holds = 0;                 // cans, > 0
  std::size_t trips_a_day = 1;           // > 0
  quantity::Money keeping_week;          // of one can that came a week early
  std::vector<calendar::Date> may_come;  // ascending, without repeats
};

struct Trip {
  calendar::Date on;
  std::vector<std::size_t> cans;  // indices into the cans handed in, by the day of their need
};

struct Deliveries {
  std::vector<Trip> trips;               // by day; none of them empty
  std::vector<std::size_t> not_brought;  // cans that no trip can bring in time
  quantity::Money trips_cost;
  quantity::Money keeping_cost;  // to the thousandth, rounded down
  std::int64_t can_days = 0;     // days that cans stand before their need, summed
};

// `cans` in any order; of cans needed on one day the lower group's come first.
Deliveries plan_deliveries(const std::vector<Can>& cans, const Lorry& lorry);

}  // namespace wheyfield::programme
