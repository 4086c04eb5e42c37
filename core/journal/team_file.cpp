#include "journal/team_file.h"

#include <algorithm>
#include <optional>

#include "journal/base64.h"
#include "journal/crc32.h"
#include "journal/packed_notes.h"

namespace wheyfield::journal {
namespace {

using outcome::failure;
using outcome::Problem;
using outcome::Result;

constexpr std::string_view block_begins = "-----BEGIN WHEYFIELD NOTES-----";
constexpr std::string_view block_ends = "-----END WHEYFIELD NOTES-----";
constexpr std::string_view blanks = " \t\r";
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::uint64_t block_format = 1;
constexpr std::size_t line_length = 76;

std::string_view without_blanks(std::string_view line) {
  const std::size_t first = line.find_first_not_of(blanks);
  if (first == line.npos) return {};
  return line.substr(first, line.find_last_not_of(blanks) - first + 1);
}

// Takes the first line off `rest`, without its line end and blanks.
std::string_view take_line(std::string_view& rest) {
  const std::size_t end = std::min(rest.find('\n'), rest.size());
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return without_blanks(line);
}

std::string eight_hex(std::uint32_t number) {
  std::string text;
  for (int shift = 28; shift >= 0; shift -= 4) text += "0123456789abcdef"[number >> shift & 15];
  return text;
}

std::optional<std::uint32_t> read_eight_hex(std::string_view text) {
  if (text.size() != 8) return std::nullopt;
  std::uint32_t number = 0;
  for (const char c : text) {
    const bool digit = c >= '0' && c <= '9';
    if (!digit && !(c >= 'a' && c <= 'f')) return std::nullopt;
    number = number << 4 | static_cast<std::uint32_t>(digit ? c - '0' : c - 'a' + 10);
  }
  return number;
}

// 1 to 9 digits, no leading zero.
std::optional<std::uint64_t> read_count(std::string_view text) {
  if (text.empty() || text.size() > 9 || (text.front() == '0' && text.size() > 1))
    return std::nullopt;
  std::uint64_t number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + static_cast<std::uint64_t>(c - '0');
  }
  return number;
}

// The words of a line, one blank between two.
std::vector<std::string_view> words_of(std::string_view line) {
  std::vector<std::string_view> words;
  for (std::size_t blank = line.find(' '); blank != line.npos; blank = line.find(' ')) {
    words.push_back(line.substr(0, blank));
    line.remove_prefix(blank + 1);
    if (words.size() > 4) break;
  }
  words.push_back(line);
  return words;
}

Problem plain_problem(const char* code) { return Problem{code, "", "", {}}; }

// What stands between the borders.
struct TeamBlock {
  std::string_view header;
  std::string base64;
};

class BlockFinder {
 public:
  Result<TeamBlock> find(std::string_view text) {
    if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
      text.remove_prefix(byte_order_mark.size());
    while (!text.empty())
      if (!line(take_line(text))) return failure(plain_problem("team-file-two-blocks"));
    if (blocks_ == 0)
      return failure(plain_problem(ends_ > 0 ? "team-file-cut-off"
                                   : quoted_ ? "team-file-quoted"
                                             : "team-file-no-block"));
    if (inside_) return failure(plain_problem("team-file-cut-off"));
    return std::move(block_);
  }

 private:
  // False at a second block.
  bool line(std::string_view line) {
    if (line == block_begins) {
      inside_ = true;
      return ++blocks_ == 1;
    }
    if (line == block_ends) {
      ++ends_;
      inside_ = false;
    } else if (inside_ && !line.empty()) {
      inner(line);
    } else if (line.find(block_begins) != line.npos) {
      quoted_ = true;
    }
    return true;
  }

  void inner(std::string_view line) {
    if (block_.header.empty())
      block_.header = line;
    else
      block_.base64 += line;
  }

  TeamBlock block_;
  int blocks_ = 0;
  int ends_ = 0;
  bool inside_ = false;
  bool quoted_ = false;
};

}  // namespace

Problem team_file_changed() { return plain_problem("team-file-changed"); }

Problem team_file_too_large() {
  return Problem{"team-file-too-large", "", "", {{"mb", std::to_string(most_unpacked >> 20)}}};
}

std::string compose(const std::vector<std::string>& lines_for_people, const TeamFilePart& part) {
  std::string text;
  for (const std::string& lines : lines_for_people) {
    std::string_view rest = lines;
    do {
      const std::string_view line = take_line(rest);
      const bool border = line == block_begins || line == block_ends;
      text.append(border ? ". " : "").append(line).append("\n");
    } while (!rest.empty());
  }
  const std::string base64 = to_base64(part.bytes);
  text.append(block_begins).append("\n");
  text += std::to_string(block_format) + " " + std::to_string(part.count) + " " +
          std::to_string(base64.size()) + " " + eight_hex(part.crc) + "\n";
  for (std::size_t i = 0; i < base64.size(); i += line_length)
    text.append(base64, i, line_length).append("\n");
  return text.append(block_ends).append("\n");
}

Result<TeamFilePart> split(std::string_view text) {
  const auto block = BlockFinder().find(text);
  if (!block) return failure(block.error());
  const std::vector<std::string_view> words = words_of(block->header);
  const auto format = read_count(words[0]);
  if (format && *format > block_format)
    return failure(Problem{"team-file-format-newer", "", "", {{"format", std::string(words[0])}}});
  if (format != block_format || words.size() != 4) return failure(team_file_changed());
  const auto count = read_count(words[1]);
  const auto length = read_count(words[2]);
  const auto crc = read_eight_hex(words[3]);
  if (!count || !length || !crc) return failure(team_file_changed());
  if (block->base64.size() < *length) return failure(plain_problem("team-file-cut-off"));
  auto bytes = from_base64(block->base64);
  if (block->base64.size() != *length || !bytes) return failure(team_file_changed());
  return TeamFilePart{static_cast<std::size_t>(*count), std::move(*bytes), *crc};
}

Result<std::vector<Event>> check(const TeamFilePart& part, std::string_view unpacked) {
  if (crc32_of(unpacked) != part.crc) return failure(team_file_changed());
  auto events = unpack(unpacked);
  if (events && events->size() != part.count) return failure(team_file_changed());
  return events;
}

}  // namespace wheyfield::journal
