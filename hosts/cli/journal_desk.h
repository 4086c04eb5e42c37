// The file of notes beside an open session: what is in it is appended first, and what a person says
// is stored before it counts.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "cli/host.h"
#include "journal/event_log.h"

namespace wheyfield::cli {

class JournalDesk {
 public:
  enum class Missing { make, refuse };

  explicit JournalDesk(Host& host) : host_(host) {}

  // The file named by --journal, else by WHEYFIELD_JOURNAL, else wheyfield.notes in this folder.
  static std::string path_of(const Arguments& arguments);

  // Opens the file, or makes it, and appends its notes to the session. Gives the exit code when
  // that cannot be done; it is then said.
  std::optional<int> open(Missing missing);

  // `body` with `device` and `clock`; nothing when this device has no code (said).
  std::optional<nlohmann::json> signed_by_us(nlohmann::json body);

  // Asks, and stores the events of the answer, without --dry-run; asks again when another command
  // has used their numbers meanwhile. Gives the answer; `failed` is the exit code when it could not
  // be stored.
  nlohmann::ordered_json say(const std::string& action, nlohmann::json body);
  // Stores events and appends them. False when they could not be stored; it is then said.
  bool record(const nlohmann::ordered_json& events);
  std::optional<int> failed() const { return failed_; }

  // The store's own structure. Damaged notes are left to journal.verify to name; anything else is
  // said here, and `failed`.
  int verify();

 private:
  int refuse(const outcome::Problems& problems);
  bool blank(const nlohmann::ordered_json& appended);
  // What is in the file, appended to the session. False when that cannot be done; it is then said.
  bool read_again();

  Host& host_;
  std::string path_;
  std::unique_ptr<journal::EventLog> log_;
  std::optional<int> failed_;
};

// The `remarks` of an answer, when there are some, under a line of their own; on standard error.
void show_remarks(Host& host, const nlohmann::ordered_json& answer, const std::string& title);

}  // namespace wheyfield::cli
