// Reads every value of an object as its declared field wants it, for what is only written down.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "api/fields.h"
#include "quantity/units.h"

namespace wheyfield::api {

// The problems of `check_shape`, and those of the readers of each value (see field_reader.h).
outcome::Problems check_values(const nlohmann::json& object, const Fields& fields,
                               const std::string& pointer, const quantity::UnitTable& units);

}  // namespace wheyfield::api
