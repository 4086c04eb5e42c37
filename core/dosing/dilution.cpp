#include "dosing/dilution.h"

#include <cmath>
#include <string>

namespace wheyfield::dosing {

using quantity::Volume;

Volume serum_for(Volume water, double parts, Reading reading) {
  return water / (reading == Reading::added_to ? parts : parts + 1.0);
}

double season_litres_per_acre(double mix_litres_per_acre, double parts, int uses) {
  return mix_litres_per_acre / parts * uses;
}

outcome::Result<CapCount> count_caps(Volume serum, std::optional<Volume> cap, Volume water,
                                     double step, double tolerance) {
  if (!cap) return outcome::failure({"cap-unmeasured", "/cap", "", {}});
  const double ml = quantity::in_millilitres(*cap);
  if (!(ml >= 1.0 && ml <= 100.0))
    return outcome::failure({"cap-out-of-range", "/cap", std::to_string(ml), {}});
  const double steps = std::round(quantity::rounded(serum / *cap / step, 9));
  CapCount count{};
  count.caps = steps * step;
  count.given = *cap * count.caps;
  count.parts = count.caps > 0.0 ? water / count.given : 0.0;
  count.off = (count.given - serum) / serum;
  count.fits = count.caps > 0.0 && std::fabs(count.off) <= tolerance + 1e-9;
  return count;
}

Loads loads(Volume mix, Volume container, double parts) {
  Loads loads;
  loads.loads = mix / container;
  loads.full = static_cast<int>(std::floor(loads.loads + 0.01));
  const Volume rest = mix - container * static_cast<double>(loads.full);
  loads.last = rest / container > 0.01 ? rest : Volume();
  loads.serum_full = container / parts;
  loads.serum_last = loads.last / parts;
  return loads;
}

}  // namespace wheyfield::dosing
