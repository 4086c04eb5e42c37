#include "cli/farms_csv.h"

#include <algorithm>
#include <map>
#include <optional>

#include "api/fields.h"
#include "cli/text_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;

struct Column {
  const char* name;
  const char* key;
  bool of_farm;
  bool required = false;
};

// As named in the file, as the season names it.
constexpr Column known_columns[] = {{"farm", "code", true, true},
                                    {"place", "place", true},
                                    {"method", "method", true},
                                    {"mix_rate", "mix_rate", true},
                                    {"cap", "cap", true},
                                    {"can", "can", true},
                                    {"sprayer", "sprayer", true},
                                    {"borrows_sprayer_of", "borrows_sprayer_of", true},
                                    {"sprayer_last_held", "sprayer_last_held", true},
                                    {"trial_plot", "trial_plot", true},
                                    {"crop", "crop", false, true},
                                    {"area", "area", false, true},
                                    {"sowing", "sowing", false},
                                    {"sown_on", "sown_on", false},
                                    {"nursery_on", "nursery_on", false},
                                    {"seed", "seed", false},
                                    {"harvest_after", "harvest_after", false},
                                    {"own_count", "own_count", false},
                                    {"emerged_on", "emerged_on", false},
                                    {"flower_or_swelling_on", "flower_or_swelling_on", false},
                                    {"first_fruit_on", "first_fruit_on", false},
                                    {"seed_mass", "seed_mass", false},
                                    {"field_method", "method", false},
                                    {"per_plant", "per_plant", false},
                                    {"spacing", "spacing", false}};

const Column* column_named(const std::string& name) {
  const auto* found = std::find_if(std::begin(known_columns), std::end(known_columns),
                                   [&](const Column& column) { return name == column.name; });
  return found == std::end(known_columns) ? nullptr : found;
}

std::vector<std::string> column_names() {
  std::vector<std::string> names;
  for (const Column& column : known_columns) names.emplace_back(column.name);
  return names;
}

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

// A yes or no as the season wants it; everything else stays text.
json cell_value(const std::string& cell) {
  if (cell == "true" || cell == "false") return cell == "true";
  return cell;
}

class FarmsBuilder {
 public:
  FarmsBuilder(const CsvTable& table, const std::string& file) : table_(table), file_(file) {
    farms_.from_file = true;
    file_number_ = farms_.places.add_file(file);
    farms_.json = json::array();
  }

  Reading<Document> build() && {
    read_header();
    if (!problems_.empty()) return tl::make_unexpected(std::move(problems_));
    for (const CsvRow& row : table_.rows) add(row);
    if (!problems_.empty()) return tl::make_unexpected(std::move(problems_));
    return std::move(farms_);
  }

 private:
  void refuse(const char* code, int line, std::string field, std::string value,
              words::Values details) {
    problems_.push_back({code,
                         {file_, line, 0},
                         std::move(field),
                         std::move(value),
                         std::move(details),
                         exit_codes::problems});
  }

  void read_header() {
    const std::vector<std::string> known = column_names();
    for (const std::string& name : table_.header.cells) {
      const Column* column = column_named(name);
      if (column == nullptr) {
        const std::string near = api::nearest(name, known);
        refuse(near.empty() ? "column-unknown" : "column-unknown-near", table_.header.line, name,
               "", {{"known", joined(known)}, {"suggestion", near}});
      } else if (std::count(columns_.begin(), columns_.end(), column) != 0) {
        refuse("column-twice", table_.header.line, name, "", {});
      }
      columns_.push_back(column);
    }
    for (const Column& column : known_columns)
      if (column.required && std::count(columns_.begin(), columns_.end(), &column) == 0)
        refuse("column-missing", table_.header.line, column.name, "", {{"name", column.name}});
  }

  void add(const CsvRow& row) {
    const auto [same, is_new] = rows_seen_.emplace(row.cells, row.line);
    if (!is_new) {
      refuse("row-twice", row.line, "farm", code_of(row), {{"line", same->second}});
      return;
    }
    const std::size_t farm = farm_of(row);
    json& fields = farms_.json[farm]["fields"];
    const std::string at = pointer(farm) + "/fields/" + std::to_string(fields.size());
    json field = json::object();
    put(row, false, at, field);
    place(at, row.line);
    fields.push_back(std::move(field));
  }

  std::string code_of(const CsvRow& row) const {
    for (std::size_t i = 0; i < columns_.size(); ++i)
      if (columns_[i]->of_farm && columns_[i]->required) return row.cells[i];
    return "";
  }

  // The number of the row's farm, made when it is the first of its code.
  std::size_t farm_of(const CsvRow& row) {
    const auto known = farm_numbers_.find(code_of(row));
    if (known != farm_numbers_.end() && !code_of(row).empty()) {
      agree(row, known->second);
      return known->second;
    }
    const std::size_t farm = farms_.json.size();
    farm_numbers_[code_of(row)] = farm;
    json made = json::object();
    put(row, true, pointer(farm), made);
    made["fields"] = json::array();
    place(pointer(farm), row.line);
    farms_.json.push_back(std::move(made));
    return farm;
  }

  void agree(const CsvRow& row, std::size_t farm) {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (!columns_[i]->of_farm || row.cells[i].empty()) continue;
      const json& first = farms_.json[farm];
      const auto before = first.find(columns_[i]->key);
      if (before != first.end() && *before == cell_value(row.cells[i])) continue;
      refuse("farm-differs", row.line, columns_[i]->name, row.cells[i],
             {{"farm", code_of(row)},
              {"line", farms_.places.find(pointer(farm)).line},
              {"first", before == first.end() ? std::string() : text_of(*before)}});
    }
  }

  static std::string text_of(const json& value) {
    return value.is_string() ? value.get<std::string>() : value.dump();
  }

  void put(const CsvRow& row, bool of_farm, const std::string& at, json& object) {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (columns_[i]->of_farm != of_farm || row.cells[i].empty()) continue;
      object[columns_[i]->key] = cell_value(row.cells[i]);
      place(at + "/" + columns_[i]->key, row.line);
    }
  }

  static std::string pointer(std::size_t farm) { return "/farms/" + std::to_string(farm); }
  void place(const std::string& at, int line) { farms_.places.put(at, file_number_, line, 0); }

  const CsvTable& table_;
  const std::string& file_;
  int file_number_ = 0;
  std::vector<const Column*> columns_;
  std::map<std::string, std::size_t> farm_numbers_;
  std::map<std::vector<std::string>, int> rows_seen_;
  Document farms_;
  InputProblems problems_;
};

}  // namespace

Reading<Document> farms_from_csv(const CsvTable& table, const std::string& file) {
  return FarmsBuilder(table, file).build();
}

Reading<Document> read_farms_file(const std::string& path) {
  return read_text_file(path).and_then([&](const std::string& text) {
    return parse_csv(text, path).and_then([&](const CsvTable& table) {
      return farms_from_csv(table, path);
    });
  });
}

}  // namespace wheyfield::cli
