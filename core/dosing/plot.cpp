#include "dosing/plot.h"

#include <cmath>
#include <string>

#include "dosing/measured.h"

namespace wheyfield::dosing {

using outcome::failure;
using outcome::Problems;
using outcome::Result;
using quantity::in_metres;
using quantity::in_millilitres;

Result<PlotDose> plot_dose(Length length, Length width, Length rate, double parts,
                           Volume syringe_step, double tolerance) {
  const Problems bad = not_above_zero({{"/length", in_metres(length)},
                                       {"/width", in_metres(width)},
                                       {"/rate", in_litres_per_hectare(rate)},
                                       {"/syringe_step", in_millilitres(syringe_step)}});
  if (!bad.empty()) return failure(bad);
  PlotDose dose{};
  dose.area = length * width;
  dose.water = rate * dose.area;
  dose.serum = serum_for(dose.water, parts, Reading::added_to);
  dose.syringe = syringe_step * std::round(quantity::rounded(dose.serum / syringe_step, 9));
  dose.off = dose.syringe / dose.serum - 1.0;
  if (std::fabs(dose.off) > tolerance)
    return failure({"plot-dose-small",
                    "/syringe_step",
                    shown(in_millilitres(syringe_step)) + " mL",
                    {{"serum", shown(quantity::rounded(in_millilitres(dose.serum), 3))}}});
  dose.order = {PlotStep{PlotStep::Plot::plain_water, dose.water, Volume()},
                PlotStep{PlotStep::Plot::serum, dose.water, dose.syringe}};
  return dose;
}

Result<Runs> rehearse(const std::vector<Volume>& used, Area plot, RunLimits limits) {
  Problems bad = not_above_zero({{"/area", quantity::in_square_metres(plot)}});
  for (std::size_t i = 0; i < used.size(); ++i)
    outcome::append(
        bad,
        not_above_zero({{("/used/" + std::to_string(i)).c_str(), quantity::in_litres(used[i])}}));
  if (!bad.empty()) return failure(bad);
  std::vector<Length> rates;
  for (const Volume litres : used) rates.push_back(litres / plot);
  return mean_of_runs(rates, limits);
}

}  // namespace wheyfield::dosing
