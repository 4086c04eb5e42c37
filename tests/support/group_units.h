// Units for tests of the group's sums; litre, kilogram and metre by definition (SI).
#pragma once

#include "quantity/units.h"

namespace wheyfield::testing {

inline const quantity::UnitTable& group_units() {
  static const quantity::UnitTable table = [] {
    quantity::UnitTable units;
    units.add({"L", {}, quantity::Dimension::volume, 1e-3});
    units.add({"mL", {}, quantity::Dimension::volume, 1e-6});
    units.add({"kg", {}, quantity::Dimension::mass, 1.0});
    units.add({"g", {}, quantity::Dimension::mass, 1e-3});
    return units;
  }();
  return table;
}

}  // namespace wheyfield::testing
