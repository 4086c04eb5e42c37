#include <map>
#include <set>
#include <tuple>

#include "api/session.h"

namespace wheyfield::api {
namespace {

const char* severity_word(outcome::Severity severity) {
  switch (severity) {
    case outcome::Severity::error:
      return "error";
    case outcome::Severity::question:
      return "question";
    case outcome::Severity::notice:
      break;
  }
  return "notice";
}

// The sentence of exactly this problem, or of its family: `missing-price` falls back to `missing`.
std::string sentence(const std::string& kind, const std::string& code,
                     const words::Catalogue& words, const words::Values& values) {
  const std::string exact = kind + "." + code;
  if (words.has(exact)) return words.text(exact, values);
  const std::string family = kind + "." + code.substr(0, code.find('-'));
  return words.text(words.has(family) ? family : exact, values);
}

}  // namespace

std::string written(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json window_json(const calendar::Window& window) {
  return {
      {"early", window.early.iso()}, {"likely", window.likely.iso()}, {"late", window.late.iso()}};
}

bool wants_pages(const nlohmann::json& body) {
  const auto pages = body.find("pages");
  return pages != body.end() && pages->is_boolean() && pages->get<bool>();
}

Json problem_json(const outcome::Problem& problem, const words::Catalogue* words) {
  std::string expected, cure, text;
  if (words) {
    words::Values values{{"value", problem.value}};
    for (const auto& [name, detail] : problem.details) values.insert_or_assign(name, detail);
    expected = sentence("problem", problem.code, *words, values);
    cure = sentence("cure", problem.code, *words, values);
    const auto suggestion = problem.details.find("suggestion");
    if (suggestion != problem.details.end() && !suggestion->second.empty())
      cure = words->text("cure.did-you-mean", values) + " " + cure;
    text = expected + " " + cure;
  }
  return {{"code", problem.code},
          {"severity", severity_word(problem.severity)},
          {"field", problem.field},
          {"value", problem.value},
          {"expected", std::move(expected)},
          {"cure", std::move(cure)},
          {"text", std::move(text)}};
}

Json sources_json(const Session& session, const reference_data::UsedSources& used) {
  std::map<std::tuple<std::string, std::string, std::string>, std::set<std::string>> uses;
  for (const auto& [id, kind, page, used_for] : used.rows())
    uses[{id, kind, page}].insert(used_for);
  Json list = Json::array();
  for (const auto& [row, used_for] : uses) {
    const auto& [id, kind, page] = row;
    const auto source = session.data.sources().find(id);
    const bool known = source != session.data.sources().end();
    list.push_back({{"id", id},
                    {"title", known ? source->second.title : id},
                    {"author", known ? source->second.author : ""},
                    {"year", known ? source->second.year : ""},
                    {"page", page},
                    {"kind", kind},
                    {"used_for", used_for}});
  }
  return list;
}

}  // namespace wheyfield::api
