#include "cli/page_printer.h"

#include <nlohmann/json.hpp>

#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

std::string member(const ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_string() ? found->get<std::string>() : "";
}

std::string underlined(const std::string& title, char mark) {
  const std::string shown = printable(title);
  return shown + "\n" + std::string(width(shown), mark) + "\n";
}

std::string list_text(const ordered_json& block, std::size_t columns) {
  std::string out;
  if (block.contains("items"))
    for (const ordered_json& item : block["items"])
      if (item.is_string()) out += wrapped(item.get<std::string>(), columns, "- ", "  ");
  return out;
}

std::string block_text(const ordered_json& block, std::size_t columns) {
  const std::string kind = member(block, "kind");
  if (kind == "heading") return underlined(member(block, "text"), '-');
  if (kind == "text") return wrapped(member(block, "text"), columns);
  if (kind == "caution") return wrapped(member(block, "text"), columns, "! ", "  ");
  if (kind == "list") return list_text(block, columns);
  if (kind == "table") return table_text(block, columns);
  return "";
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t columns, std::string_view first,
                    std::string_view rest) {
  std::string out;
  std::string line(first);
  bool empty = true;  // nothing on the line yet but what it begins with
  const auto end_line = [&] {
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    line = rest;
    empty = true;
  };
  while (!text.empty()) {
    const std::size_t end = text.find_first_of(" \n");
    const std::string word = printable(text.substr(0, end));
    if (!word.empty()) {
      if (!empty && width(line) + 1 + width(word) > columns) end_line();
      line += (empty ? "" : " ") + word;
      empty = false;
    }
    if (end == std::string_view::npos) break;
    if (text[end] == '\n') end_line();
    text.remove_prefix(end + 1);
  }
  if (!empty || out.empty()) end_line();
  return out;
}

std::string page_text(const ordered_json& page, std::size_t columns) {
  std::string out = underlined(member(page, "title"), '=');
  std::string before;
  if (!page.contains("blocks")) return out;
  for (const ordered_json& block : page["blocks"]) {
    const std::string text = block_text(block, columns);
    const std::string kind = member(block, "kind");
    if (text.empty()) continue;
    if (before != "heading") out += "\n";
    out += text;
    before = kind;
  }
  return out;
}

}  // namespace wheyfield::cli
