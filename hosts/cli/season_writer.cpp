#include "cli/season_writer.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      out += std::string("\\") + c;
    else if (byte < 0x20U || byte == 0x7FU)
      out += fmt::format("\\u{:04X}", byte);
    else
      out += c;
  }
  return out + "\"";
}

bool is_bare(const std::string& name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](unsigned char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
}

std::string key_text(const std::string& name) { return is_bare(name) ? name : quoted(name); }

bool is_list_of_tables(const ordered_json& value) {
  return value.is_array() && !value.empty() &&
         std::all_of(value.begin(), value.end(),
                     [](const ordered_json& v) { return v.is_object(); });
}

std::string value_text(const ordered_json& value) {
  if (value.is_string()) return quoted(value.get<std::string>());
  if (!value.is_array()) return value.dump();
  std::string out;
  for (const ordered_json& inner : value) out += (out.empty() ? "" : ", ") + value_text(inner);
  return "[" + out + "]";
}

void write_table(const ordered_json& table, const std::string& path, std::string& out);

void write_plain(const ordered_json& table, std::string& out) {
  for (const auto& [name, value] : table.items())
    if (!value.is_object() && !value.is_null() && !is_list_of_tables(value))
      out += key_text(name) + " = " + value_text(value) + "\n";
}

void write_inner(const ordered_json& table, const std::string& path, std::string& out) {
  for (const auto& [name, value] : table.items()) {
    const std::string inner = path.empty() ? key_text(name) : path + "." + key_text(name);
    if (value.is_object()) {
      out += fmt::format("{}[{}]\n", out.empty() ? "" : "\n", inner);
      write_table(value, inner, out);
    }
    if (!is_list_of_tables(value)) continue;
    for (const ordered_json& element : value) {
      out += fmt::format("{}[[{}]]\n", out.empty() ? "" : "\n", inner);
      write_table(element, inner, out);
    }
  }
}

void write_table(const ordered_json& table, const std::string& path, std::string& out) {
  write_plain(table, out);
  write_inner(table, path, out);
}

}  // namespace

std::string season_toml(const ordered_json& season) {
  std::string out;
  write_table(season, "", out);
  return out;
}

}  // namespace wheyfield::cli
