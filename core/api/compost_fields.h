// The declared fields of the compost requests; each stands beside its action.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& compost_list_fields();
const Fields& compost_log_fields();
const Fields& compost_mix_fields();
const Fields& compost_turns_fields();

}  // namespace wheyfield::api
