// How planning a programme grows with its groups, and how good the plans are proven: invented
// groups, each planned on five weekdays, then the choice of days and the lorry's trips; after it,
// counted and timed apart, the plans left open once more with CBC (--method exact). Processor
// seconds of one thread through the facade, without reading files.
//
//   bench_programme_plan            125, 250, 500 and 1,000 groups
//   bench_programme_plan A-B        groups A to B, so that the groups can be shared out over runs
//   bench_programme_plan N FOLDER   writes N groups and a programme.toml, for wheyfield programme
//   plan
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "api/core.h"
#include "cli/season_writer.h"
#include "embedded.h"
#include "seasons.h"
#include "solvers/cbc/cbc_solver.h"
#include "support/invented_group.h"

using Json = nlohmann::ordered_json;

namespace {

double processor_seconds() {
  return static_cast<double>(std::clock()) / static_cast<double>(CLOCKS_PER_SEC);
}

Json group(int number) {
  static const Json practice = Json::parse(wheyfield::seasons::season_json("practice"));
  return wheyfield::testing::invented_group(practice, static_cast<std::uint64_t>(number));
}

std::string name(int number) {
  const std::string digits = std::to_string(10000 + number);
  return "g" + digits.substr(1);
}

// Two visits of as many trainers as are just enough with a tenth to spare.
Json programme(int groups) {
  Json whole = {{"programme", {{"name", "bench"}}}, {"trainers", Json::array()}};
  for (int t = 0; t < (groups * 11 / 10 + 9) / 10; ++t)
    whole["trainers"].push_back({{"name", "T" + std::to_string(t + 1)},
                                 {"days", {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"}},
                                 {"visits_a_day", 2}});
  whole["lorry"] = {{"trip", "2500"}, {"holds", 200}, {"can", "20 L"}, {"day", "Monday"}};
  return whole;
}

int write_folder(int groups, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  for (int n = 1; n <= groups; ++n)
    std::ofstream(folder / (name(n) + ".toml")) << wheyfield::cli::season_toml(group(n));
  std::ofstream(folder / "programme.toml") << wheyfield::cli::season_toml(programme(groups));
  return 0;
}

Json call(wheyfield::api::Core& core, const char* action, const Json& body) {
  return Json::parse(core.call("call", Json{{"action", action}, {"body", body}}.dump()));
}

Json plan_group(wheyfield::api::Core& core, const Json& body) {
  Json answer = call(core, "programme.group", body);
  if (answer.contains("group")) return std::move(answer["group"]);
  std::printf("%s\n", answer.dump().substr(0, 400).c_str());
  std::exit(1);
}

bool open(const Json& day) {
  return !day["least_short"].get<bool>() || day["gap"].get<double>() > 0.001;
}

// Replaces the plans that are left open by those of the exact method.
void fall_back(wheyfield::api::Core& core, Json& planned, const std::vector<Json>& seasons) {
  double all = 0.0, most = 0.0;
  int handed_over = 0, better = 0;
  for (std::size_t g = 0; g < planned.size(); ++g) {
    planned[g]["with_solver"] = true;
    for (Json& day : planned[g]["days"]) {
      if (!open(day)) continue;
      Json season = seasons[g];
      season["meetings"]["day"] = day["day"];
      const double start = processor_seconds();
      const Json group = plan_group(core, {{"group", planned[g]["group"]},
                                           {"season", season},
                                           {"days", Json::array({day["day"]})},
                                           {"method", "exact"}});
      const double seconds = processor_seconds() - start;
      const Json& after = group["days"][0];
      ++handed_over;
      all += seconds;
      most = std::max(most, seconds);
      better += after["handed_over"]["better"].get<bool>() ? 1 : 0;
      const auto said = [](const Json& plan) {
        return plan["least_short"].get<bool>() ? "" : ", perhaps less short";
      };
      std::printf("         %s %-9s gap %.3f %%%s -> %.3f %%%s in %.1f s\n",
                  planned[g]["group"].get<std::string>().c_str(),
                  day["day"].get<std::string>().c_str(), 100.0 * day["gap"].get<double>(),
                  said(day), 100.0 * after["gap"].get<double>(), said(after), seconds);
      std::fflush(stdout);
      day = after;
    }
  }
  std::printf("         handed over %d, better %d, %.1f s, most %.1f s\n", handed_over, better, all,
              most);
}

void show_proof(const Json& proof) {
  const double plans = proof["plans"];
  const auto percent = [&](const char* part) { return 100.0 * proof[part].get<double>() / plans; };
  std::printf(" %8.2f %8.2f %8.2f %8.2f %8.2f\n", percent("least_short"), percent("best"),
              percent("within_0_1_percent"), percent("within_0_5_percent"),
              100.0 * proof["worst_gap"].get<double>());
}

void measure(wheyfield::api::Core& core, int first, int last, double& before) {
  const int groups = last - first + 1;
  const Json days = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"};
  std::vector<Json> seasons;
  for (int n = first; n <= last; ++n) seasons.push_back(group(n));
  Json planned = Json::array();
  const double start = processor_seconds();
  for (int n = first; n <= last; ++n)
    planned.push_back(plan_group(core, {{"group", name(n)},
                                        {"season", seasons[static_cast<std::size_t>(n - first)]},
                                        {"days", days}}));
  const double middle = processor_seconds();
  const Json answer =
      call(core, "programme.assign", {{"programme", programme(groups)}, {"groups", planned}});
  const double end = processor_seconds();
  const Json& totals = answer["totals"];
  std::printf("%6d %9.1f %7.2f %8.1f %9.3f", groups, middle - start,
              before > 0 ? (middle - start) / before : 0.0,
              (middle - start) * 1000.0 / answer["proof"]["plans"].get<double>(), end - middle);
  show_proof(answer["proof"]);
  for (const char* row : {"now", "proposed", "own_best"})
    std::printf(
        "         %-9s cost %12.0f  short %10.2f L\n", row, totals[row]["cost"].get<double>(),
        (totals[row]["short_ml"].get<double>() + totals[row]["guess_ml"].get<double>()) / 1000.0);
  std::printf("         moved %d; %d cans in %d trips, %d groups' cans too late\n",
              totals["moved"].get<int>(), answer["lorry"]["cans"].get<int>(),
              static_cast<int>(answer["lorry"]["trips"].size()),
              static_cast<int>(answer["lorry"]["not_brought"].size()));
  before = middle - start;
  fall_back(core, planned, seasons);
  const Json exact =
      call(core, "programme.assign", {{"programme", programme(groups)}, {"groups", planned}});
  std::printf("         after it %37s", "");
  show_proof(exact["proof"]);
  std::fflush(stdout);
}

}  // namespace

// Only exhausted memory or a fault of ours can throw here.
int main(int argc, char** argv) {  // NOLINT(bugprone-exception-escape)
  if (argc == 3) return write_folder(std::atoi(argv[1]), argv[2]);
  const wheyfield::solvers::CbcSolver solver;
  wheyfield::api::Core core;
  core.use_solver(&solver);
  core.call("open", "{\"data\":" + std::string(wheyfield::embedded::data_json()) +
                        ",\"words\":" + std::string(wheyfield::embedded::words_json("en")) +
                        ",\"date\":\"2027-02-01\"}");
  std::printf("%6s %9s %7s %8s %9s %8s %8s %8s %8s %8s\n", "groups", "plans s", "growth", "ms/plan",
              "assign s", "least %", "best %", "0.1 %", "0.5 %", "worst %");
  double before = 0.0;
  if (const char* dash = argc == 2 ? std::strchr(argv[1], '-') : nullptr) {
    measure(core, std::atoi(argv[1]), std::atoi(dash + 1), before);
    return 0;
  }
  const std::vector<int> sizes =
      argc == 2 ? std::vector<int>{std::atoi(argv[1])} : std::vector<int>{125, 250, 500, 1000};
  for (const int groups : sizes) measure(core, 1, groups, before);
}
