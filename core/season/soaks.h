// Soaking before sowing, a line for each field whose seed is soaked: how long, in how much.
#pragma once

#include <vector>

#include "dosing/soak.h"
#include "season/plan.h"

namespace wheyfield::season {

struct SoakLine {
  std::size_t farm = 0;
  std::size_t field = 0;
  dosing::Soak soak;  // of the weighed seed, or of 1 kg when it was not weighed
  bool weighed = false;
};

// In the order of farms and fields; only soaks that are planned. Precondition: the section "soak"
// is readable (make_plan refused otherwise). Rows used are noted in `used`.
std::vector<SoakLine> soak_lines(const Season& season, const SeasonPlan& plan,
                                 const reference_data::ReferenceData& data,
                                 reference_data::UsedSources& used);

}  // namespace wheyfield::season
