// What a person reads, as blocks that any host can show: screen, terminal, later paper.
//
// A page holds a title and blocks in reading order. Texts are finished sentences in the reader's
// language. No layout here: a terminal aligns tables, a phone restacks them.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace wheyfield::sheet {

struct Column {
  std::string title;
  bool right = false;  // numbers stand right
};

struct Block {
  enum class Kind { heading, text, caution, list, table };
  Kind kind = Kind::text;
  std::string text;                            // heading, text, caution
  std::vector<std::string> items;              // list
  std::vector<Column> columns;                 // table
  std::vector<std::vector<std::string>> rows;  // table, each as long as `columns`
};

class Page {
 public:
  Page(std::string id, std::string title) : id_(std::move(id)), title_(std::move(title)) {}
  Page& heading(std::string text);
  Page& text(std::string text);
  Page& caution(std::string text);
  // Empty lists and tables are left out.
  Page& list(std::vector<std::string> items);
  Page& table(std::vector<Column> columns, std::vector<std::vector<std::string>> rows);

  const std::string& id() const { return id_; }
  const std::string& title() const { return title_; }
  const std::vector<Block>& blocks() const { return blocks_; }

 private:
  std::string id_;
  std::string title_;
  std::vector<Block> blocks_;
};

// {"id","title","blocks":[{"kind","text"|"items"|"columns","rows"}]}
nlohmann::ordered_json to_json(const Page& page);

}  // namespace wheyfield::sheet
