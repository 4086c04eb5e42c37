#include <algorithm>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/page_printer.h"
#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t gap = 2;
constexpr std::size_t narrowest = 8;

struct TableColumn {
  std::string title;
  bool right = false;
  std::size_t width = 0;
};

using Cells = std::vector<std::string>;

std::vector<TableColumn> columns_of(const ordered_json& table) {
  std::vector<TableColumn> columns;
  if (!table.contains("columns")) return columns;
  for (const ordered_json& column : table["columns"])
    columns.push_back({printable(column.value("title", "")), column.value("align", "") == "right"});
  return columns;
}

std::vector<Cells> rows_of(const ordered_json& table, std::size_t count) {
  std::vector<Cells> rows;
  if (!table.contains("rows")) return rows;
  for (const ordered_json& row : table["rows"]) {
    Cells cells;
    for (const ordered_json& cell : row)
      cells.push_back(printable(cell.is_string() ? cell.get<std::string>() : cell.dump()));
    cells.resize(count);
    rows.push_back(std::move(cells));
  }
  return rows;
}

void measure(std::vector<TableColumn>& columns, const std::vector<Cells>& rows) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    columns[i].width = width(columns[i].title);
    for (const Cells& row : rows) columns[i].width = std::max(columns[i].width, width(row[i]));
  }
}

// Takes from the widest column until the table fits or nothing is left to take.
void fit(std::vector<TableColumn>& columns, std::size_t most) {
  std::size_t all = gap * (columns.size() - 1);
  for (const TableColumn& column : columns) all += column.width;
  while (all > most) {
    const auto widest = std::max_element(
        columns.begin(), columns.end(),
        [](const TableColumn& a, const TableColumn& b) { return a.width <= b.width; });
    if (widest->width <= narrowest) return;
    --widest->width;
    --all;
  }
}

Cells lines_of(const std::string& cell, std::size_t columns) {
  Cells lines;
  const std::string text = wrapped(cell, columns);
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = text.find('\n', start);
    lines.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return lines;
}

std::string padded(const std::string& text, const TableColumn& column) {
  const std::size_t used = width(text);
  const std::string blanks(used < column.width ? column.width - used : 0, ' ');
  return column.right ? blanks + text : text + blanks;
}

std::string row_text(const Cells& row, const std::vector<TableColumn>& columns) {
  std::vector<Cells> cells;
  std::size_t height = 1;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    cells.push_back(lines_of(row[i], columns[i].width));
    height = std::max(height, cells.back().size());
  }
  std::string out;
  for (std::size_t n = 0; n < height; ++n) {
    std::string line;
    for (std::size_t i = 0; i < columns.size(); ++i)
      line += (i == 0 ? "" : std::string(gap, ' ')) +
              padded(n < cells[i].size() ? cells[i][n] : "", columns[i]);
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

}  // namespace

std::string table_text(const ordered_json& table, std::size_t most) {
  std::vector<TableColumn> columns = columns_of(table);
  if (columns.empty()) return "";
  const std::vector<Cells> rows = rows_of(table, columns.size());
  measure(columns, rows);
  fit(columns, most);
  Cells titles;
  Cells rules;
  for (const TableColumn& column : columns) {
    titles.push_back(column.title);
    rules.emplace_back(column.width, '-');
  }
  std::string out = row_text(titles, columns) + row_text(rules, columns);
  for (const Cells& row : rows) out += row_text(row, columns);
  return out;
}

}  // namespace wheyfield::cli
