// TOML -> JSON with the place of every value. Dates become ISO text; everything else keeps its
// kind. Values are not judged here: the core does.
#pragma once

#include <string>
#include <string_view>

#include "cli/input.h"

namespace wheyfield::cli {

// Refusals (exit code `unreadable`), besides those of `read_text_file`: toml-date (a day that the
// calendar does not have), toml-key-twice, toml-nested, toml-syntax. Each names the line and shows
// it as the value.
Reading<Document> parse_toml(const std::string& text, const std::string& file);
Reading<Document> read_toml_file(const std::string& path);

}  // namespace wheyfield::cli
