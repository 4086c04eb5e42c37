#include "api/event_fields.h"
#include "api/fields.h"
#include "api/session.h"

namespace wheyfield::api {

outcome::Result<Answer> schema(const Session&, const nlohmann::json&) {
  Answer answer;
  Json names = Json::array();
  std::vector<const Fields*> types{&season_fields()};
  for (const Action& action : actions()) {
    names.push_back(action.name);
    if (action.fields != nullptr) types.push_back(action.fields);
  }
  answer.fields["types"] = schema_json(types);
  answer.fields["events"] = schema_json(all_event_fields());
  answer.fields["actions"] = std::move(names);
  return answer;
}

}  // namespace wheyfield::api
