#include "fermentation/storage.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace wheyfield::fermentation {
namespace {

// Molar masses [g/mol] and the molar volume of a gas at 25 C and 1 bar [L/mol].
constexpr double water_mole = 18.015;
constexpr double sucrose_mole = 342.3;
constexpr double hexose_mole = 180.16;
constexpr double gas_mole = 24.79;
constexpr double stated_brix = 80.0;  // for which the shares of molasses hold

}  // namespace

StorageData StorageData::of(const reference_data::ReferenceData& data) {
  const auto value = [&](const std::string& id) { return data.constant(id).value; };
  StorageData read{};
  for (const int percent : {0, 10, 20, 30, 40, 50, 60, 70, 80, 85})
    read.densities.emplace_back(percent, value("sugar-density-" + std::to_string(percent)));
  read.molasses_sucrose = value("storage-molasses-sucrose");
  read.molasses_reducing = value("storage-molasses-reducing");
  read.molasses_ash = value("storage-molasses-ash");
  read.ash_mole = value("storage-ash-mole");
  read.serum_density = value("storage-serum-density");
  read.serum_solids = value("storage-serum-solids");
  read.serum_lactose = value("storage-serum-lactose");
  read.k_sucrose = value("storage-norrish-sucrose");
  read.k_reducing = value("storage-norrish-reducing");
  read.osmotic = value("storage-salt-osmotic");
  read.gas_solubility = value("storage-gas-solubility");
  return read;
}

double sugar_density(const StorageData& data, double brix) {
  const auto& rows = data.densities;
  const auto above = std::find_if(rows.begin() + 1, rows.end() - 1,
                                  [&](const auto& row) { return brix <= row.first; });
  const auto& [low, low_density] = *(above - 1);
  const auto& [high, high_density] = *above;
  return low_density + (high_density - low_density) * (brix - low) / (high - low);
}

double water_activity(const StorageData& data, const Solution& solution) {
  const double dry = solution.sucrose + solution.reducing + solution.lactose + solution.other;
  const double water = 1000.0 * (1.0 - dry) / water_mole;
  const double sucrose = 1000.0 * (solution.sucrose + solution.lactose) / sucrose_mole;
  const double reducing = 1000.0 * solution.reducing / hexose_mole;
  const double all = water + sucrose + reducing;
  const double bound =
      std::sqrt(data.k_sucrose) * sucrose / all + std::sqrt(data.k_reducing) * reducing / all;
  const double molality = solution.salts_mol / (1.0 - dry);
  return water / all *
         std::exp(-bound * bound - water_mole / 1000.0 * 2.0 * data.osmotic * molality);
}

StoredMix stored_mix(const StorageData& data, double serum, double molasses, double brix) {
  const double thinner = brix / stated_brix;
  const double of_molasses = molasses * sugar_density(data, brix);  // [kg]
  const double of_serum = serum * data.serum_density;
  const double all = of_molasses + of_serum;
  Solution mix;
  mix.sucrose = of_molasses * thinner * data.molasses_sucrose / all;
  mix.reducing = of_molasses * thinner * data.molasses_reducing / all;
  mix.lactose = of_serum * data.serum_lactose / all;
  const double dry = (of_molasses * brix / 100.0 + of_serum * data.serum_solids) / all;
  mix.other = dry - mix.sucrose - mix.reducing - mix.lactose;
  mix.salts_mol = 1000.0 * of_molasses * thinner * data.molasses_ash / data.ash_mole / all;
  const double litres = serum + molasses;
  return {litres, 100.0 * dry, all / litres,
          1000.0 * all * (mix.sucrose + mix.reducing + mix.lactose) / litres,
          water_activity(data, mix)};
}

double gas_litres(double sugar, double share) {
  return 2.0 * gas_mole * sugar * share / hexose_mole;
}

double gauge_pressure(const StorageData& data, double gas, double liquid, double headspace) {
  return gas / (headspace + data.gas_solubility * liquid);
}

}  // namespace wheyfield::fermentation
