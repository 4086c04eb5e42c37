// All cautions of the plan, whole.
#include "api/plan_page_parts.h"

namespace wheyfield::api {

sheet::Page cautions_page(const PageWords& w) {
  sheet::Page page("cautions", w.say("page.cautions"));
  for (const std::string& id : plan_cautions(w.worked)) page.caution(w.words.text("caution." + id));
  return page;
}

}  // namespace wheyfield::api
