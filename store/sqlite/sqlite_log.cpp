#include "store/sqlite/sqlite_log.h"

#include <optional>
#include <set>
#include <utility>

#include "journal/crc32.h"
#include "store/sqlite/database_file.h"

namespace wheyfield::store {
namespace {

using journal::EventId;
using journal::LogEntry;
using outcome::failure;
using outcome::Problem;
using outcome::Result;

// Looked up first: as one statement (INSERT ... WHERE NOT EXISTS) it takes twice as long, for
// SQLite then puts the row aside in a table of its own.
constexpr std::string_view find_sql =
    "SELECT line, sum, seq FROM events WHERE device=?1 AND counter=?2";
constexpr std::string_view insert_sql =
    "INSERT INTO events(device, counter, line, sum) VALUES(?1, ?2, ?3, ?4)";
constexpr std::string_view mend_sql = "UPDATE events SET line=?3, sum=?4 WHERE seq=?5";
constexpr std::string_view read_sql = "SELECT device, counter, line, sum FROM events ORDER BY seq";
constexpr std::string_view first_sql =
    "UPDATE events SET line=?3, sum=?4 WHERE seq="
    "(SELECT min(seq) FROM events WHERE device=?1 AND counter=?2)";
constexpr std::string_view others_sql =
    "DELETE FROM events WHERE device=?1 AND counter=?2 AND seq>"
    "(SELECT min(seq) FROM events WHERE device=?1 AND counter=?2)";

// A name of its own for each, so that nobody takes another's for paid.
constexpr const char* owe_sql =
    "INSERT INTO owed(work) VALUES('clean ' || lower(hex(randomblob(8))))";

std::int64_t sum_of(const EventId& id, const std::string& line) {
  return journal::crc32_of(line, journal::crc32_of(id.text() + " "));
}

// Of what integrity_check says, the first line that is not a heading.
std::string first_finding(const std::string& findings) {
  const std::size_t heading = findings.rfind("***", 0) == 0 ? findings.find('\n') : 0;
  const std::size_t start = heading == 0 || heading == findings.npos ? 0 : heading + 1;
  return findings.substr(start, findings.find('\n', start) - start);
}

class SqliteLog : public journal::EventLog {
 public:
  explicit SqliteLog(Connection connection) : connection_(std::move(connection)) {}

  // Prepares the statements, and ends a blanking that was cut short. Where there is no room for
  // that, or no quiet, it stays owed: the notes can be read all the same.
  Result<void> begin() {
    for (auto [statement, sql] : {std::pair{&find_, find_sql},
                                  {&insert_, insert_sql},
                                  {&mend_, mend_sql},
                                  {&read_, read_sql},
                                  {&first_, first_sql},
                                  {&others_, others_sql}}) {
      auto prepared = connection_.prepare(sql);
      if (!prepared) return failure(std::move(prepared.error()));
      *statement = std::move(*prepared);
    }
    auto paid = pay_owed();
    const bool later = !paid && (paid.error().front().code == "store-full" ||
                                 paid.error().front().code == "store-busy");
    return later ? Result<void>{} : paid;
  }

  Result<std::size_t> append(const std::vector<LogEntry>& entries) override {
    return put_in(entries, false);
  }

  Result<std::size_t> append_numbered(const std::vector<LogEntry>& entries) override {
    return put_in(entries, true);
  }

  Result<journal::Kept> read() override {
    journal::Kept kept;
    for (;;) {
      const auto row = read_.step();
      if (!row) return failure(row.error());
      if (!*row) break;
      LogEntry entry{{read_.text(0), read_.number(1)}, read_.text(2)};
      if (read_.number(3) == sum_of(entry.id, entry.line))
        kept.entries.push_back(std::move(entry));
      else
        kept.damaged.push_back(std::move(entry.id));
    }
    read_.reset();
    return kept;
  }

  Result<void> blank(const std::vector<LogEntry>& entries) override {
    const auto done = in_one_transaction([&]() -> Result<void> {
      std::int64_t found = 0;
      std::set<EventId> there;  // ids of which one line has been put
      for (const LogEntry& entry : entries) {
        if (there.count(entry.id) != 0) {
          if (auto put = run_with(insert_, entry); !put) return put;
          continue;
        }
        if (auto put = run_with(first_, entry); !put) return put;
        if (connection_.changed() > 0) there.insert(entry.id);
        found += connection_.changed();
        if (auto put = run_with(others_, entry); !put) return put;
      }
      return found == 0 ? Result<void>{} : connection_.run(owe_sql);
    });
    return done ? pay_owed() : done;
  }

