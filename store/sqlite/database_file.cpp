#include "store/sqlite/database_file.h"

#include <unistd.h>

#include <array>
#include <atomic>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <optional>

namespace wheyfield::store {
namespace {

namespace fs = std::filesystem;
using outcome::failure;
using outcome::Problem;
using outcome::Result;

constexpr std::uint32_t application_id = 0x57484559;  // "WHEY"
constexpr std::int64_t schema_version = 1;

constexpr const char* create_schema =
    "BEGIN IMMEDIATE;"
    "CREATE TABLE events(seq INTEGER PRIMARY KEY, device TEXT NOT NULL, counter INTEGER NOT NULL,"
    " line TEXT NOT NULL, sum INTEGER NOT NULL) STRICT;"
    "CREATE INDEX events_by_id ON events(device, counter);"
    "CREATE TABLE owed(work TEXT NOT NULL) STRICT;"
    "PRAGMA application_id=1464354137;"
    "PRAGMA user_version=1;"
    "COMMIT";
static_assert(application_id == 1464354137 && schema_version == 1);

// What is forgotten must not stay in freed pages, nor in a temporary file.
constexpr const char* settings =
    "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA secure_delete=ON;"
    "PRAGMA temp_store=MEMORY";

// A file from elsewhere may be made to do harm: nothing in its schema is run, and its pages are
// looked at before they are believed.
constexpr const char* precautions = "PRAGMA trusted_schema=OFF; PRAGMA cell_size_check=ON";

Problem unreadable(const std::string& path, const char* why) {
  return {"store-unreadable", "", path, {{"why", why}}};
}

// Offsets of SQLite's file format, 1.3 The Database Header: 0 magic, 68 application id.
const char* header_fault(const std::array<unsigned char, 100>& header) {
  if (std::memcmp(header.data(), "SQLite format 3", 16) != 0) return "not-a-notes-file";
  std::uint32_t id = 0;
  for (std::size_t place = 68; place < 72; ++place) id = (id << 8) | header[place];
  return id == application_id ? nullptr : "not-a-notes-file";
}

// Reads the first bytes itself: SQLite might already tidy up a file that is not ours.
std::optional<Problem> file_fault(const std::string& path) {
  std::error_code ignored;
  const fs::file_status status = fs::status(path, ignored);
  if (status.type() == fs::file_type::none) return unreadable(path, "not-allowed");
  if (fs::is_directory(status)) return unreadable(path, "a-folder");
  if (!fs::is_regular_file(status)) return unreadable(path, "not-a-file");
  std::ifstream file(path, std::ios::binary);
  if (!file) return unreadable(path, "not-allowed");
  std::array<unsigned char, 100> header{};
  file.read(reinterpret_cast<char*>(header.data()), header.size());
  if (file.gcount() == 0) return unreadable(path, "empty");
  const char* fault = file.gcount() < 100 ? "not-a-notes-file" : header_fault(header);
  if (fault != nullptr) return unreadable(path, fault);
  return std::nullopt;
}

Result<void> write_new(const std::string& path) {
  auto connection = Connection::open(path, Connection::Mode::create);
  if (!connection) return failure(connection.error());
  if (auto done = connection->run(create_schema); !done) return done;
  if (auto done = connection->run(settings); !done) return done;
  return connection->empty_wal();
}

// Another program may have been quicker: then its file stays.
bool put_in_place(const std::string& passing, const std::string& path) {
  std::error_code error;
  fs::create_hard_link(passing, path, error);
  if (error && error != std::errc::file_exists) {  // a file system without hard links
    fs::rename(passing, path, error);
    return !error;
  }
  return true;
}

Result<void> make_file(const std::string& path) {
  static std::atomic<int> made{0};
  const fs::path folder = fs::path(path).parent_path();
  std::error_code error;
  if (!fs::is_directory(folder, error)) return failure(unreadable(path, "no-such-folder"));
  if (::access(folder.c_str(), W_OK | X_OK) != 0)
    return failure(Problem{"store-read-only", "", path, {}});
  const std::string passing =
      path + ".new-" + std::to_string(::getpid()) + "-" + std::to_string(++made);
  auto done = write_new(passing);
  if (done && !put_in_place(passing, path))
    done = failure(Problem{"store-read-only", "", path, {}});
  for (const char* ending : {"", "-journal", "-wal", "-shm"}) fs::remove(passing + ending, error);
  if (done) return done;
  for (Problem& problem : done.error()) problem.value = path;
  return done;
}

Result<void> check_version(Connection& connection) {
  const auto version = connection.number("PRAGMA user_version");
  if (!version) return failure(version.error());
  if (*version > schema_version) return failure(unreadable(connection.path(), "newer-version"));
  if (*version < schema_version) return failure(unreadable(connection.path(), "unknown-version"));
  return {};
}

Result<void> set_up(Connection& connection) {
  if (auto done = connection.run(precautions); !done) return done;
  if (auto done = check_version(connection); !done) return done;
  if (connection.read_only()) return failure(Problem{"store-read-only", "", connection.path(), {}});
  return connection.run(settings);
}

}  // namespace

Result<Connection> open_database(const std::string& named) {
  // SQLite takes "" and ":memory:" for stores without a file; a whole path is never one of them.
  if (named.empty() || named.find('\0') != named.npos)
    return failure(unreadable(named, "not-a-file"));
  std::error_code error;
  const std::string path = fs::absolute(named, error).string();
  if (fs::status(path, error).type() == fs::file_type::not_found)
    if (auto made = make_file(path); !made) return failure(std::move(made.error()));
  if (auto fault = file_fault(path)) return failure(std::move(*fault));
  auto connection = Connection::open(path, Connection::Mode::existing);
  if (!connection) return connection;
  if (auto done = set_up(*connection); !done) return failure(std::move(done.error()));
  return connection;
}

}  // namespace wheyfield::store
