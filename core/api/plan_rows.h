// The lists of a plan that are as long as the group's fields, written row by row as JSON text;
// shapes in docs/formats/facade.md.
#pragma once

#include <string>

#include "api/plan_answer.h"

namespace wheyfield::api {

std::string uses_text(const WorkedPlan& worked);
std::string meetings_text(const WorkedPlan& worked);
std::string soaks_text(const WorkedPlan& worked);
std::string doses_text(const WorkedPlan& worked);

}  // namespace wheyfield::api
