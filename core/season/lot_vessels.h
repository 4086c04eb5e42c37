// Vessels as resources of a lot-sizing problem: which are alike, and which a batch may take
// together.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "lot_sizing/problem.h"
#include "season/lots.h"

namespace wheyfield::season {

// Vessels that a session of one product takes together. Nothing taken: all of the place at once,
// which only a bound may rest on.
struct VesselChoice {
  std::vector<std::pair<std::size_t, int>> taken;  // (kind, how many of it)
  int vessels = 0;
  lot_sizing::Units holds = 0;
  lot_sizing::Units least = 0;  // so that in each of them there is enough to work
};

class LotVessels {
 public:
  // `unit_ml`: of each product. In favour: capacities are rounded up, what works down.
  LotVessels(const std::vector<Prepared>& all, const std::vector<std::int64_t>& unit_ml,
             bool in_favour);

  const std::vector<std::vector<std::size_t>>& kinds() const { return kinds_; }
  int count(std::size_t kind) const { return count_[kind]; }
  // Of one vessel, that works.
  lot_sizing::Units least(std::size_t product) const { return least_[product]; }

  // Every choice of vessels of the place, and with `milk` where it is named, that holds more than
  // without its smallest, up to six vessels and 64 choices; no more than `most` is wanted.
  std::vector<VesselChoice> choices(std::size_t product, std::size_t place,
                                    const std::optional<Milk>& milk, lot_sizing::Units most) const;

 private:
  VesselChoice choice(std::size_t product, const std::vector<std::size_t>& kinds,
                      const std::vector<int>& count) const;
  void add_all_at_once(std::size_t product, const std::vector<std::size_t>& kinds,
                       lot_sizing::Units most, std::vector<VesselChoice>& found) const;

  bool in_favour_;
  bool without_limit_;
  std::vector<std::vector<std::size_t>> kinds_;           // vessels of each kind
  std::vector<std::vector<lot_sizing::Units>> capacity_;  // of each kind, for each product
  std::vector<std::size_t> place_;                        // of each kind
  std::vector<Milk> milk_;                                // of each kind, where it counts
  std::vector<int> count_;                                // vessels of each kind
  std::vector<lot_sizing::Units> least_;                  // that works, of each product
};

}  // namespace wheyfield::season
