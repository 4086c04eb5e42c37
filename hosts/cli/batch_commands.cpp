// The batches: forecast without notes, look at one of the file of notes, note a look.
#include <filesystem>

#include "cli/commands.h"
#include "cli/journal_desk.h"
#include "cli/weather_csv.h"
#include "cli/write_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// The picture goes into its file and out of the answer. Gives the exit code.
int write_picture(Host& host, ordered_json& answer) {
  if (!answer.contains("svg")) return exit_codes::fine;
  const std::string& path = host.arguments.svg;
  if (!write_file(path, answer["svg"].get<std::string>()))
    return host.refuse({{"file-unwritable", {path, 0, 0}, "", "", {}, exit_codes::unwritable}});
  answer.erase("svg");
  answer["svg_file"] = path;
  return exit_codes::fine;
}

int show_with_picture(Host& host, ordered_json answer, const Document& asked) {
  const int written = write_picture(host, answer);
  const int code = host.show(answer, asked);
  if (written == exit_codes::fine && answer.contains("svg_file"))
    host.remark(host.words.text("cli.batch.picture", {{"file", host.arguments.svg}}));
  return std::max(code, written);
}

json body_of_fields(const Host& host) {
  json body = json::object();
  for (const auto& [field, given] : host.arguments.fields)
    if (!given.empty()) body[field] = given.front();
  if (!host.arguments.json) body["pages"] = true;
  if (!host.arguments.svg.empty()) body["svg"] = true;
  return body;
}

}  // namespace

// --air holds degrees, or names a table of daily readings.
int batch_forecast(Host& host) {
  Document asked;
  asked.json = body_of_fields(host);
  const std::string air = asked.json.value("air", "");
  if (!air.empty() && std::filesystem::path(air).extension() == ".csv") {
    Reading<Document> rows = read_readings_file(air);
    if (!rows) return host.refuse(rows.error());
    asked.json.erase("air");
    asked.json["readings"] = std::move(rows->json);
    asked.places.merge(std::move(rows->places));
  }
  if (asked.json.contains("place")) {
    JournalDesk desk(host);
    if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
    return show_with_picture(host, host.ask("batch.forecast", asked.json), asked);
  }
  return show_with_picture(host, host.ask("batch.forecast", asked.json), asked);
}

int batch_keep(Host& host) {
  return host.show(host.ask("batch.keep", body_of_fields(host)), Document());
}

int batch_show(Host& host) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  json body = body_of_fields(host);
  body["batch"] = host.arguments.batch;
  return show_with_picture(host, host.ask("batch.show", body), Document());
}

int batch_read(Host& host) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  json body = body_of_fields(host);
  body["batch"] = host.arguments.batch;
  const ordered_json answer = desk.say("batch.read", std::move(body));
  if (desk.failed()) return *desk.failed();
  return host.show(answer, Document());
}

}  // namespace wheyfield::cli
