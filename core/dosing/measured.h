// Checks shared by the files of this room: what came from tape, jug and watch must be above zero.
#pragma once

#include <initializer_list>
#include <string>

#include "outcome/result.h"

namespace wheyfield::dosing {

// A number for {details}: six digits at most, no zeros behind ("430.52", "12").
std::string shown(double value);

struct Measured {
  const char* field;  // JSON pointer
  double value;       // in the unit in which it was written
};

// One not-above-zero for every value that is no finite number above 0.
outcome::Problems not_above_zero(std::initializer_list<Measured> values);

}  // namespace wheyfield::dosing
