#include "lot_sizing/problem.h"

#include <algorithm>
#include <numeric>

namespace wheyfield::lot_sizing {

Cost Product::waiting(int slack) const {
  if (wait.empty()) return 0;
  return wait[static_cast<std::size_t>(std::clamp(slack, 0, static_cast<int>(wait.size()) - 1))];
}

Units Product::total_due() const {
  return std::accumulate(due.begin(), due.end(), Units{0},
                         [](Units sum, const Due& d) { return sum + d.units; });
}

}  // namespace wheyfield::lot_sizing
