// seeds_json_door FOLDER REQUESTS: writes the inputs that fuzz_json_door begins with: each call of
// the request files in REQUESTS, the practice seasons, and notes.
#include <filesystem>
#include <fstream>
#include <iostream>

#include <nlohmann/json.hpp>

#include "seasons.h"
#include "support/group_notes.h"
#include "support/random_notes.h"

namespace {

using nlohmann::json;

class SeedFolder {
 public:
  explicit SeedFolder(std::filesystem::path folder) : folder_(std::move(folder)) {
    std::filesystem::create_directories(folder_);
  }
  void write(const std::string& first_line, const std::string& rest) {
    std::ofstream(folder_ / std::to_string(++count_), std::ios::binary) << first_line << "\n"
                                                                        << rest;
  }
  int count() const { return count_; }

 private:
  std::filesystem::path folder_;
  int count_ = 0;
};

void requests(SeedFolder& seeds, const std::filesystem::path& file) {
  std::ifstream in(file);
  const json all = json::parse(in, nullptr, false);
  if (!all.is_object() || !all.contains("calls")) return;
  for (const json& call : all["calls"])
    if (call.contains("action") && call["action"].is_string())
      seeds.write(call["action"], call.value("body", json::object()).dump());
}

void practice_seasons(SeedFolder& seeds) {
  for (const char* name : {"practice", "practice-cool"}) {
    const std::string season(wheyfield::seasons::season_json(name));
    for (const char* action : {"season.check", "season.plan", "season.questions", "journal.import"})
      seeds.write(action, R"({"season":)" + season + R"(,"device":"KOBO","clock":1804413600})");
  }
}

void notes(SeedFolder& seeds, const std::vector<wheyfield::journal::Event>& events) {
  std::string list;
  for (const auto& event : events) {
    list += (list.empty() ? "" : ",") + line_of(event);
    seeds.write("journal.add", json{{"kind", event.kind},
                                    {"body", event.body},
                                    {"on", event.on.iso()},
                                    {"device", "KOBO"},
                                    {"clock", event.at.seconds}}
                                   .dump());
  }
  const std::string request = R"({"events":[)" + list + "]}";
  seeds.write("!append", request);
  seeds.write("journal.preview", request);
}

// A few of every kind, for an input is cut to some thousand bytes.
std::vector<wheyfield::journal::Event> some_of(std::vector<wheyfield::journal::Event> events) {
  std::vector<wheyfield::journal::Event> some;
  for (std::size_t i = 0; i < events.size(); i += 9) some.push_back(std::move(events[i]));
  some.resize(std::min<std::size_t>(some.size(), 40));
  return some;
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  SeedFolder seeds(words[1]);
  for (const auto& entry : std::filesystem::directory_iterator(words[2]))
    if (entry.path().extension() == ".json") requests(seeds, entry.path());
  practice_seasons(seeds);
  notes(seeds, some_of(wheyfield::testing::GroupNotes(1).day()));
  notes(seeds, some_of(wheyfield::testing::GroupNotes(1).season()));
  notes(seeds, wheyfield::testing::RandomNotes(1).events(12));
  seeds.write("journal.lost", R"({"lost":"TANO","last":3,"device":"KOBO","clock":1804413600})");
  seeds.write(
      "journal.rows",
      R"({"kind":"farm","rows":[{"body":{"code":"9"}}],"device":"KOBO","clock":1804413600})");
  seeds.write("schema", "{}");
  seeds.write("season.plan",
              R"({"season":)" + std::string(9000, '[') + std::string(9000, ']') + "}");
  seeds.write("!call", R"({"action":"crop.list","body":{}})");
  seeds.write("!open", R"({"data":{},"words":{},"date":"2027-02-20","offset_min":180,"seed":1})");
  std::cout << seeds.count() << " seeds\n";
  return seeds.count() > 10 ? 0 : 1;
}
