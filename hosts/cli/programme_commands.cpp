#include <algorithm>
#include <filesystem>
#include <set>
#include <thread>

#include "api/programme_page_ids.h"
#include "cli/commands.h"
#include "cli/programme_groups.h"
#include "cli/season_file.h"
#include "cli/toml_reader.h"
#include "solvers/cbc/cbc_solver.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using nlohmann::ordered_json;

constexpr const char* programme_file = "programme.toml";
constexpr std::size_t worth_a_word = 20;  // groups that take long enough to say that they do
constexpr long long most_threads = 256;

GroupFile group_file(const fs::path& folder, const fs::path& file) {
  return {fs::path(file).replace_extension().generic_string(), (folder / file).string()};
}

// All season files beside the programme, by name.
std::vector<GroupFile> files_beside(const fs::path& programme) {
  std::vector<fs::path> names;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(programme.parent_path(), error))
    if (entry.path().extension() == ".toml" && entry.path().filename() != programme.filename())
      names.push_back(entry.path().filename());
  std::stable_sort(names.begin(), names.end());
  std::vector<GroupFile> files;
  for (const fs::path& name : names) files.push_back(group_file(programme.parent_path(), name));
  return files;
}

// The files that the programme lists.
Reading<std::vector<GroupFile>> files_listed(const Document& programme, const fs::path& path,
                                             const json& listed) {
  const auto refused = [&](const json& value) {
    return input_failure({"programme-files",
                          programme.places.find("/programme/groups"),
                          "groups",
                          value.is_string() ? value.get<std::string>() : value.dump().substr(0, 60),
                          {},
                          exit_codes::problems});
  };
  if (!listed.is_array()) return refused(listed);
  std::vector<GroupFile> files;
  std::set<std::string> names;
  for (const json& one : listed) {
    if (!one.is_string()) return refused(one);
    files.push_back(group_file(path.parent_path(), one.get<std::string>()));
    if (!names.insert(files.back().name).second) return refused(one);
  }
  return files;
}

Reading<std::vector<GroupFile>> group_files(const Document& programme, const fs::path& path) {
  const auto head = programme.json.find("programme");
  if (head == programme.json.end() || !head->is_object() || !head->contains("groups"))
    return files_beside(path);
  return files_listed(programme, path, (*head)["groups"]);
}

// "" where the file cannot be read: it is told when the group is planned.
std::string currency_of(const GroupFile& file) {
  const Reading<Document> season = read_season_file(file.path);
  const json::json_pointer currency("/season/currency");
  if (!season || !season->json.contains(currency)) return "";
  const json& value = season->json[currency];
  return value.is_string() ? value.get<std::string>() : "";
}

std::size_t threads_for(const Arguments& arguments) {
  if (arguments.threads) return static_cast<std::size_t>(*arguments.threads);
  return std::max(1U, std::thread::hardware_concurrency());
}

class ProgrammeRun {
 public:
  explicit ProgrammeRun(Host& host) : host_(host) {
    const fs::path given(host.arguments.file);
    std::error_code error;
    path_ = fs::is_regular_file(given, error) ? given : given / programme_file;
  }

  int run() {
    Reading<Document> programme = read_toml_file(path_.string());
    if (!programme) return host_.refuse(programme.error());
    programme_ = std::move(*programme);
    programme_.prefix = "/programme";
    auto files = group_files(programme_, path_);
    if (!files) return host_.refuse(files.error());
    files_ = std::move(*files);
    json names = json::array(), currencies = json::array();
    for (const GroupFile& file : files_) {
      names.push_back(file.name);
      currencies.push_back(currency_of(file));
    }
    const ordered_json checked = host_.ask(
        "programme.check",
        {{"programme", programme_.json}, {"groups", std::move(names)}, {"currencies", currencies}});
    if (!checked.contains("days")) return host_.show(checked, programme_);
    plan_groups_on(checked["days"]);
    return finish();
  }

 private:
  void plan_groups_on(const json& days) {
    if (files_.size() >= worth_a_word)
      host_.remark(host_.words.text("cli.programme.working", {{"n", files_.size()}}));
    planned_ =
        plan_groups(files_, host_.open_text(), days, threads_for(host_.arguments), host_.words,
                    host_.arguments.plan_method == "exact" ? &solver_ : nullptr);
    for (std::size_t i = 0; i < planned_.size(); ++i) {
      for (const std::string& line : planned_[i].lines) host_.streams.err << line << "\n";
      if (!planned_[i].plans.is_null()) continue;
      not_planned_.push_back({{"group", files_[i].name},
                              {"file", files_[i].path},
                              {"problems", planned_[i].problems}});
    }
  }

  int finish() {
    json groups = json::array(), missing = json::array();
    std::vector<ordered_json> sources;
    for (std::size_t i = 0; i < planned_.size(); ++i) {
      sources.push_back(std::move(planned_[i].sources));
      if (planned_[i].plans.is_null())
        missing.push_back(files_[i].name);
      else
        groups.emplace_back(planned_[i].plans);
    }
    if (groups.empty()) return none_planned();
    ordered_json answer =
        host_.ask("programme.assign",
                  {{"programme", programme_.json},
                   {"groups", std::move(groups)},
                   {"not_planned", std::move(missing)},
                   {"pages", !host_.arguments.json || !host_.arguments.sections.empty()}});
    sources.push_back(answer["sources"]);
    answer["sources"] = merged_sources(sources);
    if (answer.contains("not_planned")) answer["not_planned"] = not_planned_;
    const int code = host_.show(answer, programme_);
    suggest_page();
    return code == exit_codes::wrong_use || not_planned_.empty() ? code : exit_codes::problems;
  }

  int none_planned() {
    host_.streams.err << host_.words.text("cli.programme.none-planned") << "\n";
    if (host_.arguments.json)
      host_.streams.out << ordered_json{{"schema", 1},
                                        {"not_planned", not_planned_},
                                        {"problems", ordered_json::array()},
                                        {"sources", ordered_json::array()}}
                               .dump(2)
                        << "\n";
    return exit_codes::problems;
  }

  void suggest_page() {
    if (host_.arguments.json || !host_.arguments.sections.empty()) return;
    host_.remark(host_.words.text("cli.next.programme",
                                  {{"folder", host_.arguments.file}, {"section", "visits"}}));
  }

  Host& host_;
  solvers::CbcSolver solver_;
  fs::path path_;
  Document programme_;
  std::vector<GroupFile> files_;
  std::vector<PlannedGroup> planned_;
  ordered_json not_planned_ = ordered_json::array();
};

}  // namespace

int programme_plan(Host& host) {
  const std::vector<std::string>& pages = api::programme_page_ids();
  for (const std::string& section : host.arguments.sections)
    if (std::count(pages.begin(), pages.end(), section) == 0)
      return host.section_unknown(section, pages);
  const std::optional<long long>& threads = host.arguments.threads;
  if (threads && (*threads < 1 || *threads > most_threads)) {
    host.streams.err << host.words.text("cli.use.threads") << "\n";
    return exit_codes::wrong_use;
  }
  const std::optional<std::string>& method = host.arguments.plan_method;
  if (method && *method != "dynamic-programme" && *method != "exact") {
    host.streams.err << host.words.text("cli.use.programme-method", {{"method", *method}}) << "\n";
    return exit_codes::wrong_use;
  }
  return ProgrammeRun(host).run();
}

}  // namespace wheyfield::cli
