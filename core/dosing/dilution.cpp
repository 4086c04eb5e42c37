#include "dosing/dilution.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::dosing {

using quantity::Volume;

Volume serum_for(Volume water, double parts, Reading reading) {
  return water / (reading == Reading::added_to ? parts : parts + 1.0);
}

double season_litres_per_acre(double mix_litres_per_acre, double parts, int uses) {
  return mix_litres_per_acre / parts * uses;
}

outcome::Result<CapCount> count_caps(Volume serum, std::optional<Volume> cap, Volume water,
                                     double step, double tolerance, Reading reading) {
  if (!cap) return outcome::failure({"cap-unmeasured", "/cap", "", {}});
  if (!(serum > Volume())) return CapCount{0.0, Volume(), 0.0, 0.0, true};
  const double steps = std::round(quantity::rounded(serum / *cap / step, 9));
  CapCount count{};
  count.caps = steps * step;
  count.given = *cap * count.caps;
  const Volume poured_in = reading == Reading::in_total ? water - count.given : water;
  count.parts = count.caps > 0.0 ? poured_in / count.given : 0.0;
  count.off = (count.given - serum) / serum;
  count.fits = count.caps > 0.0 && std::fabs(count.off) <= tolerance + 1e-9;
  return count;
}

int trips(Volume mix, Volume container, double negligible) {
  if (!(mix > Volume())) return 0;
  return std::max(1, static_cast<int>(std::ceil(mix / container - negligible)));
}

Loads loads(Volume mix, Volume container, double parts, double negligible) {
  Loads loads;
  loads.loads = mix / container;
  loads.full = static_cast<int>(std::floor(loads.loads + negligible));
  const Volume rest = mix - container * static_cast<double>(loads.full);
  loads.last = rest / container > negligible ? rest : Volume();
  loads.serum_full = container / parts;
  loads.serum_last = loads.last / parts;
  return loads;
}

}  // namespace wheyfield::dosing
