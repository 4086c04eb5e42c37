// SQLite's C interface with owners for its handles, and its result codes as our problems.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "outcome/result.h"

namespace wheyfield::store {

// One prepared statement. Texts that are bound must outlive the next step().
class Statement {
 public:
  Statement() = default;
  Statement(sqlite3* database, sqlite3_stmt* statement, std::string path)
      : database_(database), statement_(statement), path_(std::move(path)) {}

  void bind(int place, std::string_view text);  // places count from 1
  void bind(int place, std::int64_t number);

  // True when there is a row to be read. Errors: those of problem_of.
  outcome::Result<bool> step();
  // One step of a statement that gives no rows, made ready for the next use.
  outcome::Result<void> run();
  void reset() { sqlite3_reset(statement_.get()); }

  std::int64_t number(int column) const;    // columns count from 0
  std::string_view view(int column) const;  // until the next step or reset
  std::string text(int column) const { return std::string(view(column)); }

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  sqlite3* database_ = nullptr;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  std::string path_;
  int bound_ = SQLITE_OK;
};

class Connection {
 public:
  enum class Mode { existing, create };

  // Errors: those of problem_of.
  static outcome::Result<Connection> open(const std::string& path, Mode mode);

  outcome::Result<void> run(const char* sql);
  outcome::Result<Statement> prepare(std::string_view sql);
  // The one number or text that `sql` gives.
  outcome::Result<std::int64_t> number(std::string_view sql);
  outcome::Result<std::string> text(std::string_view sql);

  // Ends a transaction that is still open, without keeping it.
  void roll_back();
  // Moves what stands in the -wal file into the main file and cuts the -wal file to nothing. While
  // another program does the same it waits, which SQLite's own waiting does not cover.
  outcome::Result<void> empty_wal();

  bool read_only() const { return sqlite3_db_readonly(database_.get(), "main") == 1; }
  std::int64_t changed() const { return sqlite3_changes(database_.get()); }
  const std::string& path() const { return path_; }

 private:
  struct Close {
    void operator()(sqlite3* database) const { sqlite3_close_v2(database); }
  };
  outcome::Result<void> checked(int code) const;

  std::unique_ptr<sqlite3, Close> database_;
  std::string path_;
};

// What SQLite's result code means to a person: store-full, store-read-only, store-busy,
// store-unreadable (why: not-a-notes-file) or store-broken (why: SQLite's own words).
outcome::Problem problem_of(sqlite3* database, int code, const std::string& path);

}  // namespace wheyfield::store
