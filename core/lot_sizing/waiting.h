// The allowance for lots that fail or come late: what it is worth to be ready some days early.
//
// A lot that should be ready `s` days before it is collected is late by l days with the share p_l,
// and then fails with the share p; a failed lot is brewed again and takes the re-brew lead R. The
// chance that nothing is there on the collecting day:
//
//   P(s) = sum over l of p_l [ (1 - p) 1(l > s) + p Q(s - l) ],  Q(u) = 1 if u < R, else P(u - R)
//
// about p below R, p squared from R to 2 R. docs/models/season-risk.md.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

constexpr std::int32_t million = 1'000'000;  // shares are parts of a million

// What may befall a lot. Each lot for itself: one bad source of milk for several is not in here.
struct Chances {
  std::int32_t failed = 0;                             // 0 .. a million
  std::array<std::int32_t, 4> late{million, 0, 0, 0};  // by 0, 1, 2, 3 days; together a million
};

// P(0) .. P(horizon) in parts of a thousand million, each level rounded. lead >= 1, horizon >= 0.
std::vector<std::int64_t> chance_missed(const Chances& chances, int lead, int horizon);

// Product::wait: `miss`, the cost of a missed unit, times the lower convex envelope of P over the
// slacks 0 .. horizon, in whole thousandths that never rise, fall less and less, begin and end
// where the envelope does and nowhere lie above it by more than the rounding. About two leads make
// a good horizon: beyond it little is left to win. A whole unit should cost many thousandths, or
// the rounding is all there is.
std::vector<Cost> waiting_allowance(const Chances& chances, int lead, int horizon, Cost miss);

}  // namespace wheyfield::lot_sizing
