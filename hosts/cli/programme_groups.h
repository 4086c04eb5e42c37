// The groups of a programme, read and planned several at a time.
//
// Each thread has a core of its own, opened with the same words, so that they share nothing but the
// number of the next group; what comes back stands in the order of the files, whoever planned it.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/input.h"
#include "lot_sizing/mip.h"

namespace wheyfield::cli {

struct GroupFile {
  std::string name;  // the file's, without .toml
  std::string path;
};

// What became of one group: its plans, or what is wrong in its file.
struct PlannedGroup {
  nlohmann::ordered_json plans;  // `group` of programme.group; null when it could not be planned
  nlohmann::ordered_json sources = nlohmann::ordered_json::array();
  nlohmann::ordered_json problems = nlohmann::ordered_json::array();  // with file and line
  std::vector<std::string> lines;                                     // the same for people
};

// `open` is the text of the facade's open; `days` are weekdays as programme.check answers them;
// `threads` > 0. With a `solver`, which is used by all threads at once, the method is exact.
std::vector<PlannedGroup> plan_groups(const std::vector<GroupFile>& files, const std::string& open,
                                      const nlohmann::json& days, std::size_t threads,
                                      const words::Catalogue& words,
                                      const lot_sizing::MipSolver* solver = nullptr);

// The sources of all of them, each row once.
nlohmann::ordered_json merged_sources(const std::vector<nlohmann::ordered_json>& lists);

}  // namespace wheyfield::cli
