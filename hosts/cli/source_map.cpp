#include "cli/source_map.h"

namespace wheyfield::cli {

int SourceMap::add_file(std::string file) {
  files_.push_back(std::move(file));
  return static_cast<int>(files_.size()) - 1;
}

void SourceMap::put(std::string pointer, int file, int line, int column) {
  spots_[std::move(pointer)] = {file, line, column};
}

Place SourceMap::find(std::string_view pointer) const {
  std::string at(pointer);
  for (;;) {
    const auto spot = spots_.find(at);
    if (spot != spots_.end())
      return {files_[static_cast<std::size_t>(spot->second.file)], spot->second.line,
              spot->second.column};
    const std::size_t slash = at.rfind('/');
    if (slash == std::string::npos) break;
    at.erase(slash);
  }
  return {files_.empty() ? "" : files_.front(), 0, 0};
}

void SourceMap::merge(SourceMap other) {
  const int offset = static_cast<int>(files_.size());
  for (std::string& file : other.files_) files_.push_back(std::move(file));
  for (const auto& [pointer, spot] : other.spots_)
    spots_[pointer] = {spot.file + offset, spot.line, spot.column};
}

std::string escaped_segment(std::string_view name) {
  std::string out;
  for (const char c : name)
    if (c == '~')
      out += "~0";
    else if (c == '/')
      out += "~1";
    else
      out += c;
  return out;
}

namespace {

std::string plain_segment(std::string_view segment) {
  std::string out;
  for (std::size_t i = 0; i < segment.size(); ++i) {
    const bool escape = segment[i] == '~' && i + 1 < segment.size();
    if (!escape) {
      out += segment[i];
      continue;
    }
    out += segment[++i] == '1' ? '/' : '~';
  }
  return out;
}

}  // namespace

std::vector<std::string> pointer_segments(std::string_view pointer) {
  std::vector<std::string> segments;
  while (!pointer.empty() && pointer.front() == '/') {
    pointer.remove_prefix(1);
    const std::size_t end = pointer.find('/');
    segments.push_back(plain_segment(pointer.substr(0, end)));
    pointer = end == std::string_view::npos ? std::string_view() : pointer.substr(end);
  }
  return segments;
}

}  // namespace wheyfield::cli
