// The declared fields of the group's actions; each stands beside its action.
#pragma once

#include "api/fields.h"

namespace wheyfield::api {

const Fields& group_meeting_fields();
const Fields& group_members_fields();

}  // namespace wheyfield::api
