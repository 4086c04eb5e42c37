#include "store/sqlite/connection.h"

#include <cerrno>

namespace wheyfield::store {
namespace {

using outcome::failure;
using outcome::Problem;
using outcome::Result;

bool no_room(int system_error) {
  return system_error == ENOSPC || system_error == EDQUOT || system_error == EFBIG;
}

// What the system said last about the main file or the -wal file. SQLite itself tells a full disk
// from other failures to write, but not a quota or a file that may not grow.
bool no_room_for_files(sqlite3* database) {
  int error = 0;
  sqlite3_file_control(database, "main", SQLITE_FCNTL_LAST_ERRNO, &error);
  if (no_room(error)) return true;
  sqlite3_file* wal = nullptr;
  sqlite3_file_control(database, "main", SQLITE_FCNTL_JOURNAL_POINTER, &wal);
  if (wal == nullptr || wal->pMethods == nullptr) return false;
  wal->pMethods->xFileControl(wal, SQLITE_FCNTL_LAST_ERRNO, &error);
  return no_room(error);
}

bool means_full(sqlite3* database, int code, int system_error) {
  if (code == SQLITE_IOERR_WRITE && no_room_for_files(database)) return true;
  const int kind = code & 0xff;
  return kind == SQLITE_FULL || (kind == SQLITE_IOERR && no_room(system_error));
}

bool means_read_only(int code, int system_error) {
  if (code == SQLITE_READONLY || code == SQLITE_PERM) return true;
  return (code == SQLITE_CANTOPEN || code == SQLITE_IOERR) &&
         (system_error == EACCES || system_error == EPERM || system_error == EROFS);
}

}  // namespace

Problem problem_of(sqlite3* database, int code, const std::string& path) {
  const int system_error = sqlite3_system_errno(database);
  const int kind = code & 0xff;  // without SQLite's finer distinctions
  if (means_full(database, code, system_error)) return {"store-full", "", path, {}};
  if (means_read_only(kind, system_error)) return {"store-read-only", "", path, {}};
  if (kind == SQLITE_BUSY || kind == SQLITE_LOCKED) return {"store-busy", "", path, {}};
  if (kind == SQLITE_NOTADB) return {"store-unreadable", "", path, {{"why", "not-a-notes-file"}}};
  return {"store-broken", "", path, {{"why", sqlite3_errmsg(database)}}};
}

void Statement::bind(int place, std::string_view text) {
  const int code = sqlite3_bind_text64(statement_.get(), place, text.data(), text.size(),
                                       SQLITE_STATIC, SQLITE_UTF8);
  if (code != SQLITE_OK) bound_ = code;
}

void Statement::bind(int place, std::int64_t number) {
  const int code = sqlite3_bind_int64(statement_.get(), place, number);
  if (code != SQLITE_OK) bound_ = code;
}

Result<bool> Statement::step() {
  const int code = bound_ != SQLITE_OK ? bound_ : sqlite3_step(statement_.get());
  bound_ = SQLITE_OK;
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  const Problem problem = problem_of(database_, code, path_);
  reset();
  return failure(problem);
}

Result<void> Statement::run() {
  const auto stepped = step();
  reset();
  if (!stepped) return failure(stepped.error());
  return {};
}

std::int64_t Statement::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

std::string_view Statement::view(int column) const {
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return bytes == nullptr ? std::string_view()
                          : std::string_view(bytes, static_cast<std::size_t>(size));
}

Result<Connection> Connection::open(const std::string& path, Mode mode) {
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE |
                    (mode == Mode::create ? SQLITE_OPEN_CREATE : 0);
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &handle, flags, nullptr);
  Connection connection;
  connection.database_.reset(handle);
  connection.path_ = path;
  if (const auto opened = connection.checked(code); !opened) return failure(opened.error());
  sqlite3_busy_timeout(handle, 5000);
  return connection;
}

Result<void> Connection::checked(int code) const {
  if (code == SQLITE_OK) return {};
  return failure(problem_of(database_.get(), code, path_));
}

Result<void> Connection::run(const char* sql) {
  return checked(sqlite3_exec(database_.get(), sql, nullptr, nullptr, nullptr));
}

Result<Statement> Connection::prepare(std::string_view sql) {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v3(database_.get(), sql.data(), static_cast<int>(sql.size()),
                                      SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  if (const auto prepared = checked(code); !prepared) return failure(prepared.error());
  return Statement(database_.get(), statement, path_);
}

Result<std::int64_t> Connection::number(std::string_view sql) {
  auto statement = prepare(sql);
  if (!statement) return failure(statement.error());
  if (const auto row = statement->step(); !row) return failure(row.error());
  return statement->number(0);
}

Result<std::string> Connection::text(std::string_view sql) {
  auto statement = prepare(sql);
  if (!statement) return failure(statement.error());
  if (const auto row = statement->step(); !row) return failure(row.error());
  return statement->text(0);
}

void Connection::roll_back() {
  if (sqlite3_get_autocommit(database_.get()) == 0)
    sqlite3_exec(database_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

Result<void> Connection::empty_wal() {
  constexpr int patience_ms = 5000, pause_ms = 10;
  int code = SQLITE_BUSY;
  for (int waited = 0; (code & 0xff) == SQLITE_BUSY && waited < patience_ms; waited += pause_ms) {
    if (waited > 0) sqlite3_sleep(pause_ms);
    code = sqlite3_wal_checkpoint_v2(database_.get(), "main", SQLITE_CHECKPOINT_TRUNCATE, nullptr,
                                     nullptr);
  }
  return checked(code);
}

}  // namespace wheyfield::store
