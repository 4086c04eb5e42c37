// The pages of programme.assign, known before anything is planned.
#pragma once

#include <string>
#include <vector>

namespace wheyfield::api {

// In their order.
const std::vector<std::string>& programme_page_ids();

}  // namespace wheyfield::api
