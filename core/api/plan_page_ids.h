// The pages of a season plan, known before any plan is made.
#pragma once

#include <string>
#include <vector>

namespace wheyfield::api {

// In their order; "meeting-YYYY-MM-DD" stands for a page of each meeting.
const std::vector<std::string>& plan_page_ids();

// Can a plan have this page? A meeting's page needs a day that exists.
bool is_plan_page(const std::string& id);

}  // namespace wheyfield::api
