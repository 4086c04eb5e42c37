// The declared fields of the nutrient balance; they stand beside its action.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& nutrients_balance_fields();

}  // namespace wheyfield::api
