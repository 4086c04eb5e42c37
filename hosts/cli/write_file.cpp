#include "cli/write_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstring>

namespace wheyfield::cli {
namespace {

char unfinished[4096];
volatile std::sig_atomic_t under_way = 0;

bool write_all(int file, const std::string& text) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t wrote = ::write(file, text.data() + done, text.size() - done);
    if (wrote <= 0) return false;
    done += static_cast<std::size_t>(wrote);
  }
  return ::fsync(file) == 0;
}

}  // namespace

void remove_unfinished_file() {
  if (under_way != 0) ::unlink(unfinished);
}

bool write_file(const std::string& path, const std::string& text) {
  const std::string passing = path + ".part-" + std::to_string(::getpid());
  if (passing.size() >= sizeof unfinished) return false;
  const int file = ::open(passing.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) return false;
  std::memcpy(unfinished, passing.c_str(), passing.size() + 1);
  under_way = 1;
  bool written = write_all(file, text);
  written = ::close(file) == 0 && written;
  written = written && std::rename(passing.c_str(), path.c_str()) == 0;
  if (!written) ::unlink(passing.c_str());
  under_way = 0;
  return written;
}

}  // namespace wheyfield::cli
