// One visit to a bucket: what was measured, seen and smelled, and what of it the model can use.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fermentation/reading.h"

namespace wheyfield::fermentation {

// How a pH was read: strips printed in steps of 0.5 or of 0.3, or a meter with steps of 0.1.
enum class Scale { half_strip, third_strip, meter };
double step_of(Scale scale);

struct Look {
  double hours = 0.0;  // since the batch began, >= 0
  std::optional<double> ph;
  Scale scale = Scale::half_strip;
  std::optional<bool> set;           // does it stand as curd?
  std::optional<bool> clear_liquid;  // clear and yellowish under the curd, not milky
  std::optional<double> celsius;     // in the bucket
  std::string smell;                 // "clean-sour", "sweet", "putrid", "other"; "" not said
  std::string surface;               // "clear", "white-film", "coloured-mould", "gas"; "" not said
};

// Looks at one time (two people, one visit) as one: the higher pH, the more cautious; what only one
// of them said; not set, not clear where they differ; the sign that stands later in the lists
// above. Keeps the order. Precondition: hours never fall.
std::vector<Look> one_for_each_visit(const std::vector<Look>& looks);

// What the model can use: strips, meter, set or not, thermometer.
std::vector<Reading> readings_of(const std::vector<Look>& looks);

}  // namespace wheyfield::fermentation
