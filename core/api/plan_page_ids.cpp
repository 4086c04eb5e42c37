#include "api/plan_page_ids.h"

#include <algorithm>

#include "calendar/date.h"

namespace wheyfield::api {

const std::vector<std::string>& plan_page_ids() {
  static const std::vector<std::string> ids{
      "summary",  "uses",  "batches", "preparations", "tasks", "meeting-YYYY-MM-DD",
      "shopping", "stock", "doses",   "rehearsal",    "cost",  "cautions"};
  return ids;
}

bool is_plan_page(const std::string& id) {
  const std::string meeting = "meeting-";
  if (id.rfind(meeting, 0) == 0) return calendar::parse_date(id.substr(meeting.size())).has_value();
  return std::count(plan_page_ids().begin(), plan_page_ids().end(), id) != 0;
}

}  // namespace wheyfield::api