  Result<void> verify() override {
    const auto found = connection_.text("PRAGMA integrity_check");
    if (!found) return failure(found.error());
    if (*found != "ok")
      return failure(
          Problem{"store-broken", "", connection_.path(), {{"why", first_finding(*found)}}});
    const auto kept = read();
    if (!kept) return failure(kept.error());
    outcome::Problems problems;
    const auto damaged = [&](const EventId& id) {
      problems.push_back({"store-note-damaged", "", id.text(), {}});
    };
    for (const EventId& id : kept->damaged) damaged(id);
    for (const LogEntry& entry : kept->entries) {
      const auto event = journal::parse_event(std::string_view(entry.line));
      if (!event || !(event->id == entry.id)) damaged(entry.id);
    }
    if (!problems.empty()) return failure(std::move(problems));
    return {};
  }

 private:
  struct Found {
    bool same = false;
    bool any = false;                        // a row with this id
    std::optional<std::int64_t> damaged_at;  // seq of one whose sum contradicts it
  };

  Result<std::size_t> put_in(const std::vector<LogEntry>& entries, bool numbered) {
    if (entries.empty()) return 0;
    std::size_t added = 0;
    const auto done = in_one_transaction([&]() -> Result<void> {
      for (const LogEntry& entry : entries) {
        const auto found = find(entry);
        if (!found) return failure(found.error());
        if (found->same) continue;
        if (numbered && found->any)
          return failure(Problem{"store-id-taken", "", entry.id.text(), {}});
        if (found->damaged_at) mend_.bind(5, *found->damaged_at);
        if (auto put = run_with(found->damaged_at ? mend_ : insert_, entry); !put) return put;
        ++added;
      }
      return {};
    });
    if (!done) return failure(done.error());
    return added;
  }

  // Under the id of `entry`: its own line, or others.
  Result<Found> find(const LogEntry& entry) {
    find_.bind(1, std::string_view(entry.id.device));
    find_.bind(2, entry.id.counter);
    Found found;
    for (;;) {
      const auto row = find_.step();
      if (!row) return failure(row.error());
      if (!*row) break;
      found.any = true;
      const bool sound = find_.number(1) == sum_of(entry.id, find_.text(0));
      if (!sound) found.damaged_at = find_.number(2);
      found.same = sound && find_.view(0) == entry.line;
      if (found.same) break;
    }
    find_.reset();
    return found;
  }

  Result<void> run_with(Statement& statement, const LogEntry& entry) {
    statement.bind(1, std::string_view(entry.id.device));
    statement.bind(2, entry.id.counter);
    if (&statement != &others_) {
      statement.bind(3, std::string_view(entry.line));
      statement.bind(4, sum_of(entry.id, entry.line));
    }
    return statement.run();
  }

  template <class Work>
  Result<void> in_one_transaction(Work work) {
    auto done = connection_.run("BEGIN IMMEDIATE");
    if (done) done = work();
    if (done) done = connection_.run("COMMIT");
    if (!done) connection_.roll_back();
    return done;
  }

  // Secure deletion zeroes what is deleted, but not the copies that SQLite leaves in a page when it
  // moves rows to a neighbouring page. Only writing the whole file anew leaves no trace. What
  // another program comes to owe meanwhile is not paid by this.
  Result<void> pay_owed() {
    const auto owed = connection_.text("SELECT coalesce(group_concat(quote(work)), '') FROM owed");
    if (!owed) return failure(owed.error());
    if (owed->empty()) return {};
    if (auto done = connection_.run("VACUUM"); !done) return done;
    if (auto done = connection_.empty_wal(); !done) return done;
    const std::string paid = "DELETE FROM owed WHERE work IN (" + *owed + ")";
    return connection_.run(paid.c_str());
  }

  Connection connection_;
  Statement find_, insert_, mend_, read_, first_, others_;
};

}  // namespace

Result<std::unique_ptr<journal::EventLog>> open_sqlite_log(const std::string& path) {
  auto connection = open_database(path);
  if (!connection) return failure(std::move(connection.error()));
  auto log = std::make_unique<SqliteLog>(std::move(*connection));
  if (auto begun = log->begin(); !begun) return failure(std::move(begun.error()));
  return log;
}

}  // namespace wheyfield::store
