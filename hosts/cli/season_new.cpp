#include <filesystem>

#include "cli/commands.h"
#include "cli/farms_csv.h"
#include "cli/problem_printer.h"
#include "cli/questionnaire.h"
#include "cli/season_file.h"
#include "cli/season_writer.h"
#include "cli/write_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr int most_rounds = 20;  // of asking again, so that no input can keep the program busy

bool has_errors(const ordered_json& answer) { return exit_code_of(answer) == exit_codes::problems; }

class NewSeason {
 public:
  explicit NewSeason(Host& host) : host_(host), words_(host.words) {}

  int run() {
    const std::string& file = host_.arguments.file;
    if (!host_.arguments.yes && !host_.arguments.dry_run && std::filesystem::exists(file))
      return host_.refuse({{"file-exists", {file, 0, 0}, "", "", {}, exit_codes::unwritable}});
    if (!host_.arguments.farms.empty()) {
      Reading<Document> farms = read_farms_file(host_.arguments.farms);
      if (!farms) return host_.refuse(farms.error());
      farms_ = std::move(*farms);
    }
    const ordered_json questions = host_.ask("season.questions", json::object());
    if (has_errors(questions)) return host_.show(questions, Document());
    Questionnaire asking(questions_of(questions));
    greet();
    asking.run([this](const Question& q, int number) { return answer_to(q, number); });
    if (!asking.answered_any()) return host_.refuse({{"answers-missing", {}, "", ""}});
    const ordered_json checked = checked_until_sound(asking);
    return write(whole(asking), checked);
  }

 private:
  void greet() {
    if (host_.streams.in_is_terminal) host_.streams.err << words_.text("cli.new.greeting") << "\n";
  }

  // At a terminal the question stands on standard error; a pipe is only read.
  std::optional<std::string> answer_to(const Question& question, int number) {
    if (host_.streams.in_is_terminal) host_.streams.err << prompt(question, number) << std::flush;
    std::string line;
    if (!std::getline(host_.streams.in, line)) return std::nullopt;
    return line;
  }

  // The first question of each member of a list also says how to end the list.
  std::string prompt(const Question& question, int number) {
    const bool opens_member = member_ != std::pair(question.repeat, number);
    member_ = {question.repeat, number};
    const char* key = number == 0    ? "cli.new.prompt"
                      : opens_member ? "cli.new.prompt-list"
                                     : "cli.new.prompt-member";
    return words_.text(
               key,
               {{"question", question.text}, {"example", question.example}, {"number", number}}) +
           " ";
  }

  ordered_json whole(const Questionnaire& asking) const {
    ordered_json season = asking.season();
    if (farms_.from_file) season["farms"] = farms_.json;
    return season;
  }

  ordered_json check(const Questionnaire& asking) {
    return host_.ask("season.check", {{"season", json(whole(asking))}});
  }

  ordered_json checked_until_sound(Questionnaire& asking) {
    ordered_json answer = check(asking);
    for (int round = 0; round < most_rounds && has_errors(answer); ++round) {
      if (!host_.streams.in_is_terminal || !ask_again(asking, answer)) break;
      answer = check(asking);
    }
    return answer;
  }

  // Shows each problem with its question and asks anew; false when no answer changed.
  bool ask_again(Questionnaire& asking, const ordered_json& answer) {
    bool changed = false;
    for (const ordered_json& problem : answer["problems"]) {
      const std::string field = problem.value("field", "");
      if (problem.value("severity", "") != "error" || asking.behind(field) == nullptr) continue;
      host_.streams.err << problem_line(problem, unwritten(whole(asking)), words_) << "\n";
      changed = asking.ask_again(field, [this](const Question& q, int number) {
        return answer_to(q, number);
      }) || changed;
    }
    return changed;
  }

  // Before it is a file: only what came from the farms' table has lines.
  Document unwritten(const ordered_json& season) const {
    Document document;
    document.json = season;
    document.places = farms_.places;
    document.from_file = true;
    return document;
  }

  int write(const ordered_json& season, const ordered_json& checked) {
    const std::string& file = host_.arguments.file;
    const std::string text = "# " + words_.text("cli.new.file-head") + "\n\n" + season_toml(season);
    if (host_.arguments.dry_run) {
      host_.streams.out << text;
    } else if (!write_file(file, text)) {
      return host_.refuse({{"file-unwritable", {file, 0, 0}, "", "", {}, exit_codes::unwritable}});
    }
    return report(season, checked);
  }

  // Problems are said with the lines of the file just written, ready to be mended there.
  int report(const ordered_json& season, const ordered_json& checked) {
    const std::string& file = host_.arguments.file;
    Document written = unwritten(season);
    if (!host_.arguments.dry_run)
      if (Reading<Document> read = read_season_file(file)) written = std::move(*read);
    for (const ordered_json& problem : checked["problems"])
      if (problem.value("severity", "") != "notice")
        host_.streams.err << problem_line(problem, written, words_) << "\n";
    const int code = exit_code_of(checked);
    if (host_.arguments.dry_run) return code;
    host_.remark(words_.text("cli.new.written", {{"file", file}}));
    host_.remark(words_.text(code == exit_codes::problems ? "cli.next.mend" : "cli.next.plan",
                             {{"file", file}}));
    return code;
  }

  Host& host_;
  const words::Catalogue& words_;
  Document farms_;
  std::pair<std::string, int> member_;  // list and number of the question asked last
};

}  // namespace

int season_new(Host& host) { return NewSeason(host).run(); }

}  // namespace wheyfield::cli
