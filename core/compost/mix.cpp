#include "compost/mix.h"

#include <algorithm>

namespace wheyfield::compost {
namespace {

// Nothing is needed of a second when the goal is met; without a way there, none.
std::optional<double> amount(double lacking, double brings) {
  if (lacking == 0.0) return 0.0;
  if (brings == 0.0 || lacking / brings < 0.0) return std::nullopt;
  return lacking / brings;
}

}  // namespace

std::optional<double> Blend::ratio() const {
  return nitrogen > 0.0 ? std::optional(carbon / nitrogen) : std::nullopt;
}

double Blend::moisture() const { return kg > 0.0 ? 100.0 * water / kg : 0.0; }

Blend blend(const std::vector<Part>& parts) {
  Blend sum;
  for (const Part& part : parts) {
    const double wet = part.kg * part.what.moisture / 100.0;
    const double dry = part.kg - wet;
    sum.kg += part.kg;
    sum.water += wet;
    sum.carbon += dry * part.what.carbon / 100.0;
    sum.nitrogen += dry * part.what.nitrogen / 100.0;
  }
  return sum;
}

std::optional<double> loose_litres(const std::vector<Part>& parts) {
  double litres = 0.0;
  for (const Part& part : parts) {
    if (!part.what.density) return std::nullopt;
    litres += 1000.0 * part.kg / *part.what.density;
  }
  return litres;
}

std::optional<double> second_for_ratio(const Blend& there, const Contents& second, double ratio) {
  const double dry = 1.0 - second.moisture / 100.0;
  return amount(ratio * there.nitrogen - there.carbon,
                dry * (second.carbon - ratio * second.nitrogen) / 100.0);
}

std::optional<double> second_for_moisture(const Blend& there, const Contents& second,
                                          double moisture) {
  return amount(there.kg * (moisture - there.moisture()), second.moisture - moisture);
}

double water_for_moisture(const Blend& there, double moisture) {
  return std::max(0.0, there.kg * (moisture - there.moisture()) / (100.0 - moisture));
}

}  // namespace wheyfield::compost
