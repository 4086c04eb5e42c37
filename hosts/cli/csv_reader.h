// Reads comma, semicolon or tab separated text into a header and rows. Quoted cells may hold the
// separator, quotes ("" for one) and line ends. Cells are taken as text, trimmed of blanks around;
// rows without any text are left out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/input.h"

namespace wheyfield::cli {

struct CsvRow {
  int line = 0;  // where the row begins
  std::vector<std::string> cells;
};

struct CsvTable {
  char separator = ',';
  CsvRow header;  // names lower-cased, blanks inside become "_"
  std::vector<CsvRow> rows;
};

// Refusals: csv-quote-open (a quoted cell never ends; exit `unreadable`), csv-cells (a row with
// more or fewer cells than the header; exit `problems`), all that are found.
Reading<CsvTable> parse_csv(const std::string& text, const std::string& file);

// The separator that gives the most even columns over the first 20 rows; a comma when none does.
char separator_of(std::string_view text);

}  // namespace wheyfield::cli
