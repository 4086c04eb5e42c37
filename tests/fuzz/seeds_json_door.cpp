// seeds_json_door FOLDER REQUESTS: writes the inputs that fuzz_json_door begins with: each call of
// the request files in REQUESTS, and the practice seasons.
#include <filesystem>
#include <fstream>
#include <iostream>

#include <nlohmann/json.hpp>

#include "seasons.h"

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

}  // namespace

int main(int count, char** words) {
  if (count != 3) return 2;
  SeedFolder seeds(words[1]);
  for (const auto& entry : std::filesystem::directory_iterator(words[2]))
    if (entry.path().extension() == ".json") requests(seeds, entry.path());
  for (const char* name : {"practice", "practice-cool"}) {
    const std::string season(wheyfield::seasons::season_json(name));
    for (const char* action : {"season.check", "season.plan", "season.questions"})
      seeds.write(action, "{\"season\":" + season + "}");
  }
  seeds.write("schema", "{}");
  seeds.write("!call", R"({"action":"crop.list","body":{}})");
  seeds.write("!open", R"({"data":{},"words":{},"date":"2027-02-20","offset_min":180,"seed":1})");
  std::cout << seeds.count() << " seeds\n";
  return seeds.count() > 10 ? 0 : 1;
}
