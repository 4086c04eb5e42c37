// The pages of a season plan in the order in which they are read.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

std::vector<sheet::Page> plan_pages(const WorkedPlan& worked) {
  const PageWords w(worked);
  std::vector<sheet::Page> pages{summary_page(w), uses_page(w), batches_page(w)};
  if (!worked.plan.others.empty()) pages.push_back(preparations_page(w));
  pages.push_back(tasks_page(w));
  for (const season::Meeting& meeting : worked.meetings) pages.push_back(meeting_page(w, meeting));
  for (sheet::Page page : {shopping_page(w), stock_page(w), doses_page(w), rehearsal_page(w),
                           cost_page(w), cautions_page(w)})
    pages.push_back(std::move(page));
  return pages;
}

}  // namespace wheyfield::api
