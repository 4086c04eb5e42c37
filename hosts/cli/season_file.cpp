#include "cli/season_file.h"

#include <filesystem>

#include "cli/farms_csv.h"
#include "cli/toml_reader.h"

namespace wheyfield::cli {
namespace {

constexpr const char* farms_from = "farms_from";

InputProblem refusal(const char* code, const Document& season) {
  const nlohmann::json& written = season.json[farms_from];
  return {
      code,       season.places.find("/farms_from"),
      farms_from, written.is_string() ? written.get<std::string>() : written.dump().substr(0, 60),
      {},         exit_codes::problems};
}

std::string beside(const std::string& path, const std::string& name) {
  return (std::filesystem::path(path).parent_path() / name).string();
}

Reading<Document> with_farms(Document season, const std::string& path) {
  if (season.json.count(farms_from) == 0) return season;
  if (season.json.count("farms") != 0) return input_failure(refusal("farms-twice", season));
  const nlohmann::json& name = season.json[farms_from];
  if (!name.is_string()) return input_failure(refusal("farms-from-not-text", season));
  Reading<Document> farms = read_farms_file(beside(path, name.get<std::string>()));
  if (!farms) return tl::make_unexpected(std::move(farms.error()));
  season.json.erase(farms_from);
  take_farms(season, std::move(*farms));
  return season;
}

}  // namespace

void take_farms(Document& season, Document farms) {
  season.json["farms"] = std::move(farms.json);
  season.places.merge(std::move(farms.places));
}

Reading<Document> read_season_file(const std::string& path) {
  Reading<Document> season = read_toml_file(path);
  if (!season) return season;
  return with_farms(std::move(*season), path);
}

}  // namespace wheyfield::cli
