// How many litres does this farm put on its land? Sprayer, can or leafy branch, measured with plain
// water; then the loads and the serum for one field.
//
// A rate is mix per area, held as quantity::Length [m3/m2]. Every measure must be a finite number
// above 0, else not-above-zero names it. Precondition wherever `parts` stands: parts > 1
// (quantity::parse_strength). Source of the methods: extension practice, see
// docs/models/sprayer.md.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "dosing/dilution.h"
#include "outcome/result.h"
#include "quantity/quantity.h"

namespace wheyfield::dosing {

using quantity::Area;
using quantity::Length;
using quantity::Volume;

constexpr Length litres_per_hectare(double v) { return Length::from_si(v * 1e-7); }
constexpr double in_litres_per_hectare(Length rate) { return rate.si() * 1e7; }
constexpr double in_litres_per_acre(Length rate) { return in_litres(rate * quantity::acres(1)); }
// US gallon 231 cubic inches, 3.785411784 L exactly (NIST SP 811, B.8); 128 fluid ounces.
constexpr Volume us_gallons(double v) { return quantity::litres(v * 3.785411784); }
constexpr Volume us_fluid_ounces(double v) { return us_gallons(v / 128.0); }
constexpr double in_us_gallons_per_acre(Length rate) {
  return rate * quantity::acres(1) / us_gallons(1);
}

// Area method: spray a pegged area, measure what is gone. L/ha = 10000 x L / m2.
// Fields: /used [L], /area [m2].
outcome::Result<Length> rate_by_area(Volume used, Area area);

// Time method: seconds to cover a pegged area, then catch the spray in a jug, best for as long.
// rate = caught / area x cover_seconds / catch_seconds. Fields: /area, /cover_seconds, /caught,
// /catch_seconds.
outcome::Result<Length> rate_by_time(Area area, double cover_seconds, Volume caught,
                                     double catch_seconds);

// Plot of 1/128 acre: 340.3125 square feet, a square of 18.4476 ft (not 8.5 by 18.5 ft, as one page
// prints). Caught during the time that covers it, US fluid ounces are US gallons an acre.
constexpr Area plot_128th() { return quantity::acres(1.0 / 128.0); }
// Field: /caught [mL].
outcome::Result<Length> rate_by_128th(Volume caught);

// L/ha = 600 q / (v w): flow q [L/min], walking speed v [km/h], swath w [m]. Fields: /flow, /speed,
// /swath.
outcome::Result<Length> rate_by_flow(double litres_per_minute, double km_per_hour, Length swath);
// Speed [km/h] from the seconds for 100 m: 360 / s. Field: /seconds.
outcome::Result<double> walking_speed(double seconds_per_100_m);

struct RunLimits {      // from the data:
  std::size_t advised;  // runs-advised
  double redo_above;    // runs-redo-above, part of the mean
  double apart_above;   // runs-apart-above, part of the mean
};
struct Runs {
  Length mean;
  double spread = 0.0;         // (largest - smallest) / mean
  bool apart = false;          // not the same job: the mean is of nothing, use no number of it
  std::size_t lowest = 0;      // index of the run
  std::size_t highest = 0;     // index of the run
  outcome::Problems problems;  // what is asked of the runs
};
// Mean of repeated runs. Questions: runs-few (notice, fewer than advised), runs-spread (do them
// again), runs-apart (one of the two named runs was not the same job). Errors: runs-missing (none),
// not-above-zero at /runs/<index>.
outcome::Result<Runs> mean_of_runs(const std::vector<Length>& runs, RunLimits limits);

struct FieldDose {
  Volume mix;
  Volume serum;
  Loads loads;
};
// Loads of one tank for this field. Fields: /rate [L/ha], /area [m2], /tank [L]. Error also:
// too-large (over a million loads).
outcome::Result<FieldDose> dose_field(Length rate, Area field, Volume tank, double parts,
                                      double negligible);

// Serum on 100 m2: says what the ratio hides, for the same 1:n brings fifty times more by a can.
constexpr Volume serum_per_100_m2(Length rate, double parts) {
  return rate * quantity::square_metres(100) / parts;
}

// Trees that one tank serves, counted while a known volume was sprayed. Fields: /trees, /used,
// /tank.
outcome::Result<double> trees_per_tank(double trees, Volume used, Volume tank);

// Size rule of coded nozzles: each whole size gives `us_gallons_per_minute` at `psi`, and flow goes
// with the square root of the pressure. From the data: nozzle-size-flow, nozzle-size-pressure.
struct NozzleRule {
  double us_gallons_per_minute;
  double psi;
};
// "02" -> 2, "015" -> 1.5: two digits are tenths of a US gallon a minute, three are hundredths.
// Error: nozzle-size-unreadable. Uncoded cones have no size: measure them.
outcome::Result<double> nozzle_size(std::string_view name);
// Flow [L/min] at `bar`. Errors: pressure-zero (not above 0, at /pressure), not-above-zero at
// /size.
outcome::Result<double> nozzle_flow(double size, double bar, NozzleRule rule);

struct NozzleLimits {  // from the data, parts of the nominal flow:
  double worn_above;   // nozzle-worn-above
  double low_below;    // nozzle-low-below
};
enum class NozzleState {
  good,
  worn,  // gives too much: replaced
  low    // gives too little: blocked, the pressure misread, or another size; never good
};
struct NozzleCheck {
  double off;  // measured / nominal - 1
  NozzleState state;
};
// Fields: /measured, /nominal [L/min].
outcome::Result<NozzleCheck> check_nozzle(double measured, double nominal, NozzleLimits limits);

}  // namespace wheyfield::dosing
