// The heap: what goes in, when it is turned, what its log says.
#include "api/fields.h"
#include "cli/commands.h"
#include "cli/weather_csv.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;

Document request_of(const Host& host, const char* action) {
  Document asked;
  asked.json = json::object();
  for (const api::Field& field : api::fields_of(action)->fields) {
    const auto given = host.arguments.fields.find(std::string(field.name));
    if (given == host.arguments.fields.end() || given->second.empty()) continue;
    if (field.holds == api::Holds::texts)
      asked.json[given->first] = given->second;
    else
      asked.json[given->first] = given->second.front();
  }
  if (!host.arguments.json) asked.json["pages"] = true;
  return asked;
}

// With the rows of a table read into the request's list.
int ask_with(Host& host, const char* action, const char* list, Reading<Document> rows) {
  if (!rows) return host.refuse(rows.error());
  Document asked = request_of(host, action);
  asked.json[list] = std::move(rows->json);
  asked.places.merge(std::move(rows->places));
  return host.show(host.ask(action, asked.json), asked);
}

int ask(Host& host, const char* action) {
  const Document asked = request_of(host, action);
  return host.show(host.ask(action, asked.json), asked);
}

}  // namespace

int compost_mix(Host& host) {
  const std::string& file = host.arguments.ingredients;
  if (file.empty()) return ask(host, "compost.mix");
  return ask_with(host, "compost.mix", "ingredients", read_ingredients_file(file));
}

int compost_turns(Host& host) { return ask(host, "compost.turns"); }

int compost_log(Host& host) {
  return ask_with(host, "compost.log", "readings", read_heap_file(host.arguments.file));
}

int compost_list(Host& host) { return ask(host, "compost.list"); }

}  // namespace wheyfield::cli
