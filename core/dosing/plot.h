// The dose of a trial plot, by syringe and never in caps, and the plain-water rehearsal before it.
//
//   water = plot area x the farm's mix per area;  serum = water / parts
// The plain-water twin comes first, from the clean can: no serum can reach it. Both plots get the
// same water.
#pragma once

#include <array>

#include "dosing/sprayer.h"

namespace wheyfield::dosing {

struct PlotStep {
  enum class Plot { plain_water, serum } plot;
  Volume water;
  Volume syringe;  // 0 on the twin; on the syringe's marks
};

struct PlotDose {
  Area area;
  Volume water;                   // for each plot
  Volume serum;                   // worked out
  Volume syringe;                 // to the nearest mark of the syringe
  double off;                     // syringe / serum - 1
  std::array<PlotStep, 2> order;  // plain water first
};
// Precondition parts > 1. Fields /length, /width [m], /rate [L/ha], /syringe_step [mL]. Error:
// plot-dose-small when the nearest mark is more than `tolerance` off (a bigger plot, a finer
// syringe). From the data: syringe-step, syringe-tolerance.
outcome::Result<PlotDose> plot_dose(Length length, Length width, Length rate, double parts,
                                    Volume syringe_step, double tolerance);

// Plain water over a pegged plot, each run in `used`: the farm's own litres per area. Errors as
// rate_by_area and mean_of_runs, at /used/<index> and /area.
outcome::Result<Runs> rehearse(const std::vector<Volume>& used, Area plot, RunLimits limits);

}  // namespace wheyfield::dosing
