#include "api/fields.h"
#include "cli/commands.h"
#include "cli/journal_desk.h"

namespace wheyfield::cli {

using nlohmann::json;

namespace {

// The request as its declared fields were given on the command line.
json body_of(const api::Fields& declared, const Arguments& arguments) {
  json body = json::object();
  for (const api::Field& field : declared.fields) {
    const auto given = arguments.fields.find(std::string(field.name));
    if (given == arguments.fields.end() || given->second.empty()) continue;
    json& value = body[given->first];
    if (field.holds == api::Holds::texts)
      value = given->second;
    else if (field.holds == api::Holds::flag)
      value = true;
    else
      value = given->second.front();
  }
  if (!arguments.json) body["pages"] = true;
  return body;
}

}  // namespace

int dose(Host& host) {
  std::string action = host.arguments.command;
  action.replace(action.find(' '), 1, ".");
  json body = body_of(*api::fields_of(action), host.arguments);
  if (body.contains("farm")) {
    JournalDesk desk(host);
    if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  }
  const int code = host.show(host.ask(action, std::move(body)), Document());
  if (code == exit_codes::fine && action == "dose.mix")
    host.remark(host.words.text("cli.next.season-plan"));
  return code;
}

}  // namespace wheyfield::cli
