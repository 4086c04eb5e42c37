#include "cli/journal_desk.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "api/session.h"
#include "cli/device_code.h"
#include "cli/utf8.h"
#include "store/sqlite/sqlite_log.h"

namespace wheyfield::cli {

using journal::LogEntry;
using nlohmann::json;
using nlohmann::ordered_json;

namespace {

constexpr int most_tries = 20;  // to number a note while other commands number theirs

std::vector<LogEntry> entries_of(const ordered_json& events) {
  std::vector<LogEntry> entries;
  for (const ordered_json& event : events)
    if (auto id = journal::parse_event_id(event.at("id").get<std::string>()))
      entries.push_back({*id, event.dump()});
  return entries;
}

std::string list_of(const std::vector<LogEntry>& entries) {
  std::string list = "[";
  for (const LogEntry& entry : entries) list += (list.size() == 1 ? "" : ",") + entry.line;
  return list + "]";
}

int exit_code_of_store(const outcome::Problems& problems) {
  const std::string& code = problems.front().code;
  const bool writing = code == "store-full" || code == "store-read-only" || code == "store-busy" ||
                       code == "store-id-taken";
  return writing ? exit_codes::unwritable : exit_codes::unreadable;
}

}  // namespace

std::string JournalDesk::path_of(const Arguments& arguments) {
  if (!arguments.journal.empty()) return arguments.journal;
  const char* named = std::getenv("WHEYFIELD_JOURNAL");
  return named != nullptr && *named != '\0' ? named : "wheyfield.notes";
}

int JournalDesk::refuse(const outcome::Problems& problems) {
  ordered_json answer = {{"schema", 1}, {"problems", json::array()}, {"sources", json::array()}};
  for (const outcome::Problem& problem : problems)
    answer["problems"].push_back(api::problem_json(problem, &host_.words));
  host_.show(answer, Document());
  failed_ = exit_code_of_store(problems);
  return *failed_;
}

std::optional<int> JournalDesk::open(Missing missing) {
  path_ = path_of(host_.arguments);
  if (missing == Missing::refuse && !std::filesystem::exists(path_))
    return host_.refuse({{"journal-missing", {path_, 0, 0}, "", "", {}, exit_codes::unreadable}});
  auto log = store::open_sqlite_log(path_);
  if (!log) return refuse(log.error());
  log_ = std::move(*log);
  return read_again() ? std::nullopt : failed_;
}

bool JournalDesk::read_again() {
  const auto kept = log_->read();
  if (!kept) {
    refuse(kept.error());
    return false;
  }
  std::vector<std::string> damaged;
  for (const journal::EventId& id : kept->damaged)
    if (journal::is_device_code(id.device)) damaged.push_back(id.text());
  if (!kept->damaged.empty())
    host_.remark(host_.words.text("cli.journal.set-aside", {{"n", kept->damaged.size()}}));
  const ordered_json appended = host_.append(list_of(kept->entries), damaged);
  if (exit_code_of(appended) != exit_codes::fine) {
    failed_ = host_.show(appended, Document());
    return false;
  }
  return blank(appended);
}

std::optional<json> JournalDesk::signed_by_us(json body) {
  std::string device = host_.arguments.device;
  if (device.empty()) {
    const auto kept = device_code(host_.surroundings().device_file);
    if (!kept) {
      failed_ = host_.refuse({{"device-unkept", {}, "", "", {}, exit_codes::unwritable}});
      return std::nullopt;
    }
    device = kept->code;
    if (kept->fresh)
      host_.remark(host_.words.text("cli.journal.device-made", {{"device", device}}));
  }
  body["device"] = device;
  body["clock"] = host_.surroundings().clock;
  return body;
}

ordered_json JournalDesk::say(const std::string& action, json body) {
  auto ours = signed_by_us(std::move(body));
  if (!ours) return ordered_json::object();
  for (int more = most_tries;; --more) {
    ordered_json answer = host_.ask(action, *ours);
    if (!answer.contains("events") || host_.arguments.dry_run) return answer;
    const std::vector<LogEntry> entries = entries_of(answer["events"]);
    const auto stored = log_->append_numbered(entries);
    if (stored) {
      blank(host_.append(list_of(entries)));
      return answer;
    }
    if (stored.error().front().code != "store-id-taken" || more == 0) {
      refuse(stored.error());
      return answer;
    }
    if (!read_again()) return answer;
  }
}

bool JournalDesk::record(const ordered_json& events) {
  const auto entries = entries_of(events);
  const auto stored = log_->append(entries);
  if (!stored) {
    refuse(stored.error());
    return false;
  }
  return blank(host_.append(list_of(entries)));
}

bool JournalDesk::blank(const ordered_json& appended) {
  const auto lines = appended.find("blank");
  if (lines == appended.end() || lines->empty()) return true;
  const auto blanked = log_->blank(entries_of(*lines));
  if (blanked) return true;
  refuse(blanked.error());
  return false;
}

int JournalDesk::verify() {
  const auto sound = log_->verify();
  if (sound) return exit_codes::fine;
  const bool only_notes =
      std::all_of(sound.error().begin(), sound.error().end(),
                  [](const auto& problem) { return problem.code == "store-note-damaged"; });
  return only_notes ? exit_codes::unreadable : refuse(sound.error());
}

void show_remarks(Host& host, const ordered_json& answer, const std::string& title) {
  const auto remarks = answer.find("remarks");
  if (remarks == answer.end() || remarks->empty()) return;
  host.remark(host.words.text(title, {{"n", remarks->size()}}));
  for (const ordered_json& remark : *remarks)
    host.remark("  " + remark["id"].get<std::string>() + "  " +
                printable(remark["says"].get<std::string>()));
}

}  // namespace wheyfield::cli
