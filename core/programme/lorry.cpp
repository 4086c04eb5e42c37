#include "programme/lorry.h"

#include <algorithm>
#include <array>
#include <deque>
#include <numeric>
#include <utility>

namespace wheyfield::programme {
namespace {

constexpr std::int64_t week = 7;

// Money in sevenths of a thousandth, so that a day of keeping is whole.
struct Paid {
  std::int64_t given_up = 0;
  std::int64_t sevenths = 0;
  std::int64_t can_days = 0;

  std::array<std::int64_t, 3> parts() const { return {given_up, sevenths, can_days}; }
  friend Paid operator+(const Paid& a, const Paid& b) {
    return {a.given_up + b.given_up, a.sevenths + b.sevenths, a.can_days + b.can_days};
  }
  friend Paid operator-(const Paid& a, const Paid& b) {
    return {a.given_up - b.given_up, a.sevenths - b.sevenths, a.can_days - b.can_days};
  }
  friend bool operator<(const Paid& a, const Paid& b) { return a.parts() < b.parts(); }
};

constexpr std::int32_t no_trip = -1;

class Trips {
 public:
  Trips(const std::vector<Can>& cans, const Lorry& lorry)
      : lorry_(lorry), value_(cans.size() + 1), reached_(cans.size() + 1, false) {
    reached_[0] = true;
    days_needed_.push_back(0);
    for (const Can& can : cans) {
      needed_.push_back(can.needed.days());
      days_needed_.push_back(days_needed_.back() + can.needed.days());
    }
  }

  void go_through() {
    for (std::size_t i = 0; i < lorry_.may_come.size(); ++i) {
      const int day = lorry_.may_come[i].days();
      const std::size_t due = due_before(day);
      std::size_t given_up_from = give_up(due);
      for (std::size_t n = 0; n < lorry_.trips_a_day; ++n) {
        calls_.push_back({i, due, given_up_from, come(day)});
        given_up_from = due;
      }
    }
  }

  // Cans [first, end) of the row that come on the day of this number.
  struct Load {
    std::size_t day;
    std::size_t first;
    std::size_t end;
  };

  // From the last.
  std::vector<Load> loads() const {
    std::vector<Load> found;
    std::size_t p = cheapest(needed_.size()).first;
    for (std::size_t n = calls_.size(); n-- > 0;) {
      const Call& call = calls_[n];
      if (call.from[p] != no_trip) {
        found.push_back({call.day, static_cast<std::size_t>(call.from[p]), p});
        p = found.back().first;
      }
      if (p == call.due) p = call.given_up_from;
    }
    return found;
  }

 private:
  // One coming of the lorry, before which the cans [given_up_from, due) were given up.
  struct Call {
    std::size_t day;
    std::size_t due;
    std::size_t given_up_from;
    std::vector<std::int32_t> from;  // by end of its load: where the load begins
  };

  std::size_t due_before(int day) const {
    return static_cast<std::size_t>(std::lower_bound(needed_.begin(), needed_.end(), day) -
                                    needed_.begin());
  }

  // Where it costs least to stand when the cans up to `end` that are not brought are given up. One
  // place up to `end` is always reached: the last one up to which cans were given up.
  std::pair<std::size_t, Paid> cheapest(std::size_t end) const {
    std::pair<std::size_t, Paid> best{end, {}};
    bool any = false;
    for (std::size_t p = 0; p <= end; ++p) {
      if (!reached_[p]) continue;
      const Paid paid = value_[p] + Paid{static_cast<std::int64_t>(end - p), 0, 0};
      if (!any || paid < best.second) best = {p, paid};
      any = true;
    }
    return best;
  }

  std::size_t give_up(std::size_t due) {
    const auto [from, paid] = cheapest(due);
    std::fill(reached_.begin(), reached_.begin() + static_cast<std::ptrdiff_t>(due), false);
    reached_[due] = true;
    value_[due] = paid;
    return from;
  }

  // What bringing the first p cans on this day would keep: only differences count.
  Paid kept(std::size_t p, int day) const {
    const std::int64_t days = days_needed_[p] - static_cast<std::int64_t>(p) * day;
    return {0, days * lorry_.keeping_week.thousandths(), days};
  }

  std::vector<std::int32_t> come(int day) {
    const Paid trip{0, lorry_.trip.thousandths() * week, 0};
    std::vector<Paid> next = value_;
    std::vector<bool> next_reached = reached_;
    std::vector<std::int32_t> from(value_.size(), no_trip);
    std::deque<std::size_t> window;  // of places before, the cheapest in front
    const auto offered = [&](std::size_t p) { return value_[p] - kept(p, day); };
    for (std::size_t p = 1; p < value_.size(); ++p) {
      if (reached_[p - 1]) {
        while (!window.empty() && offered(p - 1) < offered(window.back())) window.pop_back();
        window.push_back(p - 1);
      }
      while (!window.empty() && window.front() + lorry_.holds < p) window.pop_front();
      if (window.empty()) continue;
      const Paid paid = offered(window.front()) + kept(p, day) + trip;
      if (reached_[p] && !(paid < value_[p])) continue;
      next[p] = paid;
      next_reached[p] = true;
      from[p] = static_cast<std::int32_t>(window.front());
    }
    value_ = std::move(next);
    reached_ = std::move(next_reached);
    return from;
  }

  const Lorry& lorry_;
  std::vector<int> needed_;
  std::vector<std::int64_t> days_needed_;  // summed
  std::vector<Paid> value_;  // of standing there: the cans before are brought or given up
  std::vector<bool> reached_;
  std::vector<Call> calls_;
};

}  // namespace

Deliveries plan_deliveries(const std::vector<Can>& cans, const Lorry& lorry) {
  std::vector<std::size_t> order(cans.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::pair{cans[a].needed.days(), cans[a].group} <
           std::pair{cans[b].needed.days(), cans[b].group};
  });
  std::vector<Can> sorted;
  for (const std::size_t i : order) sorted.push_back(cans[i]);
  Trips trips(sorted, lorry);
  trips.go_through();
  Deliveries answer;
  std::vector<bool> brought(cans.size(), false);
  for (const Trips::Load& load : trips.loads()) {
    Trip trip{lorry.may_come[load.day], {}};
    for (std::size_t p = load.first; p < load.end; ++p) {
      trip.cans.push_back(order[p]);
      brought[p] = true;
      answer.can_days += sorted[p].needed - trip.on;
    }
    answer.trips_cost += lorry.trip;
    answer.trips.push_back(std::move(trip));
  }
  std::reverse(answer.trips.begin(), answer.trips.end());
  for (std::size_t p = 0; p < cans.size(); ++p)
    if (!brought[p]) answer.not_brought.push_back(order[p]);
  answer.keeping_cost =
      quantity::Money::from_thousandths(answer.can_days * lorry.keeping_week.thousandths() / week);
  return answer;
}

}  // namespace wheyfield::programme
