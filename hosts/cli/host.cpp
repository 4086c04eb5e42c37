#include "cli/host.h"

#include <algorithm>
#include <map>
#include <set>

#include "api/fields.h"
#include "cli/page_printer.h"
#include "cli/problem_printer.h"
#include "embedded.h"

namespace wheyfield::cli {

using nlohmann::json;
using nlohmann::ordered_json;

namespace {

bool has_severity(const ordered_json& answer, const char* severity) {
  const auto problems = answer.find("problems");
  if (problems == answer.end()) return false;
  return std::any_of(problems->begin(), problems->end(), [&](const ordered_json& problem) {
    return problem.value("severity", "") == severity;
  });
}

bool is_note(const ordered_json& problem) { return problem.value("severity", "") == "notice"; }

std::vector<std::string> ids_of(const ordered_json& pages) {
  std::vector<std::string> ids;
  for (const ordered_json& page : pages) ids.push_back(page.value("id", ""));
  return ids;
}

bool wanted(const ordered_json& page, const std::vector<std::string>& sections) {
  return sections.empty() ||
         std::count(sections.begin(), sections.end(), page.value("id", "")) != 0;
}

}  // namespace

std::string open_request(const json& extra, const std::string& language) {
  std::string text = extra.dump();
  text.pop_back();
  if (!extra.empty()) text += ",";
  text += "\"data\":";
  text += embedded::data_json();
  text += ",\"words\":";
  text += embedded::words_json(language);
  return text + "}";
}

int exit_code_of(const ordered_json& answer) {
  if (has_severity(answer, "error")) return exit_codes::problems;
  return has_severity(answer, "question") ? exit_codes::question : exit_codes::fine;
}

std::string Host::open_text() const {
  const std::string date = arguments.date.empty() ? surroundings_.today : arguments.date;
  const json extra = {
      {"date", date}, {"offset_min", surroundings_.offset_min}, {"seed", arguments.seed}};
  return open_request(extra, arguments.language);
}

std::optional<ordered_json> Host::open() {
  if (opened_) return std::nullopt;
  ordered_json answer = ordered_json::parse(core_.call("open", open_text()));
  opened_ = !has_severity(answer, "error");
  if (opened_) return std::nullopt;
  return answer;
}

ordered_json Host::ask(const std::string& action, json body) {
  if (auto refused = open()) return *refused;
  const json request = {{"action", action}, {"body", std::move(body)}};
  return ordered_json::parse(core_.call("call", request.dump()));
}

ordered_json Host::append(const std::string& events, const std::vector<std::string>& damaged) {
  if (auto refused = open()) return *refused;
  const std::string request =
      "{\"damaged\":" + json(damaged).dump() + ",\"events\":" + events + "}";
  return ordered_json::parse(core_.call("append", request));
}

int Host::show(const ordered_json& answer, const Document& asked, Notes notes) {
  int code = opened_ ? exit_code_of(answer) : exit_codes::wrong_use;
  show_problems(answer, opened_ ? asked : Document(), notes);
  if (arguments.json && (arguments.sections.empty() || !answer.contains("pages")))
    streams.out << answer.dump(2) << "\n";
  else if (const int failed = show_pages(answer); failed != exit_codes::fine)
    code = failed;
  return code;
}

int Host::show_pages(const ordered_json& answer) {
  const auto pages = answer.find("pages");
  if (pages == answer.end()) {
    if (!has_severity(answer, "error")) streams.out << answer.dump(2) << "\n";
    return exit_codes::fine;
  }
  const std::vector<std::string> known = ids_of(*pages);
  for (const std::string& section : arguments.sections)
    if (std::count(known.begin(), known.end(), section) == 0)
      return section_unknown(section, known);
  ordered_json chosen = ordered_json::array();
  for (const ordered_json& page : *pages)
    if (wanted(page, arguments.sections)) chosen.push_back(page);
  if (arguments.json) {
    const ordered_json shown = {{"schema", answer.at("schema")},
                                {"pages", std::move(chosen)},
                                {"problems", answer.at("problems")},
                                {"sources", answer.at("sources")}};
    streams.out << shown.dump(2) << "\n";
    return exit_codes::fine;
  }
  bool first = true;
  for (const ordered_json& page : chosen) {
    streams.out << (first ? "" : "\n\n") << page_text(page, streams.columns);
    first = false;
  }
  return exit_codes::fine;
}

int Host::section_unknown(const std::string& section, const std::vector<std::string>& known) {
  std::string list;
  for (const std::string& id : known) list += (list.empty() ? "" : ", ") + id;
  const std::string near = api::nearest(section, known);
  streams.err << words.text("cli.use.section-unknown", {{"section", section}, {"known", list}});
  if (!near.empty()) streams.err << " " << words.text("cli.use.did-you-mean", {{"word", near}});
  streams.err << "\n";
  return exit_codes::wrong_use;
}

void Host::show_problems(const ordered_json& answer, const Document& asked, Notes notes) {
  const auto problems = answer.find("problems");
  if (problems == answer.end()) return;
  std::map<std::string, int> of_kind;
  for (const ordered_json& problem : *problems) {
    if (is_note(problem))
      ++of_kind[problem.value("code", "")];
    else
      streams.err << problem_line(problem, asked, words) << "\n";
  }
  if (arguments.quiet) return;
  std::set<std::string> told;
  for (const ordered_json& problem : *problems) {
    if (!is_note(problem)) continue;
    const std::string kind = problem.value("code", "");
    const bool folded = notes == Notes::one_of_a_kind;
    if (folded && !told.insert(kind).second) continue;
    streams.err << problem_line(problem, asked, words);
    if (folded && of_kind[kind] > 1)
      streams.err << " "
                  << words.text(
                         "cli.notes-more",
                         {{"n", of_kind[kind] - 1},
                          {"command", "wheyfield season check" +
                                          (arguments.file.empty() ? "" : " " + arguments.file)}});
    streams.err << "\n";
  }
}

int Host::refuse(const InputProblems& problems) {
  int code = exit_codes::fine;
  for (const InputProblem& problem : problems) {
    streams.err << problem_line(problem, words) << "\n";
    code = std::max(code, problem.exit);
  }
  if (arguments.json) streams.out << answer_of(problems, words).dump(2) << "\n";
  return code;
}

void Host::remark(const std::string& text) {
  if (!arguments.quiet) streams.err << text << "\n";
}

}  // namespace wheyfield::cli
