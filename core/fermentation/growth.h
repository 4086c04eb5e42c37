// How fast do bacteria grow? The published laws of predictive microbiology that the batch is made
// of. Each share lies in 0..1 and multiplies an optimal rate (gamma concept, Zwietering et al.).
//
// Temperatures [C], rates [1/h], times [h], counts [CFU/mL], acids [mmol/L].
#pragma once

namespace wheyfield::fermentation {

// Cardinal temperature model with inflection, Rosso et al. (1993, 1995), min < opt < max:
//   share = (T - max)(T - min)^2 /
//           {(opt - min) [(opt - min)(T - opt) - (opt - max)(opt + min - 2 T)]}
// 0 at and outside min and max, 1 at opt. Precondition: opt >= (min + max) / 2, below which the
// formula has a pole.
struct CardinalTemperatures {
  double min;
  double opt;
  double max;
};
double temperature_share(double celsius, const CardinalTemperatures& cardinal);

// Cardinal pH model, Rosso et al. (1995), lowest < opt < highest:
//   share = (pH - lowest)(pH - highest) / [(pH - lowest)(pH - highest) - (pH - opt)^2]
// 0 at and outside lowest and highest, 1 at opt.
struct CardinalPh {
  double lowest;
  double opt;
  double highest;
};
double ph_share(double ph, const CardinalPh& cardinal);

// Inhibition by undissociated lactic acid, linear (Presser et al. 1997): max(0, 1 - acid / limit).
double acid_share(double undissociated, double limit);

// Undissociated part of a weak acid, Henderson-Hasselbalch: 1 / (1 + 10^(pH - pKa)).
double undissociated_share(double ph, double pka);

// Square-root law, Ratkowsky et al.: rate = [b (T - min)]^2, 0 below min; b [1/(C h^0.5)]. The
// temperature_share comes down to it far below the optimum.
double ratkowsky_rate(double celsius, double b, double min);

// Growth at a constant rate with lag and ceiling in closed form, Baranyi and Roberts (1994):
//   A(t) = t + ln(e^(-rate t) + e^(-h0) - e^(-rate t - h0)) / rate
//   ln N = ln N0 + rate A - ln(1 + (e^(rate A) - 1) N0 / Nmax)
// The lag lasts h0 / rate. The batch integrates the same law as two differential equations.
struct BaranyiGrowth {
  double rate;  // > 0
  double h0;    // work to be done before growing, >= 0
  double n0;    // > 0
  double n_max;
};
double baranyi_time(const BaranyiGrowth& growth, double hours);   // A(t) [h]
double baranyi_log10(const BaranyiGrowth& growth, double hours);  // log10 N
double baranyi_lag(const BaranyiGrowth& growth);                  // [h]

}  // namespace wheyfield::fermentation
