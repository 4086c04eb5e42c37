// The pages of an answer as plain text for a terminal or a printer.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace wheyfield::cli {

constexpr std::size_t usual_columns = 80;

// One page {"title", "blocks"}: its title underlined, then headings, wrapped text, lists, cautions
// ("! ..."), tables. Blocks of an unknown kind are left out. Ends with a line end.
std::string page_text(const nlohmann::ordered_json& page, std::size_t columns = usual_columns);

// Words of `text` in lines of at most `columns` characters; a longer word has a line of its own.
// The first line begins with `first`, the others with `rest`; a line end in `text` is kept.
std::string wrapped(std::string_view text, std::size_t columns, std::string_view first = "",
                    std::string_view rest = "");

// {"columns": [{"title","align"}], "rows": [["..",..],..]}: two blanks between columns. What does
// not fit is wrapped inside its column, the widest column first.
std::string table_text(const nlohmann::ordered_json& table, std::size_t columns = usual_columns);

}  // namespace wheyfield::cli
