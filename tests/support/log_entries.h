// Entries for the tests of stores.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "journal/event_log.h"

namespace wheyfield::journal {

inline bool operator==(const LogEntry& a, const LogEntry& b) {
  return a.id == b.id && a.line == b.line;
}
inline void PrintTo(const LogEntry& entry, std::ostream* out) { *out << entry.line; }

}  // namespace wheyfield::journal

namespace wheyfield::testing {

using Entries = std::vector<journal::LogEntry>;

inline journal::Event event_of(const std::string& device, std::int64_t counter) {
  journal::Event event;
  event.id = {device, counter};
  event.at = {1804413600 + counter % 100000, 0};
  event.on = calendar::parse_date("2027-03-07").value();
  event.utc_offset_min = 180;
  event.kind = "visit";
  return event;
}

// The event DEVICE-COUNTER whose body carries `note`.
inline journal::LogEntry entry_of(const std::string& device, std::int64_t counter,
                                  const std::string& note = "") {
  journal::Event event = event_of(device, counter);
  event.body = {{"farm", "9"}, {"note", note}};
  return {event.id, line_of(event)};
}

inline journal::LogEntry blanked(const std::string& device, std::int64_t counter) {
  const journal::Event event = event_of(device, counter);
  return {event.id, line_of(event)};
}

// DEVICE-first .. DEVICE-last.
inline Entries entries_of(const std::string& device, std::int64_t first, std::int64_t last) {
  Entries entries;
  for (std::int64_t counter = first; counter <= last; ++counter)
    entries.push_back(entry_of(device, counter, "seen at " + std::to_string(counter)));
  return entries;
}

template <class T>
std::string told(const outcome::Result<T>& result) {
  if (result) return "no problem";
  std::string text;
  for (const outcome::Problem& problem : result.error()) {
    text += problem.code;
    for (const auto& [name, value] : problem.details) text += " " + name + "=" + value;
  }
  return text;
}

template <class T>
std::string code_of(const outcome::Result<T>& result) {
  return result ? "" : result.error().front().code;
}

// What the log holds; a failed test and nothing when it cannot be read, or not all of it.
inline Entries read_all(journal::EventLog& log) {
  auto kept = log.read();
  EXPECT_TRUE(kept) << told(kept);
  if (!kept) return {};
  EXPECT_EQ(kept->damaged.size(), 0U);
  return std::move(kept->entries);
}

inline std::size_t append_all(journal::EventLog& log, const Entries& entries) {
  const auto added = log.append(entries);
  EXPECT_TRUE(added) << told(added);
  return added ? *added : 0;
}

inline Entries together(Entries a, const Entries& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

}  // namespace wheyfield::testing
