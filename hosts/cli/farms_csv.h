// A table of fields, one row each -> the `farms` of a season. The columns of a farm are repeated on
// each of its rows, or left blank after the first.
#pragma once

#include <string>

#include "cli/csv_reader.h"

namespace wheyfield::cli {

// The array of farms; places hold pointers such as "/farms/3/fields/0/area". A blank cell is an
// absent value.
// Refusals (exit `problems`): column-unknown (details: suggestion, known), column-twice,
// column-missing, farm-differs (two rows of one farm that do not agree: names both lines),
// row-twice (the same row again: names both lines).
Reading<Document> farms_from_csv(const CsvTable& table, const std::string& file);

// Reads and converts; refusals also of `read_text_file` and `parse_csv`.
Reading<Document> read_farms_file(const std::string& path);

}  // namespace wheyfield::cli
