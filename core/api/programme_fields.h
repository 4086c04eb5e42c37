// The declared fields of the programme's actions.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& programme_check_fields();
const Fields& programme_group_fields();
const Fields& programme_assign_fields();

}  // namespace wheyfield::api
