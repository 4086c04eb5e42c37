#include <algorithm>

#include "cli/commands.h"
#include "cli/toml_reader.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// Members with an empty value were not given on the command line.
json body_of(std::initializer_list<std::pair<const char*, std::string>> members, const Host& host) {
  json body = json::object();
  for (const auto& [name, value] : members)
    if (!value.empty()) body[name] = value;
  if (!host.arguments.json) body["pages"] = true;
  return body;
}

int ask_and_show(Host& host, const char* action, json body, const std::string& next) {
  const int code = host.show(host.ask(action, std::move(body)), Document());
  if (code == exit_codes::fine && !next.empty()) host.remark(next);
  return code;
}

bool is_file(const std::string& name) {
  const std::string ending = ".toml";
  return name.size() > ending.size() &&
         name.compare(name.size() - ending.size(), ending.size(), ending) == 0;
}

}  // namespace

int recipe_list(Host& host) {
  const ordered_json answer = host.ask("recipe.list", body_of({}, host));
  const int code = host.show(answer, Document());
  if (code == exit_codes::fine) host.remark(host.words.text("cli.next.recipe-show"));
  return code;
}

int recipe_show(Host& host) {
  const Arguments& a = host.arguments;
  return ask_and_show(
      host, "recipe.show",
      body_of({{"recipe", a.recipe}, {"last_used", a.last_used}, {"local_days", a.local_days}},
              host),
      host.words.text("cli.next.recipe-scale", {{"recipe", a.recipe}}));
}

int recipe_scale(Host& host) {
  const Arguments& a = host.arguments;
  return ask_and_show(host, "recipe.scale",
                      body_of({{"recipe", a.recipe}, {"make", a.make}, {"vessel", a.vessel}}, host),
                      host.words.text("cli.next.season-plan"));
}

int recipe_check(Host& host) {
  const std::string& name = host.arguments.recipe;
  Document asked;
  json body = body_of({}, host);
  if (is_file(name)) {
    Reading<Document> definition = read_toml_file(name);
    if (!definition) return host.refuse(definition.error());
    asked = std::move(*definition);
    asked.prefix = "/definition";
    body["definition"] = asked.json;
  } else {
    body["recipe"] = name;
  }
  return host.show(host.ask("recipe.check", std::move(body)), asked);
}

int schema(Host& host) { return host.show(host.ask("schema", json::object()), Document()); }

}  // namespace wheyfield::cli
