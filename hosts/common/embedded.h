// The data bundle and the word catalogues, carried inside the program so that it needs no files.
// The texts are written by tools/bundle.py at build time from data/.
#pragma once

#include <string_view>

namespace wheyfield::embedded {

// All of data/*.toml as one JSON object: the "data" of the facade's `open`.
std::string_view data_json();

// data/words/<language>.po as JSON: the "words" of the facade's `open`. Empty when there is no
// catalogue for `language`.
std::string_view words_json(std::string_view language);

}  // namespace wheyfield::embedded
