// Which weekday each group meets: an assignment of groups to days on which trainers have visits
// left.
//
// A minimum-cost flow, exact on whole numbers: groups are placed one after the other, each along
// the cheapest path of moves that frees a visit (a group to a day, another from there to a third,
// ...). With d days such a path costs d^3 comparisons and one look at every group already placed,
// so n groups cost about n^2 d; 1,000 groups and 7 days take some milliseconds. Ties go to the day
// and the group that come first.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "programme/worth.h"

namespace wheyfield::programme {

struct DayChoice {
  // By group, then by day; none where the group cannot meet on that day. As long as `visits`.
  std::vector<std::vector<std::optional<Worth>>> worth;
  std::vector<std::size_t> visits;  // that trainers can make on each day
};

struct ChosenDays {
  std::vector<std::size_t> day;  // of each group
  Worth total;
};

// None when there is no way to place all groups.
std::optional<ChosenDays> choose_days(const DayChoice& choice);

// Each group on its own best day, as if visits never ran out: no choice is worth less. Ties as
// above. Precondition: every group has a day.
ChosenDays own_best_days(const DayChoice& choice);

}  // namespace wheyfield::programme
