#include "cli/notes_csv.h"

#include "cli/text_file.h"
#include "quantity/number_text.h"

namespace wheyfield::cli {

using nlohmann::json;
using nlohmann::ordered_json;

namespace {

bool starts_a_formula(const std::string& cell) {
  return !cell.empty() && std::string_view("=+-@\t\r").find(cell[0]) != std::string_view::npos;
}

std::string guarded(const std::string& cell) {
  const bool formula = starts_a_formula(cell) && !quantity::parse_number(cell);
  return formula ? "'" + cell : cell;
}

std::string unguarded(const std::string& cell) {
  return cell.size() > 1 && cell[0] == '\'' && starts_a_formula(cell.substr(1)) ? cell.substr(1)
                                                                                : cell;
}

std::string quoted(const std::string& cell, char separator) {
  if (cell.find_first_of(std::string("\"\r\n") + separator) == std::string::npos) return cell;
  std::string out = "\"";
  for (const char c : cell) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

std::string line(const ordered_json& cells, char separator) {
  std::string out;
  bool first = true;
  for (const ordered_json& cell : cells) {
    if (!first) out += separator;
    first = false;
    out += quoted(guarded(cell.get<std::string>()), separator);
  }
  return out + "\r\n";
}

}  // namespace

std::string csv_text(const ordered_json& columns, const ordered_json& rows, CsvFor reader) {
  const bool spreadsheet = reader == CsvFor::spreadsheet;
  const char separator = spreadsheet ? ';' : ',';
  std::string out = spreadsheet ? "\xEF\xBB\xBF" : "";
  out += line(columns, separator);
  for (const ordered_json& row : rows) out += line(row, separator);
  return out;
}

json rows_of(const CsvTable& table) {
  json rows = json::array();
  for (const CsvRow& row : table.rows) {
    json one = {{"body", json::object()}};
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const std::string cell = unguarded(row.cells[i]);
      const std::string& name = table.header.cells[i];
      if (cell.empty()) continue;
      (name == "id" || name == "on" ? one : one["body"])[name] = cell;
    }
    rows.push_back(std::move(one));
  }
  return rows;
}

Reading<Document> read_rows_file(const std::string& path) {
  const Reading<std::string> text = read_text_file(path);
  if (!text) return tl::make_unexpected(text.error());
  const Reading<CsvTable> table = parse_csv(*text, path);
  if (!table) return tl::make_unexpected(table.error());
  Document document;
  document.json = {{"rows", rows_of(*table)}};
  document.from_file = true;
  const int file = document.places.add_file(path);
  for (std::size_t i = 0; i < table->rows.size(); ++i)
    document.places.put("/rows/" + std::to_string(i), file, table->rows[i].line, 0);
  return document;
}

}  // namespace wheyfield::cli
