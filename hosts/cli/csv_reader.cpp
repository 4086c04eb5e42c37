#include "cli/csv_reader.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

constexpr std::size_t looked_at = 20;

std::string trimmed(const std::string& text) {
  const std::size_t start = text.find_first_not_of(" \t\r\n");
  if (start == std::string::npos) return "";
  return text.substr(start, text.find_last_not_of(" \t\r\n") - start + 1);
}

// Cuts a text into rows. After the last row, `open_quote()` tells the line of a quote never closed.
class Cutter {
 public:
  Cutter(std::string_view text, char separator) : text_(text), separator_(separator) {}

  bool next(CsvRow& row) {
    if (at_ >= text_.size()) return false;
    row = {line_, {}};
    while (cell(row)) {
    }
    return true;
  }
  int open_quote() const { return open_quote_; }

 private:
  // Reads one cell; false when it was the row's last.
  bool cell(CsvRow& row) {
    std::string cell;
    while (at_ < text_.size() && (text_[at_] == ' ' || (text_[at_] == '\t' && separator_ != '\t')))
      ++at_;
    if (at_ < text_.size() && text_[at_] == '"') quoted(cell);
    while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\n')
      cell += text_[at_++];
    row.cells.push_back(trimmed(cell));
    if (at_ >= text_.size()) return false;
    const bool more = text_[at_++] == separator_;
    if (!more) ++line_;
    return more;
  }

  void quoted(std::string& cell) {
    const int start = line_;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '\n') ++line_;
      if (text_[at_] != '"') {
        cell += text_[at_];
        continue;
      }
      if (text_.substr(at_ + 1, 1) != "\"") {
        ++at_;
        return;
      }
      cell += text_[at_++];
    }
    open_quote_ = start;
  }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
  int open_quote_ = 0;
};

bool blank(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return cell.empty(); });
}

// How many of the first rows have as many cells as the first one; 0 when that is one cell only.
std::size_t even_rows(std::string_view text, char separator) {
  Cutter cutter(text, separator);
  CsvRow row;
  std::size_t columns = 0;
  std::size_t even = 0;
  for (std::size_t n = 0; n < looked_at && cutter.next(row); ++n) {
    if (blank(row)) continue;
    if (columns == 0) columns = row.cells.size();
    if (row.cells.size() == columns) ++even;
  }
  return columns > 1 ? even : 0;
}

void tidy_names(CsvRow& header) {
  for (std::string& name : header.cells)
    for (char& c : name)
      c = c == ' ' || c == '-' ? '_'
                               : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}

InputProblem uneven(const CsvRow& row, std::size_t columns, const std::string& file) {
  InputProblem problem{"csv-cells", {file, row.line, 0}, "", shortened(row.cells.front(), 30)};
  problem.details = {{"cells", row.cells.size()}, {"columns", columns}};
  problem.exit = exit_codes::problems;
  return problem;
}

}  // namespace

char separator_of(std::string_view text) {
  static constexpr std::array<char, 3> known{',', ';', '\t'};
  char best = ',';
  std::size_t most = 0;
  for (const char separator : known) {
    const std::size_t even = even_rows(text, separator);
    if (even > most) {
      most = even;
      best = separator;
    }
  }
  return best;
}

Reading<CsvTable> parse_csv(const std::string& text, const std::string& file) {
  CsvTable table;
  InputProblems problems;
  table.separator = separator_of(text);
  Cutter cutter(text, table.separator);
  for (CsvRow row; cutter.next(row);) {
    if (blank(row)) continue;
    if (table.header.cells.empty()) {
      table.header = row;
      continue;
    }
    if (row.cells.size() != table.header.cells.size())
      problems.push_back(uneven(row, table.header.cells.size(), file));
    table.rows.push_back(std::move(row));
  }
  if (cutter.open_quote() != 0)
    return input_failure({"csv-quote-open", {file, cutter.open_quote(), 0}, "", ""});
  if (!problems.empty()) return tl::make_unexpected(std::move(problems));
  tidy_names(table.header);
  return table;
}

}  // namespace wheyfield::cli
