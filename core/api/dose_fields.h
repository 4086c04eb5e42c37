// The declared fields of the dose requests; each stands beside its action.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& dose_area_fields();
const Fields& dose_bucket_fields();
const Fields& dose_harvest_fields();
const Fields& dose_mix_fields();
const Fields& dose_plot_fields();
const Fields& dose_soak_fields();
const Fields& dose_sprayer_fields();

}  // namespace wheyfield::api
