// JSON that stands in itself thousands of levels deep: the JSON library reads it, and then copies
// and writes it by functions that call themselves, until the stack ends the program.
#pragma once

#include <string_view>

namespace wheyfield::journal {

// Are there more than `levels` brackets open at once? For a text before it is read, JSON or not.
bool deeper_than(std::string_view json, int levels);

}  // namespace wheyfield::journal
