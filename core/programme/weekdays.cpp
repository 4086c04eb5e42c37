#include "programme/weekdays.h"

#include <algorithm>

namespace wheyfield::programme {
namespace {

constexpr std::size_t nobody = static_cast<std::size_t>(-1);

// The cheapest move from one day to another: which group, and what it adds.
struct Move {
  std::size_t group = nobody;
  Worth adds;
};

// The cheapest known way to put the newcomer somewhere and end with one group more on a day.
struct Reached {
  bool at_all = false;
  Worth adds;
  std::size_t from = nobody;  // the day before on the path; nobody: the newcomer comes here itself
};

class Placing {
 public:
  explicit Placing(const DayChoice& choice)
      : choice_(choice),
        days_(choice.visits.size()),
        placed_(days_, 0),
        moves_(days_, std::vector<Move>(days_)) {}

  bool place(std::size_t group) {
    gather_moves();
    find_ways(group);
    std::size_t end = nobody;
    for (std::size_t d = 0; d < days_; ++d)
      if (ways_[d].at_all && placed_[d] < choice_.visits[d] &&
          (end == nobody || ways_[d].adds < ways_[end].adds))
        end = d;
    if (end == nobody) return false;
    ++placed_[end];
    while (ways_[end].from != nobody) {
      const std::size_t before = ways_[end].from;
      day_[moves_[before][end].group] = end;
      end = before;
    }
    day_.push_back(end);
    return true;
  }

  std::vector<std::size_t> days() && { return std::move(day_); }

 private:
  void gather_moves() {
    for (auto& row : moves_) std::fill(row.begin(), row.end(), Move{});
    for (std::size_t g = 0; g < day_.size(); ++g) {
      const auto& worth = choice_.worth[g];
      for (std::size_t to = 0; to < days_; ++to) {
        if (to == day_[g] || !worth[to]) continue;
        const Worth adds = *worth[to] - *worth[day_[g]];
        Move& best = moves_[day_[g]][to];
        if (best.group == nobody || adds < best.adds) best = {g, adds};
      }
    }
  }

  // Bellman and Ford's way: days are few, and moves may gain.
  void find_ways(std::size_t group) {
    ways_.assign(days_, Reached{});
    for (std::size_t d = 0; d < days_; ++d)
      if (choice_.worth[group][d]) ways_[d] = {true, *choice_.worth[group][d], nobody};
    for (std::size_t round = 1; round < days_; ++round)
      for (std::size_t from = 0; from < days_; ++from)
        for (std::size_t to = 0; to < days_; ++to) {
          if (!ways_[from].at_all || moves_[from][to].group == nobody) continue;
          const Worth adds = ways_[from].adds + moves_[from][to].adds;
          if (!ways_[to].at_all || adds < ways_[to].adds) ways_[to] = {true, adds, from};
        }
  }

  const DayChoice& choice_;
  std::size_t days_;
  std::vector<std::size_t> placed_;
  std::vector<std::size_t> day_;  // of the groups placed so far
  std::vector<std::vector<Move>> moves_;
  std::vector<Reached> ways_;
};

Worth total_of(const DayChoice& choice, const std::vector<std::size_t>& day) {
  Worth total;
  for (std::size_t g = 0; g < day.size(); ++g) total += *choice.worth[g][day[g]];
  return total;
}

}  // namespace

std::optional<ChosenDays> choose_days(const DayChoice& choice) {
  Placing placing(choice);
  for (std::size_t g = 0; g < choice.worth.size(); ++g)
    if (!placing.place(g)) return std::nullopt;
  std::vector<std::size_t> day = std::move(placing).days();
  const Worth total = total_of(choice, day);
  return ChosenDays{std::move(day), total};
}

ChosenDays own_best_days(const DayChoice& choice) {
  ChosenDays best;
  for (const auto& worth : choice.worth) {
    std::size_t day = nobody;
    for (std::size_t d = 0; d < worth.size(); ++d)
      if (worth[d] && (day == nobody || *worth[d] < *worth[day])) day = d;
    best.day.push_back(day);
  }
  best.total = total_of(choice, best.day);
  return best;
}

}  // namespace wheyfield::programme
