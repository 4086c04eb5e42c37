// Appending events to our SQLite store against raw prepared inserts into an equal table with the
// same settings and batches. Prints milliseconds, the median of several runs that take turns, and
// the ratio: not to be above 2. Ends with 1 when it is. On the disk of the folder given (or of
// temporary files), where waiting for the disk counts, and in memory, where only work counts.
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "stopwatch.h"
#include "store/sqlite/sqlite_log.h"

namespace {

namespace fs = std::filesystem;
using wheyfield::journal::LogEntry;
using Batch = std::vector<LogEntry>;

std::vector<Batch> batches_of(std::size_t size, std::size_t count) {
  wheyfield::journal::Event event;
  event.on = wheyfield::calendar::parse_date("2027-03-07").value();
  event.kind = "reading";
  event.body = {{"batch", "12"}, {"half", "morning"}, {"ph", "3,9"}, {"smell", "sour, clean"}};
  std::vector<Batch> batches(count);
  for (Batch& batch : batches)
    for (std::size_t i = 0; i < size; ++i) {
      event.id = {"KOBO", event.id.counter + 1};
      event.at = {1804413600 + event.id.counter, 0};
      batch.push_back({event.id, line_of(event)});
    }
  return batches;
}

void must(bool good, const char* what) {
  if (good) return;
  std::fprintf(stderr, "%s failed\n", what);
  std::exit(2);
}

double ours(const std::string& path, const std::vector<Batch>& batches) {
  auto log = wheyfield::store::open_sqlite_log(path);
  must(log.has_value(), "open");
  return milliseconds([&] {
    for (const Batch& batch : batches) must((*log)->append(batch).has_value(), "append");
  });
}

double raw(const std::string& path, const std::vector<Batch>& batches) {
  sqlite3* database = nullptr;
  sqlite3_stmt* insert = nullptr;
  const auto run = [&](const char* sql) {
    must(sqlite3_exec(database, sql, nullptr, nullptr, nullptr) == SQLITE_OK, sql);
  };
  must(sqlite3_open(path.c_str(), &database) == SQLITE_OK, "open");
  run("PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA secure_delete=ON;"
      "PRAGMA temp_store=MEMORY; CREATE TABLE events(seq INTEGER PRIMARY KEY, device TEXT NOT NULL,"
      " counter INTEGER NOT NULL, line TEXT NOT NULL, sum INTEGER NOT NULL) STRICT;"
      "CREATE INDEX events_by_id ON events(device, counter)");
  sqlite3_prepare_v2(database, "INSERT INTO events(device,counter,line,sum) VALUES(?,?,?,0)", -1,
                     &insert, nullptr);
  const double taken = milliseconds([&] {
    for (const Batch& batch : batches) {
      run("BEGIN IMMEDIATE");
      for (const LogEntry& entry : batch) {
        sqlite3_bind_text(insert, 1, entry.id.device.c_str(), -1, SQLITE_STATIC);
        sqlite3_bind_int64(insert, 2, entry.id.counter);
        sqlite3_bind_text(insert, 3, entry.line.data(), static_cast<int>(entry.line.size()),
                          SQLITE_STATIC);
        must(sqlite3_step(insert) == SQLITE_DONE, "insert");
        sqlite3_reset(insert);
      }
      run("COMMIT");
    }
  });
  sqlite3_finalize(insert);
  sqlite3_close(database);
  return taken;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

// The ratio of one folder and batch size.
double compare(const fs::path& where, const char* name, std::size_t size, std::size_t count) {
  const auto batches = batches_of(size, count);
  const fs::path folder = where / ("wheyfield-bench-" + std::to_string(::getpid()));
  std::vector<double> ours_ms, raw_ms;
  for (int run = 0; run < 7; ++run) {
    fs::create_directory(folder);
    ours_ms.push_back(ours((folder / "ours.db").string(), batches));
    raw_ms.push_back(raw((folder / "raw.db").string(), batches));
    fs::remove_all(folder);
  }
  const double ratio = median(ours_ms) / median(raw_ms);
  std::printf("%-7s %6zu x %3zu  %10.1f %10.1f %8.2f\n", name, count, size, median(ours_ms),
              median(raw_ms), ratio);
  return ratio;
}

}  // namespace

int main(int argc, char** argv) {
  const fs::path disk = argc > 1 ? fs::path(argv[1]) : fs::temp_directory_path();
  std::printf("%-7s %12s  %10s %10s %8s\n", "where", "batches", "ours ms", "raw ms", "ratio");
  double worst = compare(disk, "disk", 1, 300);
  worst = std::max(worst, compare(disk, "disk", 500, 40));
  if (fs::is_directory("/dev/shm")) {
    worst = std::max(worst, compare("/dev/shm", "memory", 1, 3000));
    worst = std::max(worst, compare("/dev/shm", "memory", 500, 40));
  }
  std::printf("largest ratio %.2f, limit 2\n", worst);
  return worst <= 2.0 ? 0 : 1;
}
