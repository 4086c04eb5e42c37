// The declared fields of the batch requests; each stands beside its action.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& batch_forecast_fields();
const Fields& batch_keep_fields();
const Fields& batch_read_fields();
const Fields& batch_show_fields();

}  // namespace wheyfield::api
