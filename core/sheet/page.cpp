#include "sheet/page.h"

#include <utility>

#include <nlohmann/json.hpp>

namespace wheyfield::sheet {
namespace {

using Json = nlohmann::ordered_json;

Json table_json(const Block& block) {
  Json columns = Json::array();
  for (const Column& column : block.columns)
    columns.push_back({{"title", column.title}, {"align", column.right ? "right" : "left"}});
  return {{"kind", "table"}, {"columns", std::move(columns)}, {"rows", block.rows}};
}

Json block_json(const Block& block) {
  switch (block.kind) {
    case Block::Kind::heading:
      return {{"kind", "heading"}, {"text", block.text}};
    case Block::Kind::caution:
      return {{"kind", "caution"}, {"text", block.text}};
    case Block::Kind::list:
      return {{"kind", "list"}, {"items", block.items}};
    case Block::Kind::table:
      return table_json(block);
    case Block::Kind::text:
      break;
  }
  return {{"kind", "text"}, {"text", block.text}};
}

}  // namespace

Page& Page::heading(std::string text) {
  blocks_.push_back({Block::Kind::heading, std::move(text), {}, {}, {}});
  return *this;
}

Page& Page::text(std::string text) {
  blocks_.push_back({Block::Kind::text, std::move(text), {}, {}, {}});
  return *this;
}

Page& Page::caution(std::string text) {
  blocks_.push_back({Block::Kind::caution, std::move(text), {}, {}, {}});
  return *this;
}

Page& Page::list(std::vector<std::string> items) {
  if (!items.empty()) blocks_.push_back({Block::Kind::list, "", std::move(items), {}, {}});
  return *this;
}

Page& Page::table(std::vector<Column> columns, std::vector<std::vector<std::string>> rows) {
  if (!rows.empty())
    blocks_.push_back({Block::Kind::table, "", {}, std::move(columns), std::move(rows)});
  return *this;
}

Json to_json(const Page& page) {
  Json blocks = Json::array();
  for (const Block& block : page.blocks()) blocks.push_back(block_json(block));
  return {{"id", page.id()}, {"title", page.title()}, {"blocks", std::move(blocks)}};
}

}  // namespace wheyfield::sheet
