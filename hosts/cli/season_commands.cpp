#include "api/plan_page_ids.h"
#include "cli/commands.h"
#include "cli/season_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// The second page is the first that can be asked for after the summary.
std::string page_to_suggest(const ordered_json& answer) {
  const auto pages = answer.find("pages");
  if (pages == answer.end() || pages->size() < 2) return "";
  return (*pages)[1].value("id", "");
}

void after_plan(Host& host, const ordered_json& answer, int code) {
  const std::string& file = host.arguments.file;
  const std::string page = page_to_suggest(answer);
  if (code == exit_codes::problems)
    host.remark(host.words.text("cli.next.mend", {{"file", file}}));
  else if (!page.empty() && host.arguments.sections.empty())
    host.remark(host.words.text("cli.next.section", {{"file", file}, {"section", page}}));
}

}  // namespace

int season_plan(Host& host) {
  for (const std::string& section : host.arguments.sections)
    if (!api::is_plan_page(section)) return host.section_unknown(section, api::plan_page_ids());
  Reading<Document> season = read_season_file(host.arguments.file);
  if (!season) return host.refuse(season.error());
  json body = {{"season", season->json}};
  if (host.arguments.request) {
    host.streams.out << body.dump(2) << "\n";
    return exit_codes::fine;
  }
  if (!host.arguments.json || !host.arguments.sections.empty()) body["pages"] = true;
  const ordered_json answer = host.ask("season.plan", std::move(body));
  const int code = host.show(answer, *season, Notes::one_of_a_kind);
  after_plan(host, answer, code);
  return code;
}

int season_check(Host& host) {
  Reading<Document> season = read_season_file(host.arguments.file);
  if (!season) return host.refuse(season.error());
  const ordered_json answer =
      host.ask("season.check", {{"season", season->json}, {"pages", !host.arguments.json}});
  const std::string& file = host.arguments.file;
  const int code = host.show(answer, *season);
  host.remark(host.words.text(code == exit_codes::problems ? "cli.next.mend" : "cli.next.plan",
                              {{"file", file}}));
  return code;
}

}  // namespace wheyfield::cli
