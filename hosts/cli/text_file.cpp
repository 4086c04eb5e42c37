#include "cli/text_file.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

namespace fs = std::filesystem;

InputProblem whole_file(const char* code, const std::string& path) {
  return {code, {path, 0, 0}, "", ""};
}

InputProblem too_large(const std::string& path, std::uintmax_t limit) {
  InputProblem problem = whole_file("file-too-large", path);
  problem.details = {{"megabytes", static_cast<long long>(limit / (std::uintmax_t{1024} * 1024))}};
  return problem;
}

// A pipe tells no size, so that no more than one byte over the limit is read of anything.
std::string taken_from(std::istream& in, std::uintmax_t limit) {
  std::string text;
  char block[65536];
  while (text.size() <= limit && in) {
    in.read(block, sizeof block);
    text.append(block, static_cast<std::size_t>(in.gcount()));
  }
  return text;
}

InputProblem not_utf8(std::string_view text, std::size_t bad, const std::string& path) {
  static constexpr char digits[] = "0123456789ABCDEF";
  const auto byte = static_cast<unsigned char>(text[bad]);
  return {"file-not-utf8", place_of(text, bad, path), "",
          std::string("0x") + digits[byte >> 4U] + digits[byte & 15U]};
}

}  // namespace

Reading<std::string> read_text_file(const std::string& path, std::uintmax_t limit) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) return input_failure(whole_file("file-missing", path));
  if (fs::is_directory(status)) return input_failure(whole_file("file-is-folder", path));
  if (fs::is_regular_file(status) && fs::file_size(path, error) > limit && !error)
    return input_failure(too_large(path, limit));
  std::ifstream in(path, std::ios::binary);
  if (!in) return input_failure(whole_file("file-unreadable", path));
  std::string text = taken_from(in, limit);
  if (in.bad()) return input_failure(whole_file("file-unreadable", path));
  if (text.size() > limit) return input_failure(too_large(path, limit));
  if (text.compare(0, 3, "\xEF\xBB\xBF") == 0) text.erase(0, 3);
  if (text.find_first_not_of(" \t\r\n") == std::string::npos)
    return input_failure(whole_file("file-empty", path));
  const std::size_t bad = first_bad_byte(text);
  if (bad != std::string::npos) return input_failure(not_utf8(text, bad, path));
  return text;
}

Place place_of(std::string_view text, std::size_t offset, const std::string& file) {
  const std::string_view before = text.substr(0, offset);
  const std::size_t start = before.rfind('\n') + 1;  // npos + 1 is 0
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  return {file, static_cast<int>(line), static_cast<int>(width(before.substr(start))) + 1};
}

std::string line_of(std::string_view text, int line) {
  std::size_t start = 0;
  for (int n = 1; n < line && start != std::string_view::npos; ++n) {
    start = text.find('\n', start);
    if (start != std::string_view::npos) ++start;
  }
  if (start == std::string_view::npos) return "";
  std::string_view found = text.substr(start, text.find('\n', start) - start);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return std::string(found);
}

}  // namespace wheyfield::cli
