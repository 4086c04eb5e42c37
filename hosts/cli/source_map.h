// Where each value of a request was written: JSON pointer -> file, line, column. The core speaks of
// pointers; people look for lines.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace wheyfield::cli {

// Line and column count from 1; 0 = unknown. An empty file means that no file was read.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

class SourceMap {
 public:
  // Registers a file and gives the number that `put` takes.
  int add_file(std::string file);
  void put(std::string pointer, int file, int line, int column);
  // The place of `pointer`, or of its nearest ancestor that has one. Without any, the first file.
  Place find(std::string_view pointer) const;
  // Adds the places of another file; its places win.
  void merge(SourceMap other);

 private:
  struct Spot {
    int file;
    int line;
    int column;
  };
  std::vector<std::string> files_;
  std::unordered_map<std::string, Spot> spots_;
};

// One segment of a JSON pointer: "a/b" -> "a~1b", and back.
std::string escaped_segment(std::string_view name);
std::vector<std::string> pointer_segments(std::string_view pointer);

}  // namespace wheyfield::cli
