// Tables of one kind of rows -> a list of a request's body. Columns of weather readings: date, min,
// max; of monthly means: month, min, max; of rain: date, mm; of a heap: date, celsius, turned,
// height; of ingredients: name, and those of its numbers that are known.
#pragma once

#include <string>
#include <vector>

#include "cli/csv_reader.h"

namespace wheyfield::cli {

// A JSON array; places hold pointers such as "/rain/3/mm", and "/rain" for the whole. A blank cell
// is an absent value; the columns `others` may be left out. Refusals (exit `problems`):
// column-unknown (details: suggestion, known), column-twice, column-missing.
Reading<Document> rows_from_csv(const CsvTable& table, const std::string& file,
                                const std::string& list, const std::vector<std::string>& columns,
                                const std::vector<std::string>& others = {});

// Reads and converts; refusals also of `read_text_file` and `parse_csv`.
Reading<Document> read_readings_file(const std::string& path);
Reading<Document> read_months_file(const std::string& path);
Reading<Document> read_rain_file(const std::string& path);
Reading<Document> read_heap_file(const std::string& path);
Reading<Document> read_ingredients_file(const std::string& path);

}  // namespace wheyfield::cli
