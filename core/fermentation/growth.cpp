#include "fermentation/growth.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wheyfield::fermentation {

double temperature_share(double celsius, const CardinalTemperatures& cardinal) {
  const auto& [min, opt, max] = cardinal;
  if (celsius <= min || celsius >= max) return 0.0;
  const double above = celsius - min;
  const double span = opt - min;
  return (celsius - max) * above * above /
         (span * (span * (celsius - opt) - (opt - max) * (opt + min - 2.0 * celsius)));
}

double ph_share(double ph, const CardinalPh& cardinal) {
  if (ph <= cardinal.lowest || ph >= cardinal.highest) return 0.0;
  const double inside = (ph - cardinal.lowest) * (ph - cardinal.highest);
  const double off = ph - cardinal.opt;
  return inside / (inside - off * off);
}

double acid_share(double undissociated, double limit) {
  return std::max(0.0, 1.0 - undissociated / limit);
}

double undissociated_share(double ph, double pka) {
  return 1.0 / (1.0 + std::exp(std::numbers::ln10 * (ph - pka)));
}

double ratkowsky_rate(double celsius, double b, double min) {
  const double root = b * std::max(0.0, celsius - min);
  return root * root;
}

double baranyi_time(const BaranyiGrowth& growth, double hours) {
  const double rest = std::exp(-growth.rate * hours);
  const double work = std::exp(-growth.h0);
  return hours + std::log(rest + work - rest * work) / growth.rate;
}

double baranyi_log10(const BaranyiGrowth& growth, double hours) {
  const double grown = growth.rate * baranyi_time(growth, hours);
  return (std::log(growth.n0) + grown - std::log1p(std::expm1(grown) * growth.n0 / growth.n_max)) /
         std::log(10.0);
}

double baranyi_lag(const BaranyiGrowth& growth) { return growth.h0 / growth.rate; }

}  // namespace wheyfield::fermentation
