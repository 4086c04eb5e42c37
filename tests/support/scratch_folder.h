// A folder of its own for a test that writes files; gone with everything in it afterwards. In
// memory where there is such a place: what a store does is the same there, and tests do not wait
// for disks.
#pragma once

#include <stdlib.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace wheyfield::testing {

class ScratchFolder {
 public:
  enum class Place { memory, disk };
  explicit ScratchFolder(Place place = Place::memory) {
    const bool in_memory = place == Place::memory && ::access("/dev/shm", W_OK | X_OK) == 0;
    path_ = in_memory ? "/dev/shm" : std::filesystem::temp_directory_path().string();
    path_ += "/wheyfield-XXXXXX";
    if (::mkdtemp(path_.data()) == nullptr) std::abort();
  }
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  const std::string& path() const { return path_; }
  std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

inline std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline void write_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

}  // namespace wheyfield::testing
