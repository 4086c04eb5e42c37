// One batch of milk turning sour in a bucket: two populations of lactic bacteria, the acid they
// make, and the temperature of the bucket.
//
//   dT/dt     = (T_air(t) - T) / tau
//   alpha     = q / (1 + q),  d ln q/dt = speed max_i rate_i gT_i(T),  q(0) = 1 / (e^h0 - 1)
//   mu_i      = speed rate_i gT_i(T) gpH_i(pH) (1 - HL/growth_limit_i)+ alpha brake_i S/(Ks + S)
//   d ln Ni/dt = mu_i,  brake_fast = 1 - (Nf + Nt)/Nmax,  brake_tolerant = 1 - Nt/Nmax,t
//   dP/dt     = acid_speed sum_i [a_i mu_i + b_i gT_i (1 - HL/acid_limit_i)+ S/(Ks + S)] Ni / 1e9
//   dS/dt     = -dP/dt / (4 yield)
//   HL        = P / (1 + 10^(pH - 3.86)),  pH = pH(P), acid.h;  P(0): acid of the starter
// fast: lactococci, which stop near pH 4.2; tolerant: lactobacilli, slow and sour. Laws: growth.h;
// acid made after Luedeking and Piret. Integrated by the method of Dormand and Prince with steps
// that are powers of two of an hour, chosen by its own estimate of its error; T exactly (warmth.h).
//
// Holds for 12 to 35 C and pH 4.2 and above; below it describes and is not validated. Yeasts,
// moulds, gas and rising pH are not in it. Not for strained serum. Says nothing of safety.
#pragma once

#include <optional>
#include <vector>

#include "fermentation/acid.h"
#include "fermentation/air.h"
#include "fermentation/brew.h"
#include "fermentation/growth.h"

namespace wheyfield::fermentation {

struct Population {
  double rate;  // at best [1/h]
  CardinalTemperatures temperature;
  CardinalPh ph;
  double growth_limit;  // undissociated acid that stops growth [mmol/L]
  double acid_limit;    // and the making of acid [mmol/L]
  double a;             // acid with growth [mmol/L per 1e9/mL]
  double b;             // acid of standing cells [mmol/L/h per 1e9/mL]
  double most;          // Nmax [1/mL]
  double start;         // N at the start [1/mL], >= 0
};

struct BatchModel {
  Population fast;
  Population tolerant;
  double lag_work;     // h0, > 0
  MilkBuffer buffer;   // with the pH at the start
  double limits_pka;   // pKa by which the limits of undissociated acid are stated
  double lactose;      // at the start [mmol/L]
  double lactic;       // acid that the starter brought [mmol/L], 0 at pH0
  double half;         // Ks [mmol/L]
  double yield;        // lactic acid of each quarter lactose
  double speed;        // of growth, 1 usual
  double acid_speed;   // of acid made per cell, 1 usual
  double vessel_pace;  // factor on the vessel's hours
  double air_offset;   // [C] added to the air, and to a start at air temperature
};

struct Setting {
  Air air;
  double vessel_hours;                                 // tau, vessel.h [h]
  std::optional<double> start_celsius = std::nullopt;  // of the mix; none: that of the air
  double horizon = 240.0;                              // [h], > 0
  Brew brew = {};  // of the batches drawn for it; `course` takes its batch as it is
};

struct Moment {
  double hours;
  double celsius;
  double ph;
  double lactic;    // P [mmol/L]
  double lactose;   // S [mmol/L]
  double fast;      // [1/mL]
  double tolerant;  // [1/mL]
};

inline constexpr double usual_tolerance = 1e-6;  // of a step: ln [1/mL], and about as much pH

// The batch at 0, `every`, 2 `every` .. up to the horizon (whole ones) [h]; `every` > 0. A longer
// horizon changes nothing before it. `tolerance` > 0 of a step.
std::vector<Moment> course(const BatchModel& batch, const Setting& setting, double every = 0.5,
                           double tolerance = usual_tolerance);

// pH and temperature alone, at 0, 1, 2 .. h: the same numbers.
struct HourlyCourse {
  std::vector<double> ph;
  std::vector<double> celsius;
};
HourlyCourse hourly_course(const BatchModel& batch, const Setting& setting);

// How many times the equations were called for it.
int calls_of(const BatchModel& batch, const Setting& setting);

// Hours to the first moment at or below `ph`, on a straight line between moments; none: not within
// the horizon.
std::optional<double> hours_to(const std::vector<Moment>& moments, double ph);

}  // namespace wheyfield::fermentation
