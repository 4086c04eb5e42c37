#include "api/fields.h"
#include "api/session.h"

namespace wheyfield::api {

outcome::Result<Answer> schema(const Session&, const nlohmann::json&) {
  Answer answer;
  answer.fields["types"] = schema_json();
  Json names = Json::array();
  for (const Action& action : actions()) names.push_back(action.name);
  answer.fields["actions"] = std::move(names);
  return answer;
}

}  // namespace wheyfield::api
