// Notes that come from a file and go to one.
#include <filesystem>

#include "api/session.h"
#include "cli/commands.h"
#include "cli/deflate.h"
#include "cli/journal_desk.h"
#include "cli/notes_csv.h"
#include "cli/season_file.h"
#include "cli/season_writer.h"
#include "cli/text_file.h"
#include "cli/write_file.h"
#include "journal/base64.h"
#include "journal/packed_notes.h"
#include "journal/team_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

bool ends_with(const std::string& text, const std::string& end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

// An answer that says only this.
ordered_json refusal(const Host& host, const outcome::Problem& problem) {
  return {{"schema", 1},
          {"problems", json::array({api::problem_json(problem, &host.words)})},
          {"sources", json::array()}};
}

class Taking {
 public:
  explicit Taking(Host& host) : host_(host), desk_(host) {}

  int run() {
    const std::string& file = host_.arguments.file;
    if (ends_with(file, ".toml")) return season();
    if (ends_with(file, ".csv")) return table();
    return team_file();
  }

 private:
  int season() {
    Reading<Document> season = read_season_file(host_.arguments.file);
    if (!season) return host_.refuse(season.error());
    season->prefix = "";
    return import("journal.import", {{"season", season->json}}, *season);
  }

  int table() {
    if (host_.arguments.note.kind.empty())
      return host_.refuse({{"kind-of-rows", {}, "", "", {}, exit_codes::wrong_use}});
    Reading<Document> rows = read_rows_file(host_.arguments.file);
    if (!rows) return host_.refuse(rows.error());
    json body = rows->json;
    body["kind"] = host_.arguments.note.kind;
    return import("journal.rows", std::move(body), *rows);
  }

  int import(const std::string& action, json body, const Document& asked) {
    if (const auto failed = desk_.open(JournalDesk::Missing::make)) return *failed;
    if (!host_.arguments.json) body["pages"] = true;
    const auto ours = desk_.signed_by_us(std::move(body));
    if (!ours) return *desk_.failed();
    const ordered_json answer = host_.ask(action, *ours);
    const int code = host_.show(answer, asked, Notes::one_of_a_kind);
    if (code == exit_codes::problems || !answer.contains("events")) return code;
    return agreed(answer["events"], answer["events"].size(), code);
  }

  int team_file() {
    const Reading<std::string> text = read_text_file(host_.arguments.file);
    if (!text) return host_.refuse(text.error());
    if (const auto failed = desk_.open(JournalDesk::Missing::make)) return *failed;
    const ordered_json split = host_.ask("journal.split", {{"file", *text}});
    if (!split.contains("packed")) return refused(split);
    const auto bytes = journal::from_base64(split["packed"].get<std::string>());
    const auto inflated = inflate(*bytes, journal::most_unpacked);
    if (!inflated) return refused(refusal(host_, journal::team_file_changed()));
    if (inflated->too_large) return refused(refusal(host_, journal::team_file_too_large()));
    const ordered_json notes =
        host_.ask("journal.unpack",
                  {{"count", split["count"]}, {"crc", split["crc"]}, {"text", inflated->text}});
    if (!notes.contains("events")) return refused(notes);
    const ordered_json seen = host_.ask("journal.preview", {{"events", json(notes["events"])}});
    if (host_.arguments.json)
      host_.show(seen, Document());
    else
      host_.streams.out << seen["text"].get<std::string>() << "\n";
    return agreed(notes["events"], seen.value("added", std::size_t{0}), exit_codes::fine);
  }

  // What stands in the file is at fault, not a flag.
  int refused(const ordered_json& answer) {
    Document asked;
    asked.from_file = true;
    asked.places.add_file(host_.arguments.file);
    host_.show(answer, asked);
    return exit_codes::unreadable;
  }

  // Stores the events when the person agrees; without a terminal only --yes agrees.
  int agreed(const ordered_json& events, std::size_t fresh, int code) {
    if (host_.arguments.dry_run || events.empty()) return code;
    if (!host_.arguments.yes && !asked()) return exit_codes::question;
    if (!desk_.record(events)) return *desk_.failed();
    host_.remark(host_.words.text("cli.journal.taken", {{"n", fresh}}));
    host_.remark(host_.words.text("cli.next.journal-questions"));
    return code;
  }

  bool asked() {
    if (!host_.streams.in_is_terminal) {
      host_.remark(host_.words.text("cli.journal.needs-yes"));
      return false;
    }
    host_.streams.err << host_.words.text("cli.journal.take-now") << " " << std::flush;
    std::string line;
    std::getline(host_.streams.in, line);
    return line == host_.words.text("cli.yes") || line == host_.words.text("cli.yes-short");
  }

  Host& host_;
  JournalDesk desk_;
};

// Writes a file unless one stands there and --yes was not given.
int write_out(Host& host, const std::string& text) {
  const std::string& file = host.arguments.file;
  if (!host.arguments.yes && std::filesystem::exists(file))
    return host.refuse({{"file-exists", {file, 0, 0}, "", "", {}, exit_codes::unwritable}});
  if (!write_file(file, text))
    return host.refuse({{"file-unwritable", {file, 0, 0}, "", "", {}, exit_codes::unwritable}});
  return exit_codes::fine;
}

}  // namespace

int journal_take(Host& host) { return Taking(host).run(); }

int journal_send(Host& host) {
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  const ordered_json packed = host.ask("journal.pack", {{"names", host.arguments.note.names}});
  if (!packed.contains("text")) return host.show(packed, Document());
  const ordered_json composed =
      host.ask("journal.compose",
               {{"lines", json(packed["lines"])},
                {"count", packed["count"]},
                {"crc", packed["crc"]},
                {"packed", journal::to_base64(deflate(packed["text"].get<std::string>()))}});
  if (!composed.contains("file")) return host.show(composed, Document());
  const std::string text = composed["file"];
  const int code = write_out(host, text);
  if (code != exit_codes::fine) return code;
  show_remarks(host, packed, "cli.journal.remarks-go-along");
  host.remark(host.words.text(
      "cli.journal.sent",
      {{"n", packed["count"].get<int>()}, {"bytes", text.size()}, {"file", host.arguments.file}}));
  return code;
}

int journal_export(Host& host) {
  const JournalArguments& given = host.arguments.note;
  JournalDesk desk(host);
  if (const auto failed = desk.open(JournalDesk::Missing::refuse)) return *failed;
  if (given.as == "season") {
    const ordered_json season = host.ask("journal.season", json::object());
    if (!season.contains("season")) return host.show(season, Document());
    return write_out(host, season_toml(season["season"]));
  }
  if (given.kind.empty())
    return host.refuse({{"kind-of-rows", {}, "", "", {}, exit_codes::wrong_use}});
  const ordered_json table = host.ask("journal.table", {{"kind", given.kind}});
  if (!table.contains("rows")) return host.show(table, Document());
  const CsvFor reader = given.as == "spreadsheet" ? CsvFor::spreadsheet : CsvFor::any_program;
  const int code = write_out(host, csv_text(table["columns"], table["rows"], reader));
  if (code == exit_codes::fine)
    host.remark(host.words.text("cli.journal.exported",
                                {{"n", table["rows"].size()}, {"file", host.arguments.file}}));
  return code;
}

}  // namespace wheyfield::cli
