// CBC (COIN-OR branch and cut) behind lot_sizing/mip.h, through OsiClp and CbcModel. Never through
// CbcMain1 or CBC's C interface: from two threads these were seen to say "no solution" where there
// is one.
#pragma once

#include "lot_sizing/mip.h"

namespace wheyfield::solvers {

class CbcSolver : public lot_sizing::MipSolver {
 public:
  lot_sizing::MipResult solve(const lot_sizing::Mip& mip, const Limits& limits) const override;
  std::string name() const override;  // with its version
};

}  // namespace wheyfield::solvers
