#include "cli/programme_groups.h"

#include <algorithm>
#include <atomic>
#include <map>
#include <set>
#include <thread>
#include <tuple>
#include <utility>

#include "api/core.h"
#include "cli/problem_printer.h"
#include "cli/season_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// One thread's way through the groups.
class GroupPlanner {
 public:
  GroupPlanner(const std::string& open, const json& days, const words::Catalogue& words,
               const lot_sizing::MipSolver* solver)
      : days_(days), words_(words), exact_(solver != nullptr) {
    core_.use_solver(solver);
    core_.call("open", open);
  }

  PlannedGroup plan(const GroupFile& file) {
    PlannedGroup planned;
    const Reading<Document> season = read_season_file(file.path);
    if (!season) {
      planned.problems = answer_of(season.error(), words_)["problems"];
      for (const InputProblem& problem : season.error())
        planned.lines.push_back(problem_line(problem, words_));
      return planned;
    }
    json body{{"group", file.name}, {"season", season->json}, {"days", days_}};
    if (exact_) body["method"] = "exact";
    ordered_json answer = ordered_json::parse(
        core_.call("call", json{{"action", "programme.group"}, {"body", body}}.dump()));
    if (answer.contains("group"))
      planned.plans = std::move(answer["group"]);
    else
      tell(answer, *season, planned);
    planned.sources = std::move(answer["sources"]);
    return planned;
  }

 private:
  void tell(const ordered_json& answer, const Document& season, PlannedGroup& planned) const {
    for (ordered_json problem : answer["problems"]) {
      planned.lines.push_back(problem_line(problem, season, words_));
      const Place place = season.places.find(problem.value("field", ""));
      problem["file"] = place.file;
      problem["line"] = place.line;
      planned.problems.push_back(std::move(problem));
    }
  }

  const json& days_;
  const words::Catalogue& words_;
  bool exact_;
  api::Core core_;
};

}  // namespace

std::vector<PlannedGroup> plan_groups(const std::vector<GroupFile>& files, const std::string& open,
                                      const json& days, std::size_t threads,
                                      const words::Catalogue& words,
                                      const lot_sizing::MipSolver* solver) {
  std::vector<PlannedGroup> planned(files.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    GroupPlanner planner(open, days, words, solver);
    for (std::size_t i = next.fetch_add(1); i < files.size(); i = next.fetch_add(1))
      planned[i] = planner.plan(files[i]);
  };
  std::vector<std::thread> helpers;
  for (std::size_t i = 1; i < std::min(threads, files.size()); ++i) helpers.emplace_back(work);
  work();
  for (std::thread& helper : helpers) helper.join();
  return planned;
}

ordered_json merged_sources(const std::vector<ordered_json>& lists) {
  using Row = std::pair<ordered_json, std::set<std::string>>;  // the source, what it was used for
  std::map<std::tuple<std::string, std::string, std::string>, Row> rows;
  for (const ordered_json& list : lists)
    for (const ordered_json& source : list) {
      auto& [row, used_for] =
          rows[{source.value("id", ""), source.value("kind", ""), source.value("page", "")}];
      if (row.is_null()) row = source;
      for (const ordered_json& use : source["used_for"]) used_for.insert(use.get<std::string>());
    }
  ordered_json merged = ordered_json::array();
  for (auto& [key, row] : rows) {
    row.first["used_for"] = row.second;
    merged.push_back(std::move(row.first));
  }
  return merged;
}

}  // namespace wheyfield::cli
