#include "api/programme_page_ids.h"

namespace wheyfield::api {

const std::vector<std::string>& programme_page_ids() {
  static const std::vector<std::string> ids{"summary", "weekdays", "costs",
                                            "visits",  "needs",    "molasses"};
  return ids;
}

}  // namespace wheyfield::api
