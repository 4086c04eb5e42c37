#include "cli/weather_csv.h"

#include <algorithm>

#include "api/fields.h"
#include "cli/text_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using Names = std::vector<std::string>;

bool holds(const Names& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

InputProblems header_problems(const CsvRow& header, const std::string& file, const Names& needed,
                              const Names& others) {
  InputProblems problems;
  Names columns = needed;
  columns.insert(columns.end(), others.begin(), others.end());
  const auto refuse = [&](const char* code, const std::string& name, words::Values details) {
    problems.push_back(
        {code, {file, header.line, 0}, name, "", std::move(details), exit_codes::problems});
  };
  std::string known;
  for (const std::string& name : columns) known += (known.empty() ? "" : ", ") + name;
  for (auto name = header.cells.begin(); name != header.cells.end(); ++name) {
    if (!holds(columns, *name)) {
      const std::string near = api::nearest(*name, columns);
      refuse(near.empty() ? "column-unknown" : "column-unknown-near", *name,
             {{"known", known}, {"suggestion", near}});
    } else if (std::find(header.cells.begin(), name, *name) != name) {
      refuse("column-twice", *name, {});
    }
  }
  for (const std::string& name : needed)
    if (!holds(header.cells, name)) refuse("column-missing", name, {{"name", name}});
  return problems;
}

Reading<Document> read_rows(const std::string& path, const std::string& list, const Names& columns,
                            const Names& others = {}) {
  return read_text_file(path).and_then([&](const std::string& text) {
    return parse_csv(text, path).and_then([&](const CsvTable& table) {
      return rows_from_csv(table, path, list, columns, others);
    });
  });
}

}  // namespace

Reading<Document> rows_from_csv(const CsvTable& table, const std::string& file,
                                const std::string& list, const Names& columns,
                                const Names& others) {
  if (auto problems = header_problems(table.header, file, columns, others); !problems.empty())
    return tl::make_unexpected(std::move(problems));
  Document rows;
  rows.json = json::array();
  const int number = rows.places.add_file(file);
  rows.places.put("/" + list, number, table.header.line, 0);
  for (const CsvRow& row : table.rows) {
    const std::string at = "/" + list + "/" + std::to_string(rows.json.size());
    rows.places.put(at, number, row.line, 0);
    json one = json::object();
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      if (!row.cells[i].empty()) one[table.header.cells[i]] = row.cells[i];
    rows.json.push_back(std::move(one));
  }
  return rows;
}

Reading<Document> read_readings_file(const std::string& path) {
  return read_rows(path, "readings", {"date", "min", "max"});
}
Reading<Document> read_months_file(const std::string& path) {
  return read_rows(path, "months", {"month", "min", "max"});
}
Reading<Document> read_rain_file(const std::string& path) {
  return read_rows(path, "rain", {"date", "mm"});
}
Reading<Document> read_heap_file(const std::string& path) {
  return read_rows(path, "readings", {"date", "celsius", "turned"}, {"height"});
}
Reading<Document> read_ingredients_file(const std::string& path) {
  return read_rows(
      path, "ingredients", {"name"},
      {"amount", "at_least", "at_most", "price", "nitrogen", "ratio", "moisture", "density"});
}

}  // namespace wheyfield::cli
