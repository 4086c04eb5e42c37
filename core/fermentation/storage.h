// Raw serum and molasses in one can: how much sugar, how much free water, how much gas.
//
// Volumes are taken as additive. Brix is the share of dry matter [%]. Water activity after Norrish,
// times that of the salts (Ross product):
//   ln a = ln Xw - (sum sqrt(K_i) X_i)^2 - 0.018015 * 2 * osmotic * m
// X mole fractions of water, sucrose, reducing sugars and lactose; m salts [mol/kg water]. Carbon
// dioxide of sugar that yeast ferments, a hexose to two, at 25 C:
//   gauge pressure [bar] = gas / (headspace + solubility * liquid)
// Rows storage-* and sugar-density-* of data/constants.toml. A lower water activity slows spoilage
// here and does not stop it: nothing in this file is a shelf life.
#pragma once

#include <utility>
#include <vector>

#include "reference_data/reference_data.h"

namespace wheyfield::fermentation {

struct StorageData {
  static StorageData of(const reference_data::ReferenceData& data);

  std::vector<std::pair<double, double>> densities;          // [% w/w sucrose, kg/L], rising
  double molasses_sucrose, molasses_reducing, molasses_ash;  // shares of molasses of 80 Brix
  double ash_mole;                                           // [g/mol]
  double serum_density;                                      // [kg/L]
  double serum_solids, serum_lactose;                        // shares of its mass
  double k_sucrose, k_reducing;                              // Norrish
  double osmotic;                                            // of the salts
  double gas_solubility;                                     // litres in a litre at its pressure
};

// Of sucrose in water at 20 C [kg/L], straight between rows; 0 <= brix <= that of the last row.
double sugar_density(const StorageData& data, double brix);

// Shares of mass; what is left is water.
struct Solution {
  double sucrose = 0.0;
  double reducing = 0.0;  // glucose, fructose
  double lactose = 0.0;
  double other = 0.0;      // dry matter that binds no water here
  double salts_mol = 0.0;  // [mol/kg solution]
};
double water_activity(const StorageData& data, const Solution& solution);

struct StoredMix {
  double litres;
  double brix;            // [%]
  double density;         // [kg/L]
  double sugars;          // [g/L]
  double water_activity;  // 0..1
};
// Preconditions: serum >= 0, molasses > 0 [L]; 0 < brix <= 85, of the molasses.
StoredMix stored_mix(const StorageData& data, double serum, double molasses, double brix);

// Litres of gas at 25 C and 1 bar when a share of `sugar` [g] ferments.
double gas_litres(double sugar, double share);
// [bar] above the air's, in a closed bottle.
double gauge_pressure(const StorageData& data, double gas, double liquid, double headspace);

}  // namespace wheyfield::fermentation
