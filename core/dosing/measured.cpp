#include "dosing/measured.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace wheyfield::dosing {

std::string shown(double value) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.6g", value);
  return text.data();
}

outcome::Problems not_above_zero(std::initializer_list<Measured> values) {
  outcome::Problems problems;
  for (const Measured& one : values)
    if (!(std::isfinite(one.value) && one.value > 0.0))
      problems.push_back({"not-above-zero", one.field, shown(one.value), {}});
  return problems;
}

}  // namespace wheyfield::dosing
