// Where events are kept. A store keeps lines by their id; it understands none of them.
// Implementations: store/sqlite (default), store/memory, store/faulty (fails on purpose). One test
// suite holds for all of them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "journal/event.h"
#include "outcome/result.h"

namespace wheyfield::journal {

// An event as it is kept: its id and its one line (line_of).
struct LogEntry {
  EventId id;
  std::string line;
};

// What a store holds. A line that its own sum contradicts is set aside, by the id of its row, and
// stops nothing else.
struct Kept {
  std::vector<LogEntry> entries;  // in the order of arrival
  std::vector<EventId> damaged;
};

class EventLog {
 public:
  virtual ~EventLog() = default;

  // All of them or none. When it returns without a problem they survive the end of the process and
  // of the power. Entries that are there already, byte for byte, are passed over; another line with
  // the same id is kept beside the first, but takes the place of a damaged one. Gives how many were
  // new. After a problem the caller sends all of them again.
  // Errors: store-full, store-read-only, store-busy, store-broken (details: why).
  virtual outcome::Result<std::size_t> append(const std::vector<LogEntry>& entries) = 0;

  // The same for entries that this device has just numbered: none may have an id that is there with
  // another line. Error besides: store-id-taken (value: the id); then another program has used the
  // number meanwhile: read, and number anew.
  virtual outcome::Result<std::size_t> append_numbered(const std::vector<LogEntry>& entries) = 0;

  // Errors: store-busy, store-broken (details: why).
  virtual outcome::Result<Kept> read() = 0;

  // Puts these lines in the place of all lines with their ids, so that no trace of them stays in
  // the store's own files. All of them or none; after a problem the lines may be replaced and
  // traces of the old ones be left until blank is called again. Ids that are not there are passed
  // over. Errors: those of append.
  virtual outcome::Result<void> blank(const std::vector<LogEntry>& entries) = 0;

  // Looks through the store's own structure, and whether every line is an event with the id it is
  // kept under. Errors: store-busy, store-broken (details: why), store-note-damaged (value: the id;
  // one for each).
  virtual outcome::Result<void> verify() = 0;
};

}  // namespace wheyfield::journal
