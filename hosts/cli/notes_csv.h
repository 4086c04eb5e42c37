// Notes of one kind as a table, out to a spreadsheet and back.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "cli/csv_reader.h"

namespace wheyfield::cli {

// Which program reads the table: any (RFC 4180, no byte order mark, lines end in CR LF), or a
// spreadsheet on this machine (byte order mark, semicolons).
enum class CsvFor { any_program, spreadsheet };

// `columns` and `rows` of journal.table. Texts that a spreadsheet would take for a formula (they
// begin with = + - @, a tab or CR, and are no numbers) get an apostrophe in front.
std::string csv_text(const nlohmann::ordered_json& columns, const nlohmann::ordered_json& rows,
                     CsvFor reader);

// The `rows` of journal.rows: the columns `id` and `on` may be left out, the others are members. A
// blank cell is no value; a guarding apostrophe is taken off again.
nlohmann::json rows_of(const CsvTable& table);

// The rows with the place of each cell, for messages.
Reading<Document> read_rows_file(const std::string& path);

}  // namespace wheyfield::cli
