#include "api/plan_page_ids.h"
#include "cli/commands.h"
#include "cli/journal_desk.h"
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
  if (file.empty()) return;  // of the journal
  if (code == exit_codes::problems)
    host.remark(host.words.text("cli.next.mend", {{"file", file}}));
  else if (!page.empty() && host.arguments.sections.empty())
    host.remark(host.words.text("cli.next.section", {{"file", file}, {"section", page}}));
}

}  // namespace

namespace {

// The season of a question: that of the file, or without one that of the journal. `body` gets a
// `season` only when it is a file's.
struct Asked {
  Document season;
  json body = json::object();
};

std::optional<int> read_asked(Host& host, Asked& asked) {
  if (!host.arguments.file.empty()) {
    Reading<Document> season = read_season_file(host.arguments.file);
    if (!season) return host.refuse(season.error());
    asked.season = std::move(*season);
    asked.body["season"] = asked.season.json;
    return std::nullopt;
  }
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return failed;
  const ordered_json told = host.ask("journal.season", json::object());
  if (!told.contains("season")) return host.show(told, Document());
  asked.season.json = told["season"];
  asked.season.from_file = true;
  asked.season.places.add_file(JournalDesk::path_of(host.arguments));
  return std::nullopt;
}

}  // namespace

int season_plan(Host& host) {
  for (const std::string& section : host.arguments.sections)
    if (!api::is_plan_page(section)) return host.section_unknown(section, api::plan_page_ids());
  Asked asked;
  if (const auto failed = read_asked(host, asked)) return *failed;
  if (host.arguments.request) {
    host.streams.out << json{{"season", asked.season.json}}.dump(2) << "\n";
    return exit_codes::fine;
  }
  if (!host.arguments.json || !host.arguments.sections.empty()) asked.body["pages"] = true;
  if (host.arguments.plan_method) asked.body["method"] = *host.arguments.plan_method;
  const ordered_json answer = host.ask("season.plan", std::move(asked.body));
  const int code = host.show(answer, asked.season, Notes::one_of_a_kind);
  after_plan(host, answer, code);
  return code;
}

namespace {

// A question about the season that is answered by pages of its own.
int ask_about_season(Host& host, const std::string& action, json extra) {
  Asked asked;
  if (const auto failed = read_asked(host, asked)) return *failed;
  for (const auto& [name, value] : extra.items()) asked.body[name] = value;
  asked.body["pages"] = !host.arguments.json;
  return host.show(host.ask(action, std::move(asked.body)), asked.season, Notes::one_of_a_kind);
}

}  // namespace

int season_explain(Host& host) { return ask_about_season(host, "season.explain", json::object()); }

int season_risk(Host& host) {
  json extra = {{"seed", host.arguments.seed}};
  if (!host.arguments.seasons.empty()) extra["seasons"] = host.arguments.seasons;
  return ask_about_season(host, "season.risk", std::move(extra));
}

int season_check(Host& host) {
  Asked asked;
  if (const auto failed = read_asked(host, asked)) return *failed;
  asked.body["pages"] = !host.arguments.json;
  const ordered_json answer = host.ask("season.check", std::move(asked.body));
  const std::string& file = host.arguments.file;
  const int code = host.show(answer, asked.season);
  if (!file.empty())
    host.remark(host.words.text(code == exit_codes::problems ? "cli.next.mend" : "cli.next.plan",
                                {{"file", file}}));
  return code;
}

}  // namespace wheyfield::cli
